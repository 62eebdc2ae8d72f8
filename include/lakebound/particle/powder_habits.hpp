#pragma once
// What the work with powder costs and how well it repeats, until the maker says otherwise. The figures lie
// on the shelf (kind: powder habits) with their origin; none lives in code.

#include <string>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PowderHabits {
    std::string usual_powder; ///< id of the pigment whose density stands in where nobody says which powder it is
    /// How a sieve test repeats: standard deviation of what lies over a screen, of the charge, where half of
    /// it lies there.
    Estimate<MassFraction> sieving_repeats_to;
    Estimate<Share> dry_efficiency; ///< of what is finer than the screen, let through by one sieving
    Estimate<Share> wet_efficiency; ///< and by one washing
    Estimate<Share> loss;           ///< at each separation, where no test tells
    /// How much an emptier mortar gains, as the exponent e of rate ~ (load / charge)^-e: 0 % not at all,
    /// 100 % in proportion.
    Estimate<Share> emptier_is_faster;
    Estimate<Time> dry_handling, wet_handling; ///< hands to sieve, to wash once
    Estimate<Time> drying;                     ///< before wet oversize can be ground again; no hands on
    Estimate<Time> fill_and_stir, pour;        ///< hands at each pour-off
    Estimate<VolumeFraction> solids;           ///< of the stirred water
    Estimate<Length> water_depth;              ///< of a jar in which a plan of grinding parts fine from coarse
    Estimate<Share> draw;                      ///< of the depth, poured off
    unsigned refills = 0;                      ///< after the first fill
    Estimate<Time> shortest_wait, longest_wait; ///< that hands, and the warmth of a room, can keep
    Estimate<Length> dry_sieving_ends, wet_screening_ends; ///< for a screen that is named without a family
    Estimate<MassFraction> usual_residue;                  ///< that may stay on it
    double largest_grain = 0.0;                ///< times the coarsest screen
    BreakagePrior breakage;                    ///< with sieving_repeats_to as its scatter
    CushioningPrior cushioning;
    Estimate<Length> mulling_gain;             ///< of a spell of mulling that pays
    Estimate<Time> mulling_spell;
    Estimate<Length> height_read_to;           ///< standard uncertainty of a height read on a glass
    Estimate<Length> water_above_blanket;      ///< left there when a fresh lake is decanted
    Estimate<Share> decant_within;             ///< of its end height, when the blanket is decanted
};

/// Standard deviation of what lies over a screen between two sieve tests of the same powder:
///   u = 2 s sqrt(R (1 - R)),  s = sieving_repeats_to, R the share over the screen
/// Range: R 0 to 1. Errors: DomainError. Accuracy: astm-c136 prints 0.14, 0.37, 0.36, 0.54, 0.83, 0.55 and
/// 0.26 % for passing of 0-2, 2-10, 10-15, 15-20, 20-60, 60-95 and 95-100 %; with s = 0.83 % this form is
/// within 0.2 % points of each.
[[nodiscard]] double sieving_deviation(MassFraction repeats_to, double share);

/// Who gave a figure that the answer rests on.
enum class GivenBy { maker, sieve_tests, settling_test, bench, shelf };
template <> struct WordTable<GivenBy> {
    static constexpr WordRow<GivenBy> rows[] = {
        {GivenBy::maker, "maker"},
        {GivenBy::sieve_tests, "sieve tests"},
        {GivenBy::settling_test, "settling test"},
        {GivenBy::bench, "bench"},
        {GivenBy::shelf, "shelf"},
    };
};

template <class Q> struct Given {
    Q value{};
    GivenBy by = GivenBy::shelf;
};

} // namespace lakebound
