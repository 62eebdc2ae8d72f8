#pragma once
// Moisture: the figures of a powder carried from the moisture they belong to, to the powder as it lies.
//
// A density and an oil absorption belong to a moisture, as a mass does (pair rule). Dry matter takes up the
// oil, so with w_f the water in the powder of the figure and w that of the powder at hand, per mass as is:
//   f   = (1 - w) / (1 - w_f)        powder of the figure in a mass as it lies
//   OA  = OA_f f
//   e   = 1 - f                      excess water, where the powder is damper than air-dry; else 0
// Water up to the air-dry state lies in the grains and counts as pigment volume (density.hpp). Excess water
// lies between them: it is weighed with the powder, takes part in the wet paint, and is no pigment:
//   rho = m / V, V without the excess water: rho_f / f at e > 0, so that CPVC does not change with it;
//   below air-dry the mixture rule of density.hpp.
// Definitions and mass balances; that oil absorption goes with the dry mass is an assumption, good for an
// air-dry powder and its neighbours.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Highest moisture of a powder: half water is a paste (estimate).
inline constexpr MassFraction wettest_powder = MassFraction::from_proven(0.50);

/// The moisture w_f that a figure belongs to, and that of the powder it is carried to, w. Named where they are given,
/// since the two turned round would go unseen.
struct MoistureChange {
    MassFraction of_figure, now;
};
/// Mass as it lies that holds as much dry matter as the figure's at its moisture: m (1 - w_f) / (1 - w).
/// Throws DomainError for w = 1.
[[nodiscard]] Mass mass_at(Mass figure, const MoistureChange& moisture);

/// OA_f (1 - w) / (1 - w_f), with the uncertainty of w_f in it; that of w belongs to the mass. Throws
/// DomainError where it leaves 2 to 400 g/100 g, and for w_f = 1.
[[nodiscard]] Estimate<OilAbsorption> oil_absorption_at(const Estimate<OilAbsorption>& figure,
                                                        const Estimate<MassFraction>& its_moisture, MassFraction now);

/// Density of the same grains at the moisture `now`, by the mixture rule of density.hpp.
[[nodiscard]] Estimate<MassDensity> density_at(const Estimate<MassDensity>& figure, const MoistureChange& moisture);

/// A powder's moisture w and its air-dry one, w_a.
struct DampPowder {
    MassFraction now, air_dry;
};
/// e = 1 - (1 - w)/(1 - w_a), 0 where w is at or below w_a.
[[nodiscard]] MassFraction excess_water(const DampPowder& powder);

/// What of a pigment was measured on the powder at hand, as it lies now.
struct MeasuredAsItLies {
    bool density = false;
    bool oil_absorption = false;
};

/// Most water that an air-dry lake holds: at rest it keeps 17 +- 5 % (washing/home.yaml), in damp air some more
/// (estimate).
inline constexpr MassFraction most_air_dry_lake = MassFraction::from_proven(0.25);
/// Most that any other powder holds, earths and clays among them (estimate).
inline constexpr MassFraction most_air_dry_other = MassFraction::from_proven(0.05);
/// Most water that an air-dry powder of a class holds, where nothing is known of it.
[[nodiscard]] MassFraction most_air_dry_moisture(PigmentClass pigment_class) noexcept;

/// The pigment at the moisture `now`: figures that were not measured on the powder as it lies are carried
/// from the pigment's moisture, which counts as its air-dry state too unless it names another. Where it names
/// no moisture, its figures are kept and most_air_dry_moisture says what is excess. Sets moisture,
/// air_dry_moisture and excess_water.
/// Throws DomainError above wettest_powder, and as oil_absorption_at does.
[[nodiscard]] Pigment at_moisture(Pigment pigment, const Estimate<MassFraction>& now, MeasuredAsItLies own = {});

} // namespace lakebound
