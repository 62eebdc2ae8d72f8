#pragma once
// Tapped fill: the density of the powder as it lies tapped in a round jar, and the mass in a jar from
// its fill height.
//   V = pi d^2 h / 4     rho_tap = m / V     m = rho_tap V
// Source: tapped volume, iso-787-11 (from memory). The fill of a jar tells its mass to about 35 %
// (estimate): enough to know whether to fetch the scale. Bulk falls as a powder is ground finer.

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct JarFill {
    Length diameter;          ///< inner, above 0
    Length height;            ///< of the tapped powder, above 0
    Instrument<Length> ruler; ///< one reading each
};

/// Volume of a round fill, (u/V)^2 = 4 (u/d)^2 + (u/h)^2. Normal. Throws DomainError unless both are above 0.
[[nodiscard]] Estimate<Volume> fill_volume(const JarFill& fill);

/// Tapped density from a weighed fill. Normal; errors as above.
[[nodiscard]] Estimate<MassDensity> tapped_density(const JarFill& fill, Mass powder, const Instrument<Mass>& scale);

/// Mass in a jar from its fill. Lognormal: at least x/ 1.35 (estimate), wider when the tapped density
/// is known worse than that.
[[nodiscard]] Estimate<Mass> mass_from_fill(const JarFill& fill, const Estimate<MassDensity>& tapped);

} // namespace lakebound
