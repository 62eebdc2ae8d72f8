#pragma once
// Washing by decantation: what each water leaves, and how many more are wanted.
//
//   C_n = C_w + (C_0 - C_w) f^n,  f = V_bed / V
//   C_w salts of the wash water, C_0 of the liquid in the bed before, V_bed the liquid that stays with the lake when
//   the clear water is poured off, V that and the fresh water together. Definitions (mass balance); iupac-extraction
//   has the same series. Holds where the bed is stirred up into the water: a bed that is not keeps its salts.
//   Salts held in the solid itself, a basic sulphate's, do not wash out and do not show on the pen.

#include <optional>
#include <vector>

#include "lakebound/bath/conductivity.hpp"
#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/basis.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct DecantWash {
    Volume bed;    ///< liquid left with the lake when the clear water is off
    Volume filled; ///< that, filled up with wash water
};
/// f = V_bed / V. Range: 0 < bed < filled. Errors: DomainError.
[[nodiscard]] Share kept_by_a_wash(const DecantWash& wash);

/// C_n. Range: strengths 0 or more. Errors: DomainError; as kept_by_a_wash.
[[nodiscard]] WeightPerVolume strength_after(WeightPerVolume before, WeightPerVolume wash_water, const DecantWash& wash,
                               unsigned washes);
/// Fewest washes that bring the strength to the target or below; nothing when the wash water itself is stronger.
[[nodiscard]] std::optional<unsigned> washes_needed(WeightPerVolume before, WeightPerVolume wash_water, const DecantWash& wash,
                                      WeightPerVolume target);
/// Fresh water for so many washes, n (V - V_bed).
[[nodiscard]] Volume water_for(const DecantWash& wash, unsigned washes);

/// Liquid in a cake that drained to the water w, to the lake it becomes, which still has w_a: w (1 - w_a) / ((1 - w) rho).
/// rho: of water at 20 degC. Range: both below 1. Errors: DomainError.
[[nodiscard]] SpecificVolume held_by_drained_cake(MassFraction drained, MassFraction air_dry);

/// Salts that dry into the lake: m = C V_held. V_held is the liquid that is in the cake when drying begins: all of
/// V_bed when the bed is left to dry, less when it drains on a filter first.
[[nodiscard]] Mass salts_dried_in(WeightPerVolume strength, Volume held);

// Counter-current washing: each water is used again for the lake before, which is one wash staler. Any amounts that
// belong together, of one batch or one hour.

/// What comes to be washed.
struct WashFeed {
    Mass solids; ///< insoluble
    Mass solute; ///< soluble, in the liquid with it
    Mass water;
};
struct CounterCurrentFlows {
    Mass strong_solution;       ///< leaves with what was washed out
    Mass kept_solution;         ///< leaves with the solids
    MassFraction kept_strength; ///< of solute in it
    Mass fresh_water;
};
/// V_1 = recovery solute / strong; L_N = solids solution_per_solids; y_N = (1 - recovery) solute / L_N; fresh water
/// closes the balance. Range: recovery below 1, strong above 0, solution per solids above 0, an answer that is
/// possible (y_N at most 1, fresh water 0 or more). Errors: DomainError. Source: geankoplis-leaching.
[[nodiscard]] CounterCurrentFlows counter_current_flows(const WashFeed& feed, Share recovery, MassFraction strong,
                                          double solution_per_solids);
/// Share washed out by n ideal stages with pure water, r = overflow / underflow, both constant:
///   1 - (r - 1) / (r^(n+1) - 1), n/(n+1) at r = 1. Range: r above 0, n 0 or more. Errors: DomainError.
[[nodiscard]] Share counter_current_recovery(double overflow_per_underflow, unsigned stages);

/// A lake part way through its washing, as far as it is known.
struct WashedLake {
    SaltsInWater water;                  ///< over the wash water, in the last decant
    Estimate<Volume> bed, filled;        ///< of the washes to come
    /// Liquid in the drained cake when drying begins, to the lake it dries to; the whole bed where it is left to dry.
    std::optional<Estimate<SpecificVolume>> held;
    Estimate<Mass> lake;                 ///< dry, as it will lie in the jar
    Estimate<Share> stirred_to;          ///< ln-sd of a factor on f common to all washes: how evenly the bed mixes
};

/// What so many washes more leave.
struct WashCourse {
    unsigned washes = 0;
    MassFraction left;      ///< best estimate
    MassFraction low, high; ///< nine in ten
    Probability clean;      ///< chance of the target or less; no smaller than with fewer washes
};

struct WashOutlook {
    MassFraction left;           ///< salts per mass of lake, best estimate, were it drained and dried now
    MassFraction left_low, left_high; ///< nine in ten
    Probability clean;           ///< chance that they are at or below the target now
    std::optional<unsigned> likely; ///< washes more that bring the chance to a half
    std::optional<unsigned> sure;   ///< and to nine in ten; nothing where 20 do not
    std::optional<Probability> clean_after_one; ///< one wash more, where it is not clean yet
    Volume water_for_sure{};     ///< fresh water for `sure`
    /// Left by the wash water itself, strength times held, not to be washed out with it; mostly chalk where it is hard.
    MassFraction from_wash_water;
    std::vector<WashCourse> course; ///< from now to one wash beyond `sure`; to six where that is nothing
};

/// Chance that after n more washes the salts over the wash water's are at or below `target` of the lake: over the
/// pen's doubt (normal, in two readings; lognormal, in its scale), and lognormal doubts of bed, filled, stirring, and of held
/// or, where the whole bed dries in, of the lake. Falls short of no chance that fewer washes have. Errors: DomainError; target above 0.
[[nodiscard]] Probability chance_of_clean(const WashedLake& lake, MassFraction target, unsigned washes);

/// wash_water: its own dissolved solids. Errors: as chance_of_clean.
[[nodiscard]] WashOutlook wash_outlook(const WashedLake& lake, MassFraction target, const Estimate<MassDensity>& wash_water);

/// f from two decants in a row, against the one the volumes give.
struct KeptByReading {
    double observed = 0.0; ///< C_2 / C_1, both over the wash water
    double expected = 0.0; ///< V_bed / V
    double log_standard_uncertainty = 0.0; ///< of ln(observed / expected)
};
/// Salts that hide in flocs come out late: observed far above expected. Range: the first strength above 0.
/// Errors: DomainError.
[[nodiscard]] KeptByReading kept_by_reading(const SaltsInWater& first, const SaltsInWater& second, const Estimate<Volume>& bed,
                              const Estimate<Volume>& filled);

} // namespace lakebound
