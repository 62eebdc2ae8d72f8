#pragma once
// The one-screen law of grinding: what stays on one screen falls exponentially with time.
//
// What is left when the sieve tests do not allow a population balance. It says nothing of other screens.

#include <optional>
#include <span>

#include "lakebound/export.hpp"
#include "lakebound/particle/breakage.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Residue on one screen after a grinding time.
struct ResidueReading {
    Time time;
    MassFraction residue;
    double standard_uncertainty = 0.0; ///< of the residue; 0 where unknown
};

/// R(t) = R0 exp(-k t), with the covariance of ln R0 and k.
struct FirstOrderLaw {
    double log_initial_residue = 0.0; ///< ln R0, at time 0
    BreakageRate rate;                ///< k
    /// Variances of ln R0 and k (1/s), and their covariance; nothing when neither the readings' uncertainty
    /// nor a third reading tells them.
    struct Covariance {
        double log_residue = 0.0, rate = 0.0, both = 0.0;
    };
    std::optional<Covariance> covariance;
};

/// Straight line through ln R against t, weighted by (R / u(R))^2; unweighted when an uncertainty is missing.
/// Range: two readings at least, times 0 or more and different, residues above 0. Errors: DomainError,
/// also when the residue does not fall. Source: austin-1984 (value from memory).
[[nodiscard]] FirstOrderLaw fit_first_order(std::span<const ResidueReading> readings);

/// R(t), at most 1. Range: t 0 or more. Errors: DomainError.
[[nodiscard]] double residue_at(const FirstOrderLaw& law, Time time);

/// Time at which R = target, counted from the same zero as the readings; 0 when R0 is below it.
/// Range: target above 0 and below 1. Errors: DomainError.
[[nodiscard]] Time time_to_residue(const FirstOrderLaw& law, double target);

struct TimeInterval {
    Time low;
    std::optional<Time> high; ///< nothing when the data cannot exclude that it is never reached
};
/// Fieller's interval of that time: all t at which the line passes within z u of ln target, normal z.
/// Range: coverage above 0 and below 1. Errors: DomainError, also without a covariance. Source: fieller-1954.
[[nodiscard]] TimeInterval time_interval(const FirstOrderLaw& law, double target, double coverage);

/// How a later reading sits against the law fitted to the earlier ones.
struct LaterReading {
    double predicted = 0.0;  ///< residue by the law
    double deviations = 0.0; ///< (ln observed - ln predicted) / u; positive: more is left than foreseen
    bool slowing = false;    ///< deviations above 2: fines cushion, or the mortar is overfull
    bool faster = false;     ///< deviations below -2: the readings do not belong together
};
/// Errors: DomainError when neither the law nor the reading has an uncertainty.
[[nodiscard]] LaterReading check_later_reading(const FirstOrderLaw& law, const ResidueReading& later);

} // namespace lakebound
