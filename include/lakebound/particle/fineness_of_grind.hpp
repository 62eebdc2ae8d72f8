#pragma once
// Fineness of grind on the slab: Hegman units, and how long mulling still pays.
//
// A gauge reads the largest clumps of the paste, not a size distribution. Mulling opens clumps towards
// a limit, the grains themselves, which no muller breaks.

#include <span>

#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Depth of the channel at a Hegman number H: 12.7 um (8 - H), so that 0 is 4 mil = 101.6 um.
/// Range: H 0 to 8. Errors: DomainError. Source: mckay-grind-gage. Trap: a metric gauge marked 100 um at
/// the deep end is not a 4 mil gauge; their numbers differ by 1.6 %.
[[nodiscard]] Length fineness_of_hegman(double hegman);
/// Where the channel begins, at H = 0: 4 mil (definition).
inline constexpr Length deepest_hegman = micrometres(101.6);
/// The inverse, H = 8 - d / 12.7 um. Range: d 0 to 101.6 um. Errors: DomainError.
[[nodiscard]] double hegman_of_fineness(Length fineness);

/// Half-width of what a gauge can tell, 2 um (published). Source: grindometer-sheet.
inline constexpr double gauge_half_width_um = 2.0;

/// One drawdown on the gauge after a time of mulling.
struct FinenessReading {
    Time time;
    Length fineness;
};

/// d(t) = d_end + (d_0 - d_end) exp(-t / tau), t from the first reading.
struct Mulling {
    Length start; ///< d_0, at the first reading, as fitted
    Length end;   ///< d_end: no mulling goes below it
    Time tau;
    Length end_uncertainty; ///< standard uncertainty of d_end from the gauge alone (half-width / sqrt 3)
};

/// Three readings at equal intervals exactly, or more readings at any times by least squares.
/// Range: times rising, fineness above 0 and falling by less and less. Errors: DomainError; readings that
/// have not begun to level off tell no end. Source: definition of an exponential approach.
[[nodiscard]] Mulling fit_mulling(std::span<const FinenessReading> readings);

/// Fineness at a time after the first reading. Range: 0 upward.
[[nodiscard]] Length fineness_at(const Mulling& mulling, Time since_first);

/// When the next `interval` of mulling would gain less than `gain`:
///   t = tau ln((d_0 - d_end)(1 - exp(-interval / tau)) / gain), 0 when it already would.
/// Range: both above 0. Errors: DomainError.
[[nodiscard]] Time stop_time(const Mulling& mulling, Length gain, Time interval);

/// When a fineness is reached, after the first reading; 0 when it already is.
/// Errors: DomainError when it lies at or below d_end: back to the mortar, or levigate.
[[nodiscard]] Time time_to_fineness(const Mulling& mulling, Length target);

} // namespace lakebound
