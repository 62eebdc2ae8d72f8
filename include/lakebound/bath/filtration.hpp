#pragma once
// Filtering: how long a filter takes, from what has run through it so far.
//
//   t / V = a V + b,  so t = a V^2 + b V
//   t time since pouring, V filtrate; a is the cake's part, for a cake grows with V; b is the paper's.
// Source: geankoplis-filtration (form of any textbook). Holds for a rigid cake under a
// constant head. In a cone the head falls, and gelatinous alumina packs closer the harder it is pressed, so that a
// kitchen filter is right to within a factor of 2 only (estimate): filter_outlook carries that doubt.

#include <optional>
#include <span>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/chemical_units.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using TimePerVolume = decltype(Time{} / Volume{});                     ///< s/m3
using TimePerVolumeSquared = decltype(Time{} / (Volume{} * Volume{})); ///< s/m6
using SpecificCakeResistance = decltype(Length{} / Mass{});            ///< m/kg
using PaperResistance = decltype(1.0 / Length{});                      ///< 1/m

/// What the jug and the clock said: so much has run through since the liquor was poured on.
struct FilterReading {
    Time time;
    Volume filtrate;
};

struct FilterLaw {
    TimePerVolumeSquared cake; ///< a, 0 or more
    TimePerVolume paper;       ///< b, 0 or more
};

/// Least squares of t/V against V, each reading alike; two readings give the line through both. Where the line
/// would give the paper less than no resistance, b = 0 and a is fitted alone.
/// Range: two readings at least, each later and with more filtrate than the one before.
/// Errors: DomainError; so for t/V that falls, for a filter does not run faster by itself.
[[nodiscard]] FilterLaw fit_filter(std::span<const FilterReading> readings);

/// t = a V^2 + b V. Range: V 0 or more. Errors: DomainError.
[[nodiscard]] Time filter_time(const FilterLaw& law, Volume filtrate);

/// How long the rest takes when it is shared between the filter that has passed `passed` and a fresh one like it, both
/// running: the time in which a ((passed + v1)^2 - passed^2) + b v1 and a v2^2 + b v2 are one, v1 + v2 = rest.
/// Range: both volumes 0 or more. Errors: DomainError.
[[nodiscard]] Time time_with_second_filter(const FilterLaw& law, Volume passed, Volume rest);

struct FilterSetup {
    DynamicViscosity viscosity; ///< mu
    Area area;                  ///< A
    Pressure pressure;          ///< dp across cake and paper
    MassDensity solids;         ///< c: mass of solids per volume of filtrate
};
struct FilterConstants {
    SpecificCakeResistance cake; ///< alpha = 2 a A^2 dp / (mu c)
    PaperResistance paper;       ///< R_m = b A dp / mu
};
/// Range: every figure of the setup above 0. Errors: DomainError.
[[nodiscard]] FilterConstants filter_constants(const FilterLaw& law, const FilterSetup& setup);
/// a = mu alpha c / (2 A^2 dp), b = mu R_m / (A dp): the inverse. n papers at once have n times the area.
[[nodiscard]] FilterLaw filter_law(const FilterConstants& constants, const FilterSetup& setup);

/// What readings at the filter are worth, and what a second paper costs; the figures lie on the shelf.
struct FilterHabits {
    Estimate<Share> volume_read_to; ///< standard uncertainty of a volume, as a share of it
    Estimate<Time> time_read_to;    ///< standard uncertainty of a time
    Estimate<Share> law_holds_to;   ///< ln-sd of the rest's time beyond what the readings leave open, as a share
    Estimate<Time> second_paper;    ///< hands to fold and wet another paper
};

/// A time with its band, nine in ten.
struct TimeBand {
    Time middle, low, high;
};

struct FilterOutlook {
    FilterLaw law;
    Volume rest;                        ///< still to run through
    TimeBand finish;                    ///< since pouring
    TimeBand finish_with_second;        ///< when the rest is shared with a fresh filter from the last reading on
    Time saved;                         ///< middle of what the second saves
    Probability second_pays;            ///< chance that it saves more than its handling takes
};

/// Redraws the readings with their doubt, 2 000 times by a fixed seed, fits each set with a and b held at 0 or more,
/// and multiplies what the rest takes by a lognormal factor for the law's own doubt.
/// Range: whole at or above the last reading. Errors: DomainError; as fit_filter, but t/V that falls is let
/// pass where the readings' doubt explains it (more than 1 redrawn set in 40 rises).
[[nodiscard]] FilterOutlook filter_outlook(std::span<const FilterReading> readings, Volume whole, const FilterHabits& habits);

} // namespace lakebound
