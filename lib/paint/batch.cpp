#include "lakebound/paint/batch.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"
#include "lakebound/quantity/text.hpp"
#include "process_extras.hpp"

namespace lakebound {
namespace {

constexpr double slack = 1e-9; // a batch sized to use up the jar must fit the jar

Formulation formulation_of(const BatchRequest& request) {
    return formulate(request.recipe, request.aim ? *request.aim : aim_of(request.recipe));
}

const Vessel* vessel_of(const BatchRequest& request) {
    if (const auto* vessels = std::get_if<VesselCount>(&request.amount)) return &vessels->vessel;
    if (request.vessel) return &*request.vessel;
    return request.recipe.vessel ? &*request.recipe.vessel : nullptr;
}

Mass usable(const BatchRequest& request) {
    const Mass left = request.jar->net_mass - request.bench.reserve;
    return left.value() > 0.0 ? left : Mass();
}

const PigmentPart& jar_part(const BatchRequest& request) {
    if (request.jar->pigment >= request.recipe.pigments.size())
        throw_out_of_range("index of the pigment in the jar", static_cast<double>(request.jar->pigment), "",
                           "one of the recipe's pigments");
    return request.recipe.pigments[request.jar->pigment];
}

WeighSheet sheet_of(const BatchRequest& request, const Composition& c) {
    return weigh_sheet(request.recipe, c, request.bench, request.practice.small_amounts);
}

/// Needs of a composition, one line for each id.
struct Need {
    std::string id;
    Mass mass;
};
std::vector<Need> needs(const BatchRequest& request, const Composition& c) {
    std::vector<Need> list;
    const auto add = [&list](const std::string& id, Mass mass) {
        for (Need& n : list)
            if (n.id == id) {
                n.mass += mass;
                return;
            }
        list.push_back({id, mass});
    };
    const Recipe& recipe = request.recipe;
    for (std::size_t i = 0; i < recipe.pigments.size(); ++i)
        add(recipe.pigments[i].pigment.id, c.pigments[i]);
    // A ready medium at hand is used as it is; its parts need no stock of their own.
    const bool ready = std::any_of(request.stocks.begin(), request.stocks.end(),
                                   [&](const Stock& s) { return s.id == recipe.medium.id; });
    if (ready)
        add(recipe.medium.id, total_medium(c));
    else
        for (std::size_t i = 0; i < recipe.medium.parts.size(); ++i)
            add(recipe.medium.parts[i].ingredient.id, c.medium_parts[i]);
    for (std::size_t i = 0; i < recipe.additives.size(); ++i)
        add(recipe.additives[i].ingredient.id, c.additives[i]);
    if (c.working_water.value() > 0.0) add("water", c.working_water);
    for (const CarrierOnSlab& carrier : sheet_of(request, c).carriers)
        add(carrier.id, carrier.mass);
    return list;
}

/// What runs out first for a batch of this composition. `keep_reserve`: the jar gives only what is
/// above the reserve.
std::optional<LimitingStock> limiting_stock(const BatchRequest& request, const Composition& c,
                                            bool keep_reserve) {
    std::optional<LimitingStock> first;
    const auto consider = [&first](const std::string& id, Mass needed, Mass available) {
        if (!(needed.value() > 0.0)) return;
        const double factor = available.value() / needed.value();
        if (!first || factor < first->factor) first = LimitingStock{id, factor, needed, available};
    };
    if (request.jar) {
        const PigmentPart& part = jar_part(request); // first: it refuses a jar of none of them
        consider(part.pigment.id, c.pigments[request.jar->pigment], keep_reserve ? usable(request) : request.jar->net_mass);
    }
    if (request.stocks.empty()) return first;
    for (const Need& need : needs(request, c))
        for (const Stock& stock : request.stocks)
            if (stock.id == need.id) {
                if (!(stock.mass.value() >= 0.0))
                    throw_out_of_range("mass in stock", stock.mass.value(), "kg", "0 or more");
                // The jar on hand is the stock of its pigment.
                if (request.jar && need.id == jar_part(request).pigment.id) continue;
                consider(stock.id, need.mass, stock.mass);
            }
    return first;
}

/// Volumes of the composition with what its stock solutions bring besides, which leaves again.
PaintVolumes volumes_on_slab(const BatchRequest& request, const Composition& c, const WeighSheet& sheet) {
    PaintVolumes volumes = paint_volumes(request.recipe, c, detail::room_air(request));
    if (sheet.carriers.empty()) return volumes;
    for (const CarrierOnSlab& carrier : sheet.carriers)
        volumes.wet += carrier.volume;
    volumes.dry_fraction = part_of<VolumeFraction>(volumes.cake, volumes.wet);
    volumes.shrinkage = complement(part_of<Share>(volumes.cake, volumes.wet));
    return volumes;
}

/// Pigment of a batch that fills the vessels after the loss. What stocks bring fills them too, and depends on
/// the batch: the sum is repeated until it settles. Where two strengths of a stock call each other up, the
/// larger batch is taken, which fills them all.
Mass pigment_for_vessels(const BatchRequest& request, const Formulation& formulation,
                         const VesselCount& vessels) {
    if (vessels.count < 1)
        throw_out_of_range("number of vessels", static_cast<double>(vessels.count), "", "1 or more");
    const auto to_fill = [&](const PaintVolumes& volumes, Mass pigment) {
        const Mass each = pigment_per_vessel(vessels.vessel, volumes, pigment);
        return pigment_to_keep(each * static_cast<double>(vessels.count), request.bench.slab_loss);
    };
    const Mass unit = kilograms(1.0);
    Mass pigment =
        to_fill(paint_volumes(request.recipe, compose(request.recipe, formulation, unit), detail::room_air(request)), unit);
    std::optional<Mass> fills;
    for (int i = 0; i < 8; ++i) {
        const Composition c = compose(request.recipe, formulation, pigment);
        const Mass next =
            to_fill(volumes_on_slab(request, c, sheet_of(request, c)), pigment);
        if (std::abs(next / pigment - 1.0) < slack) return next;
        if (next < pigment) fills = pigment;
        pigment = next;
    }
    return fills.value_or(pigment);
}

/// Pigment that the amount asks for, whatever is at hand.
Mass pigment_wanted(const BatchRequest& request, const Formulation& formulation) {
    if (const auto* mass = std::get_if<Mass>(&request.amount)) {
        if (!(mass->value() > 0.0))
            throw_out_of_range("pigment mass of the batch", mass->value(), "kg", "above 0");
        return *mass;
    }
    if (const auto* vessels = std::get_if<VesselCount>(&request.amount))
        return pigment_for_vessels(request, formulation, *vessels);
    if (!request.jar)
        throw DomainError("amount", "the whole jar", "a mass or a number of vessels, where no jar is given",
                          "name the jar or an amount");
    const double share = jar_part(request).share.value();
    if (!(share > 0.0)) throw_out_of_range("share of the jar's pigment", share, "", "above 0");
    return usable(request) / share;
}

BatchLine line(const Ingredient& ingredient, Mass mass) {
    BatchLine l{ingredient.id, ingredient.name, mass, std::nullopt, counts_as_binder(ingredient.role)};
    if (is_liquid(ingredient)) l.volume = mixed_volume(ingredient, mass);
    return l;
}

void warn_of_weighing(const std::vector<Weighing>& lines, const Bench& bench, const WeighSheet& sheet,
                      WarningKind too_little, std::vector<BatchWarning>& warnings) {
    for (const Weighing& w : lines) {
        const double least = in_grams(sheet.minimum.at(w.scale));
        if (w.below_minimum && !w.stock && !w.drops)
            warnings.push_back({too_little, w.id, in_grams(w.exact), least});
        if (w.portions > 1)
            warnings.push_back({WarningKind::weighed_in_portions, w.id, in_grams(w.to_weigh),
                                in_grams(*bench.scales[w.scale].capacity)});
    }
}

void warn(const BatchRequest& request, Batch& batch) {
    auto& warnings = batch.warnings;
    const Bench& bench = request.bench;
    const NoticeFrom& notice = request.practice.notice;
    if (batch.film.porosity.value() > 0.0)
        warnings.push_back({WarningKind::film_holds_air, "", batch.film.porosity.value(), 0.0});
    if (batch.watercolour && batch.watercolour->plasticiser_ratio) {
        const double p = *batch.watercolour->plasticiser_ratio;
        const PlasticiserRange& usual = request.recipe.family.plasticiser;
        if (p < usual.least)
            warnings.push_back({WarningKind::plasticiser_low, request.recipe.medium.id, p, usual.least});
        if (p > usual.most)
            warnings.push_back({WarningKind::plasticiser_high, request.recipe.medium.id, p, usual.most});
    }
    if (batch.excess_water.value() > 0.0)
        warnings.push_back({WarningKind::powder_damp, "", in_grams(batch.excess_water),
                            batch.excess_water / batch.pigment});
    for (std::size_t i = 0; i < batch.additives.size(); ++i) {
        const auto& usual = request.recipe.additives[i].ingredient.usual_dose;
        if (!usual || !(usual->value().value() > 0.0) || !(batch.medium.value() > 0.0)) continue;
        const double dose = batch.additives[i].mass / batch.medium;
        if (dose > notice.unusual_dose * usual->value().value() * (1.0 + slack))
            warnings.push_back(
                {WarningKind::dose_unusual, batch.additives[i].id, dose, usual->value().value()});
    }
    warn_of_weighing(batch.sheet.slab, bench, batch.sheet, WarningKind::below_scale_minimum, warnings);
    if (batch.medium_parts.size() > 1)
        warn_of_weighing(batch.sheet.medium, bench, batch.sheet, WarningKind::medium_part_below_minimum, warnings);
    if (batch.sheet.k_shift > notice.rounding_shift)
        warnings.push_back({WarningKind::rounding_shifts_k, "", batch.sheet.k_shift, notice.rounding_shift});
    if (!(batch.loss < batch.pigment))
        warnings.push_back({WarningKind::all_lost, "", in_grams(batch.pigment), in_grams(batch.loss)});
    else if (batch.loss_share.value() > notice.large_loss)
        warnings.push_back({WarningKind::loss_large, "", batch.loss_share.value(), notice.large_loss});
    if (batch.filling && batch.filling->vessels < 1)
        warnings.push_back(
            {WarningKind::no_vessel_filled, batch.filling->vessel.id, batch.filling->vessels_exact, 1.0});
    if (batch.left_in_jar && *batch.left_in_jar < bench.reserve * (1.0 - slack))
        warnings.push_back({WarningKind::reserve_not_kept, jar_part(request).pigment.id,
                            in_grams(*batch.left_in_jar), in_grams(bench.reserve)});
}

} // namespace

std::vector<BatchWarning> remains_warnings(const JarRemains& remains, const PaintOfLake& paint, const LakeRemains& lake,
                                           const LakeLimits& limits) {
    std::vector<BatchWarning> warnings;
    const double from = limits.said_from.value();
    for (const PreservativeInPaint& each : remains.preservatives)
        if (each.part.in_paint && each.dead.value() >= from)
            warnings.push_back({WarningKind::preservative_dead, each.part.ingredient, each.dead.value(), lake.ph.value().value().value()});
    if (remains.salts && remains.salts->too_many.value() >= from)
        warnings.push_back({shuns_water(paint.process) ? WarningKind::salts_in_oil
                            : paint.in_tube            ? WarningKind::salts_in_tube
                                                       : WarningKind::salts_bloom,
                            "", remains.salts->too_many.value(), remains.salts->borne.value()});
    if (remains.alkaline && remains.alkaline->value() >= from)
        warnings.push_back({shuns_water(paint.process) ? WarningKind::alkali_makes_soap : WarningKind::alkali_shifts_hue, "",
                            remains.alkaline->value(), limits.alkaline_above.value()});
    return warnings;
}

Batch batch_of(const BatchRequest& request, Mass pigment) {
    if (!(pigment.value() > 0.0))
        throw_out_of_range("pigment mass of the batch", pigment.value(), "kg", "above 0");
    const Recipe& recipe = request.recipe;
    Batch b;
    b.aim = request.aim ? *request.aim : aim_of(recipe);
    b.formulation = formulate(recipe, b.aim);
    b.composition = compose(recipe, b.formulation, pigment);
    b.pigment = pigment;
    for (std::size_t i = 0; i < recipe.pigments.size(); ++i)
        b.pigments.push_back({recipe.pigments[i].pigment.id, recipe.pigments[i].pigment.name,
                              b.composition.pigments[i], std::nullopt, false});
    b.medium = total_medium(b.composition);
    b.medium_volume = b.medium / b.formulation.medium.density;
    for (std::size_t i = 0; i < recipe.medium.parts.size(); ++i)
        b.medium_parts.push_back(line(recipe.medium.parts[i].ingredient, b.composition.medium_parts[i]));
    for (std::size_t i = 0; i < recipe.additives.size(); ++i)
        b.additives.push_back(line(recipe.additives[i].ingredient, b.composition.additives[i]));
    b.working_water = b.composition.working_water;
    b.working_water_volume = b.working_water / water_density();
    b.sheet = sheet_of(request, b.composition);
    b.paint = total_mass(b.composition);
    for (const CarrierOnSlab& carrier : b.sheet.carriers)
        b.paint += carrier.mass;
    b.volumes = volumes_on_slab(request, b.composition, b.sheet);
    b.paint_density = b.paint / b.volumes.wet;
    b.film = film_state(recipe, b.composition);
    b.excess_water = excess_water(recipe, b.composition);
    b.verdict = verdict(b.film.k, recipe.family.window);
    b.loss = pigment_lost(pigment, request.bench.slab_loss);
    b.loss_share = part_of<Share>(b.loss, pigment);
    if (const Vessel* vessel = vessel_of(request))
        b.filling = fill_vessels(*vessel, b.volumes, {.weighed = pigment, .kept = pigment - b.loss});
    if (request.jar) {
        const Mass left = request.jar->net_mass - pigment * jar_part(request).share;
        b.left_in_jar = left.value() > 0.0 ? left : Mass();
    }
    b.limiting = limiting_stock(request, b.composition, std::holds_alternative<WholeJar>(request.amount));
    detail::add_process_extras(request, b);
    b.objections = objections(cohesive_share(recipe, b.composition), recipe.family.cohesion,
                              b.watercolour && b.volumes.dry_binder.value() > 0.0
                                  ? std::optional(b.watercolour->soft_share)
                                  : std::nullopt,
                              recipe.family.soft_share);
    warn(request, b);
    if (request.jar && request.lake_limits && request.jar->remains.known()) {
        const PaintOfLake paint = paint_of_lake(recipe, jar_part(request).share, vessel_of(request), request.preservatives);
        b.remains = jar_remains(paint, request.jar->remains, *request.lake_limits);
        for (BatchWarning& each : remains_warnings(*b.remains, paint, request.jar->remains, *request.lake_limits))
            b.warnings.push_back(std::move(each));
    }
    return b;
}

namespace {

/// Of what the scales show as nothing there is no film to judge.
Batch weighable(Batch batch) {
    Mass pigment;
    for (std::size_t i = 0; i < batch.pigments.size(); ++i)
        pigment += batch.sheet.slab[i].rounded;
    const bool no_pigment = !(pigment.value() > 0.0);
    const bool no_medium =
        batch.medium.value() > 0.0 && !(batch.sheet.slab[batch.pigments.size()].rounded.value() > 0.0);
    if (no_pigment || no_medium)
        throw DomainError(no_pigment ? "pigment to weigh" : "medium to weigh",
                          number_text(in_grams(no_pigment ? batch.pigment : batch.medium)) + " g",
                          "enough for the scale to show", "make more at once, or weigh on a finer scale");
    return batch;
}

} // namespace

BatchAnswer size_batch(const BatchRequest& request) {
    const Recipe& recipe = request.recipe;
    const Formulation formulation = formulation_of(request);
    const auto* vessels = std::get_if<VesselCount>(&request.amount);
    const Mass wanted = pigment_wanted(request, formulation);
    const bool whole_jar = std::holds_alternative<WholeJar>(request.amount);

    BatchAnswer answer;
    if (whole_jar && !(wanted.value() > 0.0)) {
        answer.shortfall = Shortfall{jar_part(request).pigment.id,
                                     request.bench.reserve,
                                     request.jar->net_mass,
                                     Mass(),
                                     Mass(),
                                     std::nullopt,
                                     std::nullopt};
        return answer;
    }
    const auto limit = limiting_stock(request, compose(recipe, formulation, wanted), whole_jar);
    if (!limit || limit->factor >= 1.0 - slack) {
        answer.batch = weighable(batch_of(request, wanted));
        return answer;
    }

    // Short: the largest batch that fits keeps the reserve, and fills whole vessels if it can.
    const auto kept = limiting_stock(request, compose(recipe, formulation, wanted), true);
    Shortfall s{kept->id,     kept->needed, kept->available, wanted, wanted * kept->factor,
                std::nullopt, std::nullopt};
    if (vessels) {
        const Mass per_vessel =
            pigment_kept(wanted, request.bench.slab_loss) / static_cast<double>(vessels->count);
        const double whole =
            pigment_kept(s.pigment_possible, request.bench.slab_loss) / per_vessel * (1.0 + slack);
        s.vessels_wanted = vessels->count;
        s.vessels_possible = std::min(vessels->count, static_cast<int>(whole));
        if (*s.vessels_possible > 0)
            s.pigment_possible =
                pigment_to_keep(per_vessel * static_cast<double>(*s.vessels_possible), request.bench.slab_loss);
    }
    if (s.pigment_possible.value() > 0.0) answer.batch = weighable(batch_of(request, s.pigment_possible));
    answer.shortfall = s;
    return answer;
}

} // namespace lakebound
