#pragma once
// Weighing: what the maker's own scales can do with the masses of a batch.
//
// A net reading on a scale of step d has the standard uncertainty s = max(repeatability, 0.41 d), the
// 0.41 d for two readings rounded to d (sqrt(2/12)). Smallest mass to a tolerance t, coverage factor 2:
//   m_min = 2 s / t.    Source: usp-41 (general chapter on balances), as read in an excerpt.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/material/bench_practice.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/paint/formulation.hpp"

namespace lakebound {

/// s = max(repeatability, 0.41 step). Throws DomainError unless the step is above 0.
Mass standard_uncertainty(const Scale& scale);
/// m_min = 2 s / tolerance. Throws DomainError unless the tolerance is above 0.
Mass minimum_mass(const Scale& scale, Share tolerance);
/// Mass to the nearest step of the scale.
Mass rounded_to_step(Mass mass, const Scale& scale);
Volume rounded_to_step(Volume volume, const Syringe& syringe);

/// The scale to weigh a mass on: of those whose capacity holds it, the coarsest that weighs it to the
/// tolerance; the finest of them when none does; the one that carries most when none holds it.
/// Throws DomainError when the bench has no scale.
std::size_t best_scale(const Bench& bench, Mass mass);

enum class SheetPart { pigment, medium, medium_part, additive, working_water };

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

/// A liquid too little to weigh, counted in drops into more of the medium than the batch takes.
struct DropCount {
    int drops = 1;
    Mass medium; ///< that they go into, without them; the batch's medium is taken of that
};

struct SyringeReading {
    std::size_t syringe = 0; ///< index in the bench
    Volume exact, rounded;
    int fills = 1; ///< how often the syringe is filled
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
Mass mass_on_slab(const Weighing& line);
/// The same as the scale shows it.
Mass rounded_mass_on_slab(const Weighing& line);

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
bool is_left_out(const Weighing& line);

/// The ingredient of a stock's carrier: a part of the medium, or one of the recipe's carriers; null when it is
/// neither.
const Ingredient* carrier_of(const StockSolution& stock, const Recipe& recipe);

/// Masses rounded for the bench, with the film they give in truth.
WeighSheet weigh_sheet(const Recipe& recipe, const Composition& composition, const Bench& bench,
                       const SmallAmountPractice& practice);

} // namespace lakebound
