#pragma once
// Bases: of what a number is a share, and the way from one basis to another.
//
// Every conversion asks for the density or the moisture it needs; none is guessed. Definitions:
//   wet basis      w = m_water / m_as_is            dry basis  x = m_water / m_dry = w / (1 - w)
//   % w/w          s = m_solute / m_solution        % w/v      c = m_solute / V_solution = s rho_solution
//   per solvent    r = m_solute / m_solvent, s = r / (1 + r)
//   bulk volume    of a powder with the air between its grains, m = rho_bulk V_bulk
//   solid volume   of the grains alone, m = rho V_solid
// All are definitions; no source needed.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/quantity/canonical.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Mass of solute per volume of solution, "% w/v"; a type apart from the density of anything.
struct WeightPerVolume {
    MassDensity value;
};
/// 10 % w/v is 10 g per 100 mL. Throws DomainError unless 0 or more.
[[nodiscard]] WeightPerVolume grams_per_100_millilitres(double x);

/// Dry mass in an as-is mass: m (1 - w); and back, m / (1 - w), which refuses w = 1.
[[nodiscard]] Mass dry_mass(Mass as_is, MassFraction moisture);
[[nodiscard]] Mass as_is_mass(Mass dry, MassFraction moisture);

/// Moisture per mass as is from moisture per dry mass, w = x / (1 + x); x 0 or more.
[[nodiscard]] MassFraction wet_basis_moisture(double water_per_dry_mass);
/// Water per dry mass, x = w / (1 - w); refuses w = 1.
[[nodiscard]] double dry_basis_moisture(MassFraction moisture);

/// c = s rho_solution, and s = c / rho_solution; refuse a density that is not above 0 and a strength
/// above the density of the solution.
[[nodiscard]] WeightPerVolume weight_per_volume(MassFraction by_mass, MassDensity solution);
[[nodiscard]] MassFraction weight_per_weight(WeightPerVolume strength, MassDensity solution);

/// s = r / (1 + r) from grams of solute per gram of solvent ("1 gum to 2 water" has r = 0.5).
[[nodiscard]] MassFraction weight_per_weight_of_solute_per_solvent(double solute_per_solvent);

/// Mass of a loose or tapped powder, m = rho_bulk V_bulk, and its solid volume, rho_bulk V_bulk / rho.
/// Throw DomainError unless the densities are above 0 and rho_bulk is below rho.
[[nodiscard]] Mass mass_of_bulk(Volume bulk, MassDensity bulk_density);
[[nodiscard]] Volume solid_volume_of_bulk(Volume bulk, MassDensity bulk_density, MassDensity density);
/// Bulk volume that a solid volume takes up as powder: rho V / rho_bulk.
[[nodiscard]] Volume bulk_volume_of_solid(Volume solid, MassDensity bulk_density, MassDensity density);

/// Pair rule: a mass and a density may meet only at one moisture. Throws DomainError when the two
/// states differ, and says that the moisture is what is missing.
void require_same_moisture(MoistureState of_the_mass, MoistureState of_the_density);

/// "a parts of medium to b parts of pigment", by mass or by volume; the volume of the pigment is its
/// bulk volume, as a spoon takes it.
struct Parts {
    double medium = 0.0;             ///< above 0
    double pigment = 0.0;            ///< above 0
    std::optional<PartsBasis> basis; ///< bare parts, without one, are refused
};

/// Mass of medium per mass of pigment: a/b by mass, (a rho_medium) / (b rho_bulk) by volume.
/// Throws DomainError for bare parts, for parts not above 0, and for parts by volume without both
/// densities: "1:1" of one lake differs by a factor of 3 between the two readings (docs/theory.md).
[[nodiscard]] MediumPerPigment medium_per_pigment(const Parts& parts, std::optional<MassDensity> medium_density,
                                                  std::optional<MassDensity> pigment_bulk_density);

} // namespace lakebound
