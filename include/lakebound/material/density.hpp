#pragma once
// Density of a powder or a mixture from its composition, at a stated moisture; powder by bulk.
//
// Volume-additive rule: 1/rho = sum w_i / rho_i, w_i mass fractions. Ideal volumes, no closed pores.
// Source: gettens-stout-1942 tabulates mixed whites that obey it (tests/material/density_test.cpp).
// Pair rule: a mass and a density meet in one formula only at the same moisture.

#include <span>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Water at 20 degC, 998.2071 kg/m3. Source: tanaka-2001.
[[nodiscard]] inline MassDensity water_density() { return kilograms_per_cubic_metre(998.2071); }
/// Water sorbed in a powder, taken as 1000 kg/m3: an estimate, as in the worked lake of docs/theory.md.
[[nodiscard]] inline MassDensity sorbed_water_density() { return kilograms_per_cubic_metre(1000.0); }

struct Component {
    MassFraction share;  ///< w_i; the shares sum to 1
    MassDensity density; ///< rho_i, above 0
};

/// Density of an ideal mixture, 1/rho = sum w_i/rho_i. Throws DomainError unless the shares sum to 1
/// within 1e-6 and every density is above 0.
[[nodiscard]] MassDensity mixture_density(std::span<const Component> components);

/// rho(w) = 1 / ((1-w)/rho_dry + w/rho_water): density with moisture w, from the bone-dry density.
/// w: water per mass as weighed. Throws DomainError unless rho_dry > 0.
[[nodiscard]] MassDensity moist_density(MassDensity bone_dry, MassFraction moisture);

/// rho_dry = (1-w) / (1/rho - w/rho_water): the inverse of moist_density. Throws DomainError where no
/// dry matter is left, or where the water alone would fill the volume.
[[nodiscard]] MassDensity bone_dry_density(MassDensity as_weighed, MassFraction moisture);

/// Density of a pigment at the moisture at which it is weighed. A bone-dry figure is shifted by the
/// pigment's moisture; throws DomainError when that is not given.
[[nodiscard]] MassDensity as_weighed_density(const Pigment& pigment);

/// V = m / rho_bulk: space that a loose or tapped powder takes. Throws DomainError unless rho_bulk > 0
/// and m is 0 or more.
[[nodiscard]] Volume powder_volume(Mass powder, MassDensity bulk_density);

} // namespace lakebound
