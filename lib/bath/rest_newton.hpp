#pragma once
// The liquor of a bath at rest by Newton's method, with every derivative worked out; where it does not come to an end, the
// brackets of equilibrium.cpp do. Internal.
//
// Unknowns: u = ln of the activity of H+, v = ln of that of sulphate, I the ionic strength. Residuals: charge, sulphate,
// ionic strength. Each species is K h^m s^n a^k / gamma, so its logarithm's derivatives are m, n, those of ln a, and
// -z^2 d ln(gamma_1)/dI. A start beside the last answer takes three or four steps.

#include <optional>

#include "lakebound/bath/equilibrium.hpp"

namespace lakebound::rest {

/// Equilibrium constants as they are multiplied: powers of ten of those in equilibrium.hpp.
struct Constants {
    double al1, al2, al3, al4, also4, also42, hso4, naso4, kso4, bicarbonate, carbonate, henry, ammonia, water, hydroxide_solid,
        basic_solid;
};
const Constants& constants();

/// Totals, mol/L.
struct Totals {
    double sodium, potassium, ammonium, aluminium, sulphate, chloride, carbon;
};

/// The liquor at rest, mol/L.
struct Liquor {
    double ph = 7.0;
    double al_dissolved = 0.0, solid_al = 0.0, solid_sulphate = 0.0, carbon = 0.0, co2_activity = 0.0;
    double charge = 0.0, ionic_strength = 0.0;
};

/// Where Newton's method begins: the last answer, or a guess.
struct Start {
    double u, v, ionic_strength;
};

/// Nothing where it does not end, or ends beyond pH -1 to 15. On success `start` is the answer.
std::optional<Liquor> newton(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas, Start& start);
/// The same by three nested sign changes: slow, and never lost. In equilibrium.cpp.
Liquor by_brackets(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas);

} // namespace lakebound::rest
