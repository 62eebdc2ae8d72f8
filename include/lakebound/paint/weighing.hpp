#pragma once
// Weighing: the weigh sheet, what the maker's own instruments make of the masses of a batch.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/paint/formulation.hpp"
#include "lakebound/paint/instruments.hpp"
#include "lakebound/paint/stock_solution.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A liquid too little to weigh, counted in drops into more of the medium than the batch takes.
struct DropCount {
    int drops = 1;
    Mass medium; ///< that they go into, without them; the batch's medium is taken of that
};

struct Weighing {
    SheetPart part = SheetPart::pigment;
    std::size_t index = 0; ///< in the recipe's pigments, medium parts or additives
    std::string id, name;
    Mass exact;            ///< as computed, before a stock solution is deducted
    /// Exact; less the stock carriers that come with other lines, and with what is dropped into it. 0 for
    /// what goes in by drops.
    Mass to_weigh;
    Mass rounded;          ///< to_weigh, to the step of the scale; where a stock is taken off it, as that is rounded
    std::size_t scale = 0; ///< index in the bench: for to_weigh, for the stock where there is one
    int portions = 1;      ///< above 1 when no scale carries it at once
    Share error;           ///< 2 s / mass, at most 1: how well this scale weighs that mass
    bool liquid = false;        ///< of an additive: it pours, and so drops
    bool below_minimum = false; ///< the ingredient itself is too little to weigh
    /// In its place, when below the minimum and something can be done: drops before a stock.
    std::optional<DropCount> drops;
    std::optional<StockSolution> stock;
    /// For a liquid, when a syringe of the bench measures it to the tolerance (2 step / sqrt(12) at
    /// most) in no more fills than practice bears.
    std::optional<SyringeReading> syringe;
};

/// Mass that a line puts on the slab: its stock, or what is to be weighed; exact.
[[nodiscard]] Mass mass_on_slab(const Weighing& line);
/// The same as the scale shows it.
[[nodiscard]] Mass rounded_mass_on_slab(const Weighing& line);

/// What a stock solution brings onto the slab that the recipe does not hold.
struct CarrierOnSlab {
    std::string id;
    Mass mass;
    Volume volume;
};

struct WeighSheet {
    /// Pigments, ready medium, additives, working water: in that order. Their masses on the slab sum to the
    /// composition and the carriers.
    std::vector<Weighing> slab;
    std::vector<CarrierOnSlab> carriers; ///< of the slab, not taken off anything
    std::vector<Weighing> medium; ///< every part, to mix just this much medium fresh
    FilmState film;               ///< from the rounded masses of `slab`
    double k_shift = 0.0;         ///< |k_rounded / k - 1|
    FilmState film_fresh;         ///< the same, with the medium's parts weighed one by one
    double k_shift_fresh = 0.0;
    /// Where a part of the medium is too little to weigh straight: as much medium as lets every part be
    /// weighed.
    std::optional<Mass> least_medium;
    std::vector<Mass> minimum; ///< smallest mass each scale weighs to the bench's tolerance
};

/// An additive or a part of the medium of which the scale shows nothing, and which nothing is put in place of.
[[nodiscard]] bool is_left_out(const Weighing& line);

/// The ingredient of a stock's carrier: a part of the medium, or one of the recipe's carriers; null when it is
/// neither.
[[nodiscard]] const Ingredient* carrier_of(const StockSolution& stock, const Recipe& recipe);

/// Masses rounded for the bench, with the film they give in truth.
[[nodiscard]] WeighSheet weigh_sheet(const Recipe& recipe, const Composition& composition, const Bench& bench,
                                     const SmallAmountPractice& practice);

} // namespace lakebound
