#include "amount_words.hpp"

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/report/name.hpp"
#include "lakebound/report/number.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

/// A strength as it is said: "5 % w/w", "0.5 % w/w".
std::string strength_text(MassFraction strength) { return number_text(strength.value() * 100.0) + " % w/w"; }

} // namespace

std::string amount_text(const Weighing& weighing, const Bench& bench) {
    const auto step = bench.scales.at(weighing.scale).step;
    return mass_text(weighing.stock ? weighing.stock->rounded : weighing.rounded, step);
}

bool is_left_out(const Weighing& weighing) {
    return weighing.part == SheetPart::additive && !weighing.stock && weighing.exact.value() > 0.0 &&
           !(weighing.rounded.value() > 0.0);
}

std::string total_text(Mass mass, const Bench& bench) {
    return mass_text(mass, bench.scales.at(best_scale(bench, mass)).step);
}

std::string syringe_text(const Weighing& weighing, const Bench& bench) {
    // Beyond three fills the scale is quicker and errs less.
    if (!weighing.syringe || weighing.stock || weighing.syringe->fills > 3) return {};
    const auto& syringe = bench.syringes.at(weighing.syringe->syringe);
    auto text = fmt::format("{} in the {}", volume_text(weighing.syringe->rounded, syringe.step), syringe.name);
    if (weighing.syringe->fills > 1) text += fmt::format(", {} fills", weighing.syringe->fills);
    return text;
}

std::string what_text(const Weighing& weighing) {
    if (!weighing.stock) return layout::capitalised(weighing.name);
    return fmt::format("{}, {} in {}", short_name(weighing.name), strength_text(weighing.stock->strength),
                       name_in_sentence(weighing.stock->carrier_name));
}

std::string what_in_sentence(const Weighing& weighing) {
    const auto name =
        weighing.part == SheetPart::pigment ? short_name(weighing.name) : name_in_sentence(weighing.name);
    if (!weighing.stock) return name;
    return fmt::format("{} ({} in {})", name, strength_text(weighing.stock->strength),
                       name_in_sentence(weighing.stock->carrier_name));
}

int working_order(SheetPart part) noexcept {
    switch (part) {
    case SheetPart::pigment:
        return 0;
    case SheetPart::working_water:
        return 1;
    case SheetPart::additive:
        return 2;
    case SheetPart::medium:
    case SheetPart::medium_part:
        return 3;
    }
    return 4;
}

std::vector<std::string> weighing_remarks(const Weighing& weighing, const Bench& bench) {
    std::vector<std::string> remarks;
    const auto& scale = bench.scales.at(weighing.scale);
    if (weighing.stock) {
        const auto& stock = *weighing.stock;
        const auto carrier = name_in_sentence(stock.carrier_name);
        const auto parts_of = [](double fold) { return plain_text(fold - 1.0); };
        const auto how = stock.first_strength
                             ? fmt::format("mix 1 part with {} parts of {} by weight, 1 part of that with {} "
                                           "parts more",
                                           parts_of(1.0 / stock.first_strength->value()), carrier,
                                           parts_of(stock.first_strength->value() / stock.strength.value()))
                             : fmt::format("mix 1 part with {} parts of {} by weight",
                                           parts_of(1.0 / stock.strength.value()), carrier);
        remarks.push_back(fmt::format("Only {} of it is wanted, too little for the scale: {}, at least {} in "
                                      "all, and weigh that.",
                                      mass_text(weighing.exact), how, mass_text(stock.least)));
        if (stock.deducted_from) remarks.push_back(fmt::format("The {} in it is taken off already.", carrier));
    } else if (is_left_out(weighing)) {
        remarks.push_back(fmt::format("Only {} of it is wanted, which the scale does not show: leave it out.",
                                      mass_text(weighing.exact)));
    } else if (weighing.below_minimum) {
        remarks.push_back(
            fmt::format("The {} is right to {} here.", scale.name, percent_text(weighing.error.value())));
    }
    if (weighing.portions > 1)
        remarks.push_back(
            fmt::format("In {} portions: more than the {} carries.", weighing.portions, scale.name));
    return remarks;
}

std::vector<const Weighing*> weighings_of(SheetPart part, const WeighSheet& sheet) {
    std::vector<const Weighing*> found;
    for (const auto& weighing : sheet.slab)
        if (weighing.part == part && !is_left_out(weighing)) found.push_back(&weighing);
    return found;
}

} // namespace lakebound
