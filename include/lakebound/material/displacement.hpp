#pragma once
// Displacement: density of a powder from the rise of liquid in a syringe or graduate.
//   rho = m_p / (V_after - V_before)
// Same principle and the same trap as the pyknometer: air left in the powder makes the answer too low.

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Displacement {
    Mass pigment;                ///< as weighed, above 0
    Instrument<Mass> scale;      ///< two readings: tare and load
    Volume before, after;        ///< level of the liquid; after above before
    Instrument<Volume> graduate; ///< one reading for each level
};

/// Density with (u/rho)^2 = (u_m/m)^2 + (u_V/V)^2. Normal.
/// Throws DomainError unless the pigment and the rise are above 0.
[[nodiscard]] Estimate<MassDensity> density_by_displacement(const Displacement& test);

} // namespace lakebound
