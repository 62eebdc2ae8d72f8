#pragma once
// Drying: where the weight of a cake will come to rest, and on which day it may be jarred.
//
// As long as the surface is wet, water leaves at an even rate; once it is not, the rest leaves in proportion to what is
// left (the falling-rate period):
//   m(t) = m_end + A exp(-t / tau)
// m_end the mass at rest in this room, not bone dry: a lake keeps 10 to 25 % of water in ordinary air.
// Source: geankoplis-drying (both periods; form of any textbook). Valid in the falling period, in a room whose warmth
// and damp stay as they are, for one cake on one support.

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/basis.hpp"
#include "lakebound/material/reading.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

// The two periods on a tray.

using DryingRate = decltype(Mass{} / (Area{} * Time{})); ///< kg of water per m2 and s
struct Tray {
    Mass dry_solids;     ///< W_s
    Area area;           ///< A, open to the air
    DryingRate constant; ///< R_c, while the surface is wet
};
/// t_c = W_s (x_0 - x_c) / (A R_c); x water per dry mass, x_c where the surface no longer looks wet.
/// Range: x_0 >= x_c >= 0, all of the tray above 0. Errors: DomainError.
[[nodiscard]] Time constant_rate_time(const Tray& tray, double x_start, double x_critical);
/// t_f = W_s (x_c - x_e) / (A R_c) ln((x_c - x_e) / (x_f - x_e)), the rate falling in a straight line to 0 at x_e.
/// Range: x_c >= x_f > x_e >= 0. Errors: DomainError. One copy of a textbook prints x_c alone in front: right only
/// at x_e = 0.
[[nodiscard]] Time falling_rate_time(const Tray& tray, double x_critical, double x_end, double x_rest);

// What weighings tell.

struct DryingWeighing {
    Time time;                ///< since any one moment
    Mass mass;                ///< of the cake without its support
    bool surface_wet = false; ///< it still looked wet: not of the falling period
};

struct DryingLaw {
    Mass end;   ///< m_end
    Time tau;
    Mass over;  ///< A, what is still to go at `from`
    Time from;
};
/// Through three weighings one interval apart (exponential_approach.hpp). Errors: DomainError unless m1 > m2 > m3 and
/// m1-m2 > m2-m3, the end above 0.
[[nodiscard]] DryingLaw drying_through_three(Mass first, Mass second, Mass third, Time interval);
/// m(t). Time on the scale of `from`.
[[nodiscard]] Mass drying_mass(const DryingLaw& law, Time time);
/// When the mass is within a share of the end: from + tau ln(A / (share m_end)), `from` when it already is.
/// Range: share above 0. Errors: DomainError.
[[nodiscard]] Time dry_within(const DryingLaw& law, Share share);

/// What is believed before the first weighing; the figures lie on the shelf.
struct DryingHabits {
    Estimate<Time> usual_tau;        ///< lognormal
    Estimate<Share> weighing_repeats_to; ///< sd of one weighing beyond the scale's step, of the mass: draught, damp
    Estimate<Share> dry_within;      ///< of the end: then it is called dry
    Estimate<MassFraction> drained_water; ///< of a cake that has drained: where the forecast before any weighing begins
    Estimate<Share> constant_within; ///< two weighings agree
    Estimate<Time> constant_over;    ///< when they lie so far apart at least
};

/// Standard uncertainty of one weighing: the scale's reading, and what weighings repeat to.
[[nodiscard]] Mass weighing_doubt(Mass mass, const Instrument<Mass>& scale, const DryingHabits& habits);

/// How long a drained cake takes to come to rest, before it was weighed once.
struct DryingForecast {
    Time early, likely, late; ///< chances of 1 in 20, a half, 19 in 20
};
/// tau ln((w / (1 - w)) / dry_within), w the drained cake's water, its water at rest left out: lognormal tau, and the
/// doubt of w carried to the first order. Wide: three weighings tell far more. Errors: DomainError for figures out of range.
[[nodiscard]] DryingForecast usual_drying(const DryingHabits& habits);

/// One way the cake may be drying, with its weight; A is normal, given the others.
struct DryingNode {
    double tau = 0.0, end = 0.0, over = 0.0, over_sd = 0.0; // s, kg
    double weight = 0.0;                                    // all add up to 1
};
/// All that the weighings leave open.
struct DryingBelief {
    std::size_t from = 0; ///< first weighing used: those before it are of the constant-rate period
    Time origin{};        ///< its time; tau and A count from there
    std::vector<DryingNode> nodes;
};

/// Bayes over tau (lognormal before), m_end (even from 0 to the last weighing, times `expected`'s density where the
/// bath says what to expect) and A (even), each weighing normal with the scale's step and what weighings repeat to.
/// m_end and A are linear and exact given tau; tau on 100 nodes about where it may lie.
/// Range: weighings in order of time; at least three after the surface stopped looking wet and the rate began to fall (each
/// loss per hour below .95 of the one before it, once). Errors: DomainError: weighings that rise by more than 2.5 standard
/// uncertainties of a difference, fewer than three, or a rate that has not begun to fall.
[[nodiscard]] DryingBelief drying_belief(std::span<const DryingWeighing> weighings, const Instrument<Mass>& scale,
                           const DryingHabits& habits, const std::optional<Estimate<Mass>>& expected = {});

/// Whether the weighings whose surface no longer looked wet still lose at an even rate to the last, or are fewer than
/// three: no end can be told yet. Errors: none; times in order.
[[nodiscard]] bool dries_evenly(std::span<const DryingWeighing> weighings) noexcept;

/// Chance that the cake is within a share of its end at a time.
[[nodiscard]] Probability chance_dry(const DryingBelief& belief, Time time, Share within);
/// The mass at a time, and the end, that the chance p lies below. Range: p in (0, 1). Errors: DomainError.
[[nodiscard]] Mass drying_mass_quantile(const DryingBelief& belief, Time time, double p);
[[nodiscard]] Mass end_mass_quantile(const DryingBelief& belief, double p);
/// The first time at which the chance is p; nothing within a year of the first weighing.
[[nodiscard]] std::optional<Time> time_dry_with(const DryingBelief& belief, Share within, double p);

enum class DryingState {
    falling,  ///< it still loses water as the law says
    constant, ///< at rest in this room
    stuck,    ///< the weight stands, but far above where it should come to rest: damp inside a crust, or damp air
};

struct DryingOutlook {
    DryingState state = DryingState::falling;
    DryingBelief belief;
    Mass end{}, end_low{}, end_high{}; ///< nine in ten; at rest the last weighing with its own doubt
    Time tau{};                        ///< median
    bool unexpected = false; ///< the weighings and what the bath lets expect exclude each other: the weighings count
    Probability dry_now;
    std::optional<Time> early, likely, sure; ///< chance of 1 in 10, of a half, of 9 in 10
};
/// `constant` when the last weighing and one at least constant_over before it agree within constant_within.
/// `stuck` when they do and the last lies above what is left open by the weighings before the standstill (1 in 40), or
/// above what the bath lets expect (1 in 40). Errors: as drying_belief.
[[nodiscard]] DryingOutlook drying_outlook(std::span<const DryingWeighing> weighings, const Instrument<Mass>& scale,
                             const DryingHabits& habits, const std::optional<Estimate<Mass>>& expected = {});

} // namespace lakebound
