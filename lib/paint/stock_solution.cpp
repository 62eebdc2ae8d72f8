#include "lakebound/paint/stock_solution.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/paint/instruments.hpp"

namespace lakebound {
namespace {

// A total that a person would mix: up to half of its leading place, in grams.
Mass up_to_round_grams(Mass mass) {
    const double g = in_grams(mass), half_place = 0.5 * std::pow(10.0, std::floor(std::log10(g)));
    return grams(std::ceil(g / half_place * (1.0 - 1e-9)) * half_place);
}

StockStep stock_step(Mass total, double share) { return {total * share, total * (1.0 - share)}; }

// How so much of a stock is made, at least, and of the ingredient so much that it can be weighed.
void plan_mixing(StockSolution& s, double strongest, Mass least, Mass worth_mixing) {
    const double strength = s.strength.value();
    const auto total = [worth_mixing](Mass needed, Mass weighable) {
        return up_to_round_grams(std::max({needed, weighable, worth_mixing}));
    };
    s.mixing = stock_step(total(s.stock, least / strength), strength);
    s.carrier_needed = s.mixing.carrier;
    if (!(strength < strongest)) return;
    // In two steps, as much of the first must be weighed into the second as of the ingredient into the first.
    const double dilution = strength / strongest;
    const StockStep second = stock_step(total(s.stock, least / dilution), dilution);
    const StockStep first = stock_step(total(second.taken, least / strongest), strongest);
    const Mass needed = first.carrier + second.carrier;
    if (!(needed < s.carrier_needed)) return;
    s.strong = first;
    s.mixing = second;
    s.carrier_needed = needed;
}

} // namespace

std::optional<StockSolution> stock_solution(const StockPractice& practice, const Bench& bench, Mass mass,
                                            const Ingredient& carrier, std::optional<Mass> most_to_take_off,
                                            const SmallAmountPractice& small) {
    const double strongest = practice.strongest.value().value();
    StockSolution s;
    bool weighable = false;
    for (const MassFraction usual : small.stock_strengths) {
        const double strength = std::min(usual.value(), strongest);
        s.strength = MassFraction::of(strength);
        s.stock = mass / strength;
        const Scale& scale = bench.scales[best_scale(bench, s.stock)];
        s.rounded = rounded_to_step(s.stock, scale);
        s.carrier_mass = s.stock * (1.0 - strength);
        weighable = s.stock >= minimum_mass(scale, bench.weighing_tolerance) * (1.0 - 1e-9);
        if (weighable) break;
    }
    if (!weighable || (most_to_take_off && s.carrier_mass > *most_to_take_off)) return std::nullopt;
    plan_mixing(s, strongest, least_weighable(bench), small.least_stock);
    if (s.carrier_needed > practice.most) return std::nullopt;
    s.carrier = carrier.id;
    s.carrier_name = carrier.name;
    return s;
}

} // namespace lakebound
