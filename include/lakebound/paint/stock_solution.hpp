#pragma once
// Stock solution: how a weaker solution is made of an ingredient of which too little is wanted to weigh.

#include <cstddef>
#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Where a line of the weigh sheet belongs.
enum class SheetPart { pigment, medium, medium_part, additive, working_water };
template <> struct WordTable<SheetPart> {
    static constexpr WordRow<SheetPart> rows[] = {
        {SheetPart::pigment, "pigment"},
        {SheetPart::medium, "medium"},
        {SheetPart::medium_part, "medium part"},
        {SheetPart::additive, "additive"},
        {SheetPart::working_water, "working water"},
    };
};

/// One step of mixing a stock: so much of the ingredient, or of the stronger stock, with so much of the carrier.
struct StockStep {
    Mass taken, carrier;
};

/// A weaker solution of something too little to weigh, as the shelf says it is made (StockPractice). Offered
/// only when the scale weighs it, when making it takes no more of the carrier than a person would make up, and
/// when it brings no more of a carrier that comes off the medium than practice bears. What else it brings goes
/// on the slab too and is counted.
struct StockSolution {
    MassFraction strength; ///< of the ingredient as supplied, w/w
    /// How it is made. The ingredient, and the first stock where there is one, is weighed to the tolerance; the
    /// total of each step is worth mixing and rounded up to half of its leading place in grams (1.64 is 2, 32.8
    /// is 35).
    StockStep mixing;
    /// A weak one takes less in two steps: first `strong`, then `mixing` from that.
    std::optional<StockStep> strong;
    Mass carrier_needed; ///< to make it, both steps together
    std::string carrier; ///< id of the ingredient it is dissolved in
    std::string carrier_name;
    Mass stock;        ///< to weigh, exact
    Mass rounded;      ///< to the step of the scale
    Mass carrier_mass; ///< in the exact stock
    /// From where the carrier is taken off, because the paint holds it already; absent when the paint has
    /// none: then it is in the wet paint besides.
    std::optional<SheetPart> deducted_from; ///< medium, medium_part or working_water
    std::size_t deducted_index = 0;         ///< of the medium part
};

/// The strongest stock that the scale weighs for so much of the ingredient; nothing when there is none, when
/// making it takes more of the carrier than anyone would make up, or when it would bring more of the carrier than
/// may be taken off. What the paint does not hold leaves again; how much of it may come is for the sheet to say.
[[nodiscard]] std::optional<StockSolution> stock_solution(const StockPractice& practice, const Bench& bench, Mass ingredient,
                                                          const Ingredient& carrier, std::optional<Mass> most_to_take_off,
                                                          const SmallAmountPractice& small);

} // namespace lakebound
