#pragma once
// Sweep: k, PVC, CPVC, reduced PVC and the chance of an underbound film along a line of recipes.
//
//   over medium M (mass per mass of pigment), v_b dry binder per mass of medium, b_0 binder brought by
//   additives:   B = b_0 + M v_b,   V = 1/rho_p
//   over the extender's mass share x at a fixed binder B:
//                q = (1-x) q_0 + x q_1,   V = (1-x)/rho_0 + x/rho_1
//   then  k = B/q,  c = V/(V + q),  PVC = V/(V + B),  Lambda = (V + q)/(V + B),
//         P(underbound) = Phi(-ln k / sigma), or a step at k = 1 when sigma is 0
// V and B are volumes per mass of pigment, q the effective demand; sigma standard deviation of ln k.
// The same formulas as pvc.hpp, written so that one loop fills arrays: structs of arrays, no
// allocation, vector code where the machine has it (docs/performance.md). Answers agree with pvc.hpp
// and estimate/probability.hpp to 1e-12, and are the same on every run.

#include <cstddef>
#include <span>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The most points one sweep may have.
inline constexpr std::size_t greatest_sweep = 1'000'000;

/// Columns to fill, all of one length; the raw numbers of the ratios.
struct SweepColumns {
    std::span<double> at; ///< medium per pigment, or mass share of the extender
    std::span<double> k;
    std::span<double> pvc;
    std::span<double> cpvc;
    std::span<double> reduced_pvc;
    std::span<double> chance_underbound;
};

struct MediumSweep {
    MediumPerPigment from, to;          ///< ends included, from <= to
    SpecificVolume dry_binder;          ///< v_b, above 0
    SpecificVolume binder_of_additives; ///< b_0, 0 or more
    SpecificVolume demand;              ///< effective, above 0
    MassDensity density;                ///< of the pigment, above 0
    double spread = 0.0;                ///< sigma, 0 or more
};
/// Whether this much medium lies between its ends.
[[nodiscard]] inline bool covers(const MediumSweep& sweep, MediumPerPigment medium) { return sweep.from <= medium && medium <= sweep.to; }

struct ExtenderSweep {
    MassFraction from, to;                  ///< ends included, from <= to
    SpecificVolume demand, extender_demand; ///< effective, above 0
    MassDensity density, extender_density;  ///< above 0
    SpecificVolume binder;                  ///< dry, per mass of pigment and extender, above 0
    double spread = 0.0;
};

/// Fill the columns with equal steps from `from` to `to`. Throw DomainError for columns of unlike
/// length, fewer than 2 or more than 1 000 000 points, and for inputs out of the ranges above; a sweep
/// that would start without any binder is refused.
void sweep_medium(const MediumSweep& sweep, const SweepColumns& columns);
void sweep_extender(const ExtenderSweep& sweep, const SweepColumns& columns);

} // namespace lakebound
