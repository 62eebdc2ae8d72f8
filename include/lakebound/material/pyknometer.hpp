#pragma once
// Pyknometer: density of a powder from the liquid it pushes out of a full bottle.
//   rho = m_p rho_L / D,   D = m_p + m_full - m_both
// m_full: bottle full of liquid; m_both: the same with the powder in it and topped up; rho_L: density
// of the liquid. Principle of ISO 787-10 (iso-787-10, abstract read) and ASTM D153 (from memory).
// The liquid must wet the powder and not dissolve it: water with a drop of ethanol, or a light
// spirit for what water swells. Air left in the powder makes the answer too low, and no repetition
// shows it: see trapped_air_bias.

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Pyknometer {
    Mass full_of_liquid;
    Mass pigment; ///< as weighed, above 0
    Mass pigment_and_liquid;
    MassDensity liquid;     ///< at its temperature
    Instrument<Mass> scale; ///< one reading for each of the three masses
};

/// Density with first-order uncertainty from the three readings:
///   u^2 = u_r^2 (rho_L/D)^2 (2 (m_p/D)^2 + (1 - m_p/D)^2), u_r of one reading. Normal.
/// Throws DomainError unless the displaced mass D and the other inputs are above 0.
[[nodiscard]] Estimate<MassDensity> density_by_pyknometer(const Pyknometer& test);

/// Relative error of the density when a volume of air stayed in the powder: V/(V + air) - 1, V being
/// the solid volume; negative.
[[nodiscard]] double trapped_air_bias(const Pyknometer& test, Volume air);
/// A bubble that is easily left in the powder (estimate).
inline constexpr Volume bubble_left = millilitres(0.05);
/// As a guide: such a bubble would move the density by more than its standard uncertainty. Distrust it.
[[nodiscard]] bool air_dominates(const Pyknometer& test);

} // namespace lakebound
