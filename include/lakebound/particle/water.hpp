#pragma once
// Water at room pressure: density and viscosity against temperature.

#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Density of air-free water.
///   0 to 40 degC: rho = a5 (1 - (t + a1)^2 (t + a2) / (a3 (t + a4))) (tanaka-2001, value from memory,
///   equal to its published check value); above: kell-1975 (value from memory).
/// Range: 0 to 100 degC. Accuracy: 0.001 kg/m3 below 40 degC, 0.02 above. Errors: DomainError.
[[nodiscard]] MassDensity water_density(Temperature temperature);

/// Dynamic viscosity of water.
///   mu = 280.68 T^-1.9 + 511.45 T^-7.7 + 61.131 T^-19.6 + 0.45903 T^-40 uPa s, T = kelvin / 300
/// Range: 0 to 100 degC. Accuracy: 1 % stated; within 0.2 % of
/// korson-1969 up to 80 degC, whose rows at 90 and 100 degC lie 0.5 and 1.2 % lower. Errors: DomainError.
/// Source: iapws-sr6-08, equation 7.
[[nodiscard]] DynamicViscosity water_viscosity(Temperature temperature);

} // namespace lakebound
