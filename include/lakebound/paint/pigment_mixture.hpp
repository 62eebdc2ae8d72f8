#pragma once
// Several pigments in one paint: their binder demand and density by the additive rule.
//
// q = sum x_i q_i (demand adds by mass, q_i = OA_i / rho_o,i) and 1/rho = sum x_i / rho_i; x_i mass
// shares. Equivalent to void ratios that add by volume (docs/theory.md). Grains of unlike size pack
// closer than this, so it errs towards more binder: the safe side. A rub-out of the blend overrides it.

#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/paint/recipe.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PigmentMixture {
    SpecificVolume demand; ///< q, dry binder volume per mass of pigment
    MassDensity density;   ///< rho_p, as weighed
};

/// q of one pigment in the binder of the paint: OA / rho_o, times what was learned of the step from oil.
[[nodiscard]] SpecificVolume demand_of(const PigmentPart& part);

/// Throws DomainError unless there is a pigment and the shares sum to 1 within 1e-6.
[[nodiscard]] PigmentMixture pigment_mixture(std::span<const PigmentPart> pigments);

/// Shares of the mass as weighed that bring a recipe's shares of air-dry powder: x_i / (1 - e_i), brought
/// back to a sum of 1, e_i the excess water (material/moisture.hpp). No change where no powder is damp.
[[nodiscard]] std::vector<PigmentPart> as_weighed_shares(std::vector<PigmentPart> pigments);

/// The blend as one pigment, with a rub-out of the blend itself in place of the additive rule. Density by
/// 1/rho = sum x_i / rho_i, (u/rho)^2 = sum (v_i u_i/rho_i)^2, v_i volume shares; hazards of all.
/// Errors as pigment_mixture.
[[nodiscard]] Pigment pigment_of_blend(std::span<const PigmentPart> pigments, const Estimate<OilAbsorption>& oil_absorption,
                                       const Estimate<MassDensity>& test_oil_density);

} // namespace lakebound
