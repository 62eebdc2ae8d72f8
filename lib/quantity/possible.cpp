#include "lakebound/quantity/possible.hpp"

#include <array>

#include "unit_table.hpp"

namespace lakebound {
namespace {

constexpr std::string_view exponent = "check the exponent and the unit";
constexpr std::string_view whole = "0 to 100 %"; // the type of a ratio refuses what is just above

// One row for each Dimension, in its order.
constexpr std::array<Possible, dimension_count> possible_rows = {{
    {1e-9, 1e4, "1 ug to 10 t", exponent},                                  // mass, kg
    {1e-12, 10.0, "1 nL to 10 m3", exponent},                               // volume, m3
    {1e-9, 1e3, "1 nm to 1 km", exponent},                                  // length, m
    {1e-18, 1e6, "1 nm x 1 nm to 1 km x 1 km", exponent},                   // area, m2
    {1e-3, 3.15576e9, "1 ms to 100 years", exponent},                       // time, s
    {1e-12, 1e3, "0.000001 um/s to 1000 m/s", exponent},                    // velocity, m/s
    {1.0, 25000.0, "0.001 to 25 g/cm3", "check the unit: is it g/cm3?"},    // density, kg/m3
    {1e-6, 1e6, "0.001 mPa s to 1000000 Pa s", exponent},                   // dynamic viscosity, Pa s
    {1e-9, 1.0, "0.000001 to 1000 mL/g", exponent},                         // specific volume, m3/kg
    {0.0, 3273.15, "-273.15 to 3000 degC", "is the unit right, degC or degF?"}, // temperature, K
    {0.0, 3000.0, "0 to 3000 K", exponent, true},                           // temperature difference, K
    {1e-12, 1e6, whole, exponent, true},                                // mass fraction
    {1e-12, 1e6, whole, exponent, true},                                // volume fraction
    {1e-12, 1e6, whole, exponent, true},                                // share
    {1e-12, 10.0, "0.0000000001 to 1000 %", exponent},                      // solution strength
    {1e-12, 1e6, "2 to 400 g/100g", exponent},                              // oil absorption
    {1e-12, 1e6, whole, exponent, true},                                // PVC
    {1e-12, 1e6, whole, exponent, true},                                // relative humidity
    {1e-6, 1e6, "0.000001 to 1000000 g/g", exponent},                       // medium per pigment
    {1e-9, 1e9, "0.000000001 to 1000000000", exponent},                     // pure number
}};

} // namespace

const Possible& possible(Dimension dimension) { return possible_rows[static_cast<std::size_t>(dimension)]; }

} // namespace lakebound
