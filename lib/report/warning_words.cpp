#include "lakebound/report/warning_words.hpp"
#include "lakebound/report/chance_words.hpp"

#include <fmt/format.h>

#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "text_layout.hpp"

namespace lakebound {

std::string name_of(const std::string& id, const BatchRequest& request) {
    for (const auto& part : request.recipe.pigments)
        if (part.pigment.id == id) return part.pigment.name;
    if (request.recipe.medium.id == id) return request.recipe.medium.name;
    for (const auto& part : request.recipe.medium.parts)
        if (part.ingredient.id == id) return part.ingredient.name;
    for (const auto& additive : request.recipe.additives)
        if (additive.ingredient.id == id) return additive.ingredient.name;
    for (const auto* vessel : {&request.vessel, &request.recipe.vessel})
        if (*vessel && (*vessel)->id == id) return (*vessel)->name;
    return id;
}

std::string remains_warning_text(const BatchWarning& warning, const std::string& ingredient) {
    const std::string chance = chance_percent_text(Probability::of(warning.value)), limit = percent_text(warning.limit);
    switch (warning.kind) {
    case WarningKind::preservative_dead:
        return fmt::format("{}: chance {} that it keeps nothing from mould, at the pH {} of this lake in water. Take another "
                           "preservative, make little and use it up, or wash the lake with a pinch of alum.",
                           ingredient, chance, fixed_text(warning.limit, 1));
    case WarningKind::salts_bloom:
        return fmt::format("Salts of the bath: chance {} that they are more than {} of the pigment. Then they bloom white on the "
                           "paint and keep a pan sticky: wash the lake again.", chance, limit);
    case WarningKind::salts_in_oil:
        return fmt::format("Salts of the bath: chance {} that they are more than {} of the pigment. Then they draw water into the "
                           "oil, bloom, and help soaps and seeds to grow: wash the lake again.", chance, limit);
    case WarningKind::salts_in_tube:
        return fmt::format("Salts of the bath: chance {} that they are more than {} of the pigment. Then they grow as crystals in "
                           "the tube and eat its metal: wash the lake again.", chance, limit);
    case WarningKind::alkali_shifts_hue:
        return fmt::format("Alkali of the bath: chance {} that the lake lies above pH {} in water. Then its hue shifts: wash it "
                           "again, or with a pinch of alum.", chance, plain_text(warning.limit));
    case WarningKind::alkali_makes_soap:
        return fmt::format("Alkali of the bath: chance {} that the lake lies above pH {} in water. Then it turns oil to soap: wash "
                           "it again, or with a pinch of alum.", chance, plain_text(warning.limit));
    default: return {};
    }
}

std::string warning_text(const BatchWarning& warning, const BatchRequest& request) {
    const auto name = short_name(name_of(warning.subject, request));
    const auto grams_of = [](double x) { return mass_text(grams(x)); };
    switch (warning.kind) {
    case WarningKind::film_holds_air:
        return fmt::format("The dry film holds {} air: there is less binder than fills the pigment.",
                           percent_text(warning.value));
    case WarningKind::plasticiser_low:
        return fmt::format(
            "Little glycerol or honey: {} g per g of dry gum, where {} or more is usual. Pans may crack.",
            ratio_text(warning.value), ratio_text(warning.limit));
    case WarningKind::plasticiser_high:
        return fmt::format(
            "Much glycerol or honey: {} g per g of dry gum, where {} is the usual most. Pans may stay "
            "sticky in damp air.",
            ratio_text(warning.value), ratio_text(warning.limit));
    case WarningKind::below_scale_minimum:
    case WarningKind::medium_part_below_minimum:
        return fmt::format("{}: {} g is below the {} g that your scale weighs well. Make a larger batch, or "
                           "find a finer scale.",
                           name, significant_text(warning.value, 3), significant_text(warning.limit, 3));
    case WarningKind::weighed_in_portions:
        return fmt::format("{}: {} is more than the {} your scale carries; weigh it in portions.", name,
                           grams_of(warning.value), grams_of(warning.limit));
    case WarningKind::rounding_shifts_k:
        return fmt::format(
            "Rounding to the step of your scale moves k by {}. Make a larger batch, or find a finer scale.",
            percent_text(warning.value));
    case WarningKind::powder_damp:
        return fmt::format("{} of the powder is water beyond what it holds air-dry. It is weighed with it and not "
                           "counted as pigment. Better dry it first.",
                           grams_of(warning.value));
    case WarningKind::dose_unusual:
        return fmt::format("{}: {} of the medium, where {} is usual. Check the recipe.", name,
                           percent_text(warning.value), percent_text(warning.limit));
    case WarningKind::loss_large:
        return fmt::format("{} of the pigment stays on slab and muller. A larger batch wastes less.",
                           percent_text(warning.value));
    case WarningKind::all_lost:
        return fmt::format("The slab takes as much as the whole batch ({}): nothing would reach a vessel.",
                           grams_of(warning.limit));
    case WarningKind::no_vessel_filled:
        return fmt::format("Not enough for {}: it fills {} of one.",
                           counted_name(1, name_of(warning.subject, request)), percent_text(warning.value));
    case WarningKind::reserve_not_kept:
        return fmt::format("Only {} stay in the jar, less than the {} you keep for tests.",
                           grams_of(warning.value), grams_of(warning.limit));
    case WarningKind::preservative_dead:
    case WarningKind::salts_bloom:
    case WarningKind::salts_in_oil:
    case WarningKind::salts_in_tube:
    case WarningKind::alkali_shifts_hue:
    case WarningKind::alkali_makes_soap:
        return remains_warning_text(warning, layout::capitalised(name));
    }
    return {};
}

} // namespace lakebound
