#pragma once
// The one-screen law of a grinding that slows: what stays on one screen when fines cushion the grains.
//
// dR/dt = -k R / (1 + c (1 - R)), the fines being what is through the screen. It integrates to a straight line:
//   z(R) = (1 + c) ln R - c R = z(R0) - k t
// With c = 0 it is the first-order law.

#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/particle/first_order_grinding.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct CushionedLaw {
    double start = 0.0; ///< z(R0), at time 0
    BreakageRate rate;  ///< k
    double cushioning = 0.0;
    struct Draw {
        double start, rate, cushioning; ///< rate in 1/s
    };
    std::vector<Draw> draws;   ///< laws that the readings allow; a rate of 0 or less never gets there
    double misfit_gain = 0.0; ///< by how much c lowers chi squared below that of first order
};

/// Fits k and R0 by weighted least squares for every c of a fine net over its prior, takes the likeliest c, and
/// draws laws from all of them by their likelihood.
/// Range: two readings at least, each with a standard uncertainty above 0; as fit_first_order.
/// Errors: DomainError; as fit_first_order. Origin: 1 + c F as in breakage.hpp, estimate.
[[nodiscard]] CushionedLaw fit_cushioned_law(std::span<const ResidueReading> readings, const CushioningPrior& prior,
                                             unsigned draws = 500);

/// R(t), at most 1. Range: t 0 or more. Errors: DomainError.
[[nodiscard]] double residue_at(const CushionedLaw& law, Time time);
/// Share of what stays on the screen that goes through it in a time while nothing cushions it: 1 - exp(-k t).
/// Range: t 0 or more. Errors: DomainError.
[[nodiscard]] Share uncushioned_passing(const CushionedLaw& law, Time time);
/// Time at which R = target, on the clock of the readings. Range: target above 0, below 1. Errors: DomainError.
[[nodiscard]] Time time_to_residue(const CushionedLaw& law, double target);
/// The same with the interval of the draws. Errors: DomainError.
[[nodiscard]] PredictedResidue predicted_residue(const CushionedLaw& law, Time time, double coverage = 0.90);
[[nodiscard]] PredictedTime predicted_time(const CushionedLaw& law, double target, double coverage = 0.90);

} // namespace lakebound
