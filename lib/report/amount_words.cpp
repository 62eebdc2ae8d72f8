#include "amount_words.hpp"

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

/// "ethanol with 0.5 % clove oil": a mixture by what it mostly is.
std::string stock_text(const Weighing& weighing) {
    const auto& stock = *weighing.stock;
    return fmt::format("{} with {} % {}", name_in_sentence(stock.carrier_name),
                       number_text(stock.strength.value() * 100.0), name_in_sentence(weighing.name));
}

} // namespace

std::string dropped_into_text(const DropCount& drops) { return significant_text(in_grams(drops.medium), 2) + " g"; }

std::string amount_text(const Weighing& weighing, const Bench& bench) {
    if (weighing.drops) return fmt::format("{} drop{}", weighing.drops->drops, weighing.drops->drops > 1 ? "s" : "");
    return mass_text(rounded_mass_on_slab(weighing), bench.scales.at(weighing.scale).step);
}

std::string total_text(Mass mass, const Bench& bench) {
    return mass_text(mass, bench.scales.at(best_scale(bench, mass)).step);
}

std::string syringe_text(const Weighing& weighing, const Bench& bench) {
    if (!weighing.syringe || weighing.stock) return {};
    const auto& syringe = bench.syringes.at(weighing.syringe->syringe);
    auto text = fmt::format("{} in the {}", volume_text(weighing.syringe->rounded, syringe.step), syringe.name);
    if (weighing.syringe->fills > 1) text += fmt::format(", {} fills", weighing.syringe->fills);
    return text;
}

std::string what_text(const Weighing& weighing) {
    if (weighing.stock) return layout::capitalised(stock_text(weighing));
    if (weighing.drops)
        return fmt::format("{} to {} of the medium", short_name(weighing.name),
                           dropped_into_text(*weighing.drops));
    return layout::capitalised(weighing.name);
}

std::string what_in_sentence(const Weighing& weighing) {
    if (weighing.stock) return stock_text(weighing);
    return weighing.part == SheetPart::pigment ? short_name(weighing.name) : name_in_sentence(weighing.name);
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
        const auto amount = [&bench](Mass mass) { return total_text(mass, bench); };
        const auto how = stock.strong
                             ? fmt::format("mix {} of it with {} of {}, then {} of that with {} more",
                                           amount(stock.strong->taken), amount(stock.strong->carrier), carrier,
                                           amount(stock.mixing.taken), amount(stock.mixing.carrier))
                             : fmt::format("mix {} of it with {} of {}", amount(stock.mixing.taken),
                                           amount(stock.mixing.carrier), carrier);
        remarks.push_back(fmt::format("Only {} of {} is wanted, too little for the scale: {}, and weigh of that.",
                                      mass_text(weighing.exact), name_in_sentence(weighing.name), how));
        if (stock.deducted_from) remarks.push_back(fmt::format("The {} in it is taken off already.", carrier));
    } else if (weighing.drops) {
        remarks.push_back(fmt::format("Only {} is wanted, too little to weigh: stir {} into {} of the medium, "
                                      "and weigh the medium of that.",
                                      mass_text(weighing.exact), amount_text(weighing, bench),
                                      dropped_into_text(*weighing.drops)));
    } else if (is_left_out(weighing) && weighing.part == SheetPart::medium_part) {
        remarks.push_back(fmt::format("Only {} is wanted, which the scale does not show.", mass_text(weighing.exact)));
    } else if (is_left_out(weighing)) {
        auto remark = fmt::format("Only {} of it is wanted, which the scale does not show: leave it out.",
                                  mass_text(weighing.exact));
        if (weighing.liquid)
            remark += " Or measure how big your drop is (20 drops in a syringe), write it as `drop` in your bench "
                      "file, and count drops.";
        remarks.push_back(remark);
    } else if (weighing.below_minimum) {
        const auto error = weighing.error.value();
        remarks.push_back(error < 0.95 ? fmt::format("Up to {} off here.", percent_text(error))
                                       : fmt::format("The {} may be off by as much as all of it.", scale.name));
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
