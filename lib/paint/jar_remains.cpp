#include "lakebound/paint/jar_remains.hpp"

#include <algorithm>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void add_once(PaintOfLake& paint, const PreservativePart& part) {
    const bool there = std::any_of(paint.preservatives.begin(), paint.preservatives.end(),
                                   [&part](const PreservativePart& each) { return each.ingredient == part.ingredient; });
    if (!there) paint.preservatives.push_back(part);
}

void add_own(PaintOfLake& paint, const Ingredient& part) {
    if (part.works_as) add_once(paint, {part.id, part.name, *part.works_as, true});
}

PaintOfLake own_part(const Medium& medium, Process process) {
    PaintOfLake paint{process, false, MassFraction::of(1.0), {}};
    for (const auto& part : medium.parts)
        add_own(paint, part.ingredient);
    return paint;
}

void add_at_hand(PaintOfLake& paint, const std::vector<PreservativePart>& at_hand) {
    if (shuns_water(paint.process)) return; // nothing moulds in oil
    for (const PreservativePart& part : at_hand)
        add_once(paint, part);
}

} // namespace

std::optional<PreservativePart> preservative_at_hand(const Ingredient& ingredient) {
    if (!ingredient.works_as) return std::nullopt;
    return PreservativePart{ingredient.id, ingredient.name, *ingredient.works_as, false};
}

PaintOfLake paint_of_lake(const Medium& medium, Process process, const std::vector<PreservativePart>& at_hand) {
    PaintOfLake paint = own_part(medium, process);
    add_at_hand(paint, at_hand);
    return paint;
}

PaintOfLake paint_of_lake(const Recipe& recipe, MassFraction share, const Vessel* vessel, const std::vector<PreservativePart>& at_hand) {
    PaintOfLake paint = own_part(recipe.medium, recipe.family.process);
    paint.share = share;
    paint.in_tube = takes_water_from_air(paint.process) && vessel != nullptr && vessel->filled_by == FilledBy::wet_volume;
    for (const auto& additive : recipe.additives)
        if (additive.dose.value() > 0.0) add_own(paint, additive.ingredient);
    add_at_hand(paint, at_hand);
    return paint;
}

JarRemains jar_remains(const PaintOfLake& paint, const LakeRemains& lake, const LakeLimits& limits) {
    const double share = paint.share.value();
    if (!(share > 0.0)) throw_out_of_range("share of the jar in the pigment", share, "", "above 0");
    JarRemains remains;
    if (lake.ph) {
        const Ph ph = lake.ph->value();
        const PhDifference u = lake.ph->standard_uncertainty();
        for (const PreservativePart& part : paint.preservatives)
            remains.preservatives.push_back(
                {part, active_share(part.acid, ph), chance_dead(part.acid, ph, u, limits.preservative_active)});
        remains.alkaline = Probability::of(1.0 - probability_below(lake.ph->distribution(), limits.alkaline_above.value()));
    }
    if (lake.salts) {
        const MassFraction borne = shuns_water(paint.process) || paint.in_tube ? limits.salts_for_oil : limits.salts_allowed;
        const double below = probability_below(lake.salts->distribution(), borne.value() / share);
        remains.salts = SaltsInPaint{MassFraction::of(share * lake.salts->value().value()), borne, Probability::of(1.0 - below)};
    }
    return remains;
}

} // namespace lakebound
