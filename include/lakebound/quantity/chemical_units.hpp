#pragma once
// The quantities of the bath, beside those of quantity/units.hpp: amounts of substance and pressures.
//
// Apart from units.hpp because only the rooms that reckon with reactions read them.

#include <boost/units/systems/si/amount.hpp>
#include <boost/units/systems/si/pressure.hpp>

#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using Pressure = boost::units::quantity<si::pressure>; ///< Pa
using AmountOfSubstance = boost::units::quantity<si::amount>;     ///< of a substance, mol
/// Mass per amount, kg/mol.
using MolarMass = boost::units::quantity<boost::units::divide_typeof_helper<si::mass, si::amount>::type>;
/// Amount per volume, mol/m3.
using AmountConcentration =
    boost::units::quantity<boost::units::divide_typeof_helper<si::amount, si::volume>::type>;

[[nodiscard]] constexpr Pressure pascals(double x) { return Pressure::from_value(x); }
[[nodiscard]] constexpr Pressure standard_atmospheres(double x) { return pascals(x * 101325.0); }
[[nodiscard]] constexpr AmountOfSubstance moles(double x) { return AmountOfSubstance::from_value(x); }
[[nodiscard]] constexpr MolarMass grams_per_mole(double x) { return MolarMass::from_value(x / 1e3); }
[[nodiscard]] constexpr AmountConcentration moles_per_litre(double x) { return AmountConcentration::from_value(x * 1e3); }

[[nodiscard]] constexpr double in_pascals(Pressure p) { return p.value(); }
[[nodiscard]] constexpr double in_standard_atmospheres(Pressure p) { return p.value() / 101325.0; }
[[nodiscard]] constexpr double in_moles(AmountOfSubstance n) { return n.value(); }
[[nodiscard]] constexpr double in_grams_per_mole(MolarMass m) { return m.value() * 1e3; }
[[nodiscard]] constexpr double in_moles_per_litre(AmountConcentration c) { return c.value() / 1e3; }

} // namespace lakebound
