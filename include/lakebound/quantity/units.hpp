#pragma once
// The physical quantities of the house, each named once.
//
// Every type is a Boost.Units quantity over double in SI base units, so a mass where a volume is
// wanted does not compile, and arithmetic costs what raw doubles cost. Makers take the unit the
// trade uses, `in_...` getters give it back. Divisions by powers of ten are used instead of
// multiplications by their inverses because they round correctly (1.94 g/cm3 is 1940 kg/m3 exactly).
//
// Trap: `quantity` has a user-written copy constructor, so it is not trivially copyable. Keep hot
// formulas inline and pass arrays as spans; see docs/performance.md.

#include <boost/units/absolute.hpp>
#include <boost/units/physical_dimensions/specific_volume.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/dynamic_viscosity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/velocity.hpp>
#include <boost/units/systems/si/volume.hpp>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

namespace si = boost::units::si;

using Mass = boost::units::quantity<si::mass>;                          ///< kg
using Volume = boost::units::quantity<si::volume>;                      ///< m3
using Length = boost::units::quantity<si::length>;                      ///< m
using Area = boost::units::quantity<si::area>;                          ///< m2
using Time = boost::units::quantity<si::time>;                          ///< s
using Velocity = boost::units::quantity<si::velocity>;                  ///< m/s
using MassDensity = boost::units::quantity<si::mass_density>;           ///< kg/m3
using DynamicViscosity = boost::units::quantity<si::dynamic_viscosity>; ///< Pa s
/// Volume per mass, m3/kg: the binder demand of a pigment, the dry binder in a gram of medium.
using SpecificVolume =
    boost::units::quantity<boost::units::unit<boost::units::specific_volume_dimension, si::system>>;
/// A point on the temperature scale, kelvin. Two points subtract to a TemperatureDifference;
/// they do not add.
using Temperature = boost::units::quantity<boost::units::absolute<si::temperature>>;
using TemperatureDifference = boost::units::quantity<si::temperature>; ///< K

// Makers: the number in the named unit -> the quantity.
[[nodiscard]] constexpr Mass kilograms(double x) { return Mass::from_value(x); }
[[nodiscard]] constexpr Mass grams(double x) { return Mass::from_value(x / 1e3); }
[[nodiscard]] constexpr Mass milligrams(double x) { return Mass::from_value(x / 1e6); }
[[nodiscard]] constexpr Volume litres(double x) { return Volume::from_value(x / 1e3); }
[[nodiscard]] constexpr Volume millilitres(double x) { return Volume::from_value(x / 1e6); }
[[nodiscard]] constexpr Length metres(double x) { return Length::from_value(x); }
[[nodiscard]] constexpr Length millimetres(double x) { return Length::from_value(x / 1e3); }
[[nodiscard]] constexpr Length micrometres(double x) { return Length::from_value(x / 1e6); }
[[nodiscard]] constexpr Time seconds(double x) { return Time::from_value(x); }
[[nodiscard]] constexpr Time minutes(double x) { return Time::from_value(x * 60.0); }
[[nodiscard]] constexpr Time hours(double x) { return Time::from_value(x * 3600.0); }
[[nodiscard]] constexpr Velocity metres_per_second(double x) { return Velocity::from_value(x); }
[[nodiscard]] constexpr MassDensity kilograms_per_cubic_metre(double x) { return MassDensity::from_value(x); }
[[nodiscard]] constexpr MassDensity grams_per_cubic_centimetre(double x) { return MassDensity::from_value(x * 1e3); }
[[nodiscard]] constexpr SpecificVolume millilitres_per_gram(double x) { return SpecificVolume::from_value(x / 1e3); }
[[nodiscard]] constexpr DynamicViscosity pascal_seconds(double x) { return DynamicViscosity::from_value(x); }
[[nodiscard]] constexpr DynamicViscosity millipascal_seconds(double x) { return DynamicViscosity::from_value(x / 1e3); }
[[nodiscard]] constexpr Temperature kelvin(double x) { return Temperature::from_value(x); }
[[nodiscard]] constexpr Temperature degrees_celsius(double x) { return kelvin(x + 273.15); }

// Getters: the number of the named unit in the quantity.
[[nodiscard]] constexpr double in_kilograms(Mass m) { return m.value(); }
[[nodiscard]] constexpr double in_grams(Mass m) { return m.value() * 1e3; }
[[nodiscard]] constexpr double in_litres(Volume v) { return v.value() * 1e3; }
[[nodiscard]] constexpr double in_millilitres(Volume v) { return v.value() * 1e6; }
[[nodiscard]] constexpr double in_metres(Length l) { return l.value(); }
[[nodiscard]] constexpr double in_millimetres(Length l) { return l.value() * 1e3; }
[[nodiscard]] constexpr double in_micrometres(Length l) { return l.value() * 1e6; }
[[nodiscard]] constexpr double in_seconds(Time t) { return t.value(); }
[[nodiscard]] constexpr double in_minutes(Time t) { return t.value() / 60.0; }
[[nodiscard]] constexpr double in_hours(Time t) { return t.value() / 3600.0; }
[[nodiscard]] constexpr double in_metres_per_second(Velocity v) { return v.value(); }
[[nodiscard]] constexpr double in_kilograms_per_cubic_metre(MassDensity d) { return d.value(); }
[[nodiscard]] constexpr double in_grams_per_cubic_centimetre(MassDensity d) { return d.value() / 1e3; }
[[nodiscard]] constexpr double in_millilitres_per_gram(SpecificVolume v) { return v.value() * 1e3; }
[[nodiscard]] constexpr double in_pascal_seconds(DynamicViscosity v) { return v.value(); }
[[nodiscard]] constexpr double in_millipascal_seconds(DynamicViscosity v) { return v.value() * 1e3; }
[[nodiscard]] constexpr double in_kelvin(Temperature t) { return t.value(); }
[[nodiscard]] constexpr double in_degrees_celsius(Temperature t) { return in_kelvin(t) - 273.15; }

} // namespace lakebound
