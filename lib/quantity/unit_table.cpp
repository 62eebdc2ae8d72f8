// Definitions: metric units by prefix; pound, inch and the United States and imperial measures as in
// NIST Handbook 44 Appendix C and NIST SP 811 Appendix B; the rest is noted in its line.
#include "unit_table.hpp"

#include "lakebound/quantity/vocabulary.hpp"

namespace lakebound {
namespace {

using D = Dimension;

// Grouped by dimension in the order of the enumeration; within a group the usual spelling first.
constexpr UnitRow rows[] = {
    {"g", D::mass, 1, 1e3},
    {"mg", D::mass, 1, 1e6},
    {"kg", D::mass},
    {"ug", D::mass, 1, 1e9},
    {"µg", D::mass, 1, 1e9},
    {"oz", D::mass, 0.028349523125}, // avoirdupois
    {"lb", D::mass, 0.45359237},

    {"mL", D::volume, 1, 1e6},
    {"ml", D::volume, 1, 1e6},
    {"L", D::volume, 1, 1e3},
    {"l", D::volume, 1, 1e3},
    {"uL", D::volume, 1, 1e9},
    {"µL", D::volume, 1, 1e9},
    {"cL", D::volume, 1, 1e5},
    {"cm3", D::volume, 1, 1e6},
    {"m3", D::volume},
    {"US cup", D::volume, 236.5882365e-6},
    {"US cups", D::volume, 236.5882365e-6},
    {"metric cup", D::volume, 250e-6},
    {"metric cups", D::volume, 250e-6},
    {"imperial cup", D::volume, 284.130625e-6}, // half an imperial pint; common practice, no statute
    {"imperial cups", D::volume, 284.130625e-6},
    {"US pint", D::volume, 473.176473e-6}, // liquid pint
    {"US pints", D::volume, 473.176473e-6},
    {"imperial pint", D::volume, 568.26125e-6},
    {"imperial pints", D::volume, 568.26125e-6},
    {"US fl oz", D::volume, 29.5735295625e-6},
    {"imperial fl oz", D::volume, 28.4130625e-6},
    {"US tablespoon", D::volume, 14.78676478125e-6},
    {"US tablespoons", D::volume, 14.78676478125e-6},
    {"metric tablespoon", D::volume, 15e-6}, // common practice
    {"metric tablespoons", D::volume, 15e-6},
    {"Australian tablespoon", D::volume, 20e-6}, // common practice
    {"Australian tablespoons", D::volume, 20e-6},
    {"metric teaspoon", D::volume, 5e-6}, // common practice
    {"metric teaspoons", D::volume, 5e-6},
    {"US teaspoon", D::volume, 4.92892159375e-6},
    {"US teaspoons", D::volume, 4.92892159375e-6},
    {"tsp", D::volume, 1, 1, 0, UnitSize::teaspoon},
    {"teaspoon", D::volume, 1, 1, 0, UnitSize::teaspoon},
    {"teaspoons", D::volume, 1, 1, 0, UnitSize::teaspoon},
    {"drop", D::volume, 1, 1, 0, UnitSize::drop},
    {"drops", D::volume, 1, 1, 0, UnitSize::drop},

    {"mm", D::length, 1, 1e3},
    {"um", D::length, 1, 1e6},
    {"µm", D::length, 1, 1e6},
    {"cm", D::length, 1, 1e2},
    {"m", D::length},
    {"nm", D::length, 1, 1e9},
    {"in", D::length, 0.0254},
    {"mil", D::length, 0.0000254},

    {"cm2", D::area, 1, 1e4},
    {"mm2", D::area, 1, 1e6},
    {"m2", D::area},

    {"s", D::time},
    {"min", D::time, 60},
    {"h", D::time, 3600},
    {"d", D::time, 86400},

    {"mm/s", D::velocity, 1, 1e3},
    {"um/s", D::velocity, 1, 1e6},
    {"µm/s", D::velocity, 1, 1e6},
    {"cm/h", D::velocity, 1, 360000},
    {"m/s", D::velocity},

    {"g/cm3", D::density, 1e3},
    {"g/mL", D::density, 1e3},
    {"g/ml", D::density, 1e3},
    {"kg/m3", D::density},
    {"kg/L", D::density, 1e3},
    {"g/L", D::density},

    {"mPa·s", D::dynamic_viscosity, 1, 1e3},
    {"mPa s", D::dynamic_viscosity, 1, 1e3},
    {"Pa·s", D::dynamic_viscosity},
    {"Pa s", D::dynamic_viscosity},
    {"cP", D::dynamic_viscosity, 1, 1e3},

    {"mL/g", D::specific_volume, 1, 1e3},
    {"ml/g", D::specific_volume, 1, 1e3},
    {"cm3/g", D::specific_volume, 1, 1e3},

    {"degC", D::temperature, 1, 1, 273.15},
    {"°C", D::temperature, 1, 1, 273.15},
    {"degF", D::temperature, 5, 9, 459.67},
    {"°F", D::temperature, 5, 9, 459.67},
    {"K", D::temperature},

    {"K", D::temperature_difference},
    {"degC", D::temperature_difference},
    {"°C", D::temperature_difference},
    {"degF", D::temperature_difference, 5, 9},
    {"°F", D::temperature_difference, 5, 9},

    {"% w/w", D::mass_fraction, 1, 100},
    {"g/g", D::mass_fraction},
    {"g/kg", D::mass_fraction, 1, 1e3},

    {"% v/v", D::volume_fraction, 1, 100},
    {"%", D::volume_fraction, 1, 100},
    {"mL/mL", D::volume_fraction},

    {"%", D::share, 1, 100},

    {"% w/w", D::solution_strength, 1, 100},
    {"% w/v", D::solution_strength, 1, 100},

    {"g/100g", D::oil_absorption, 1, 100},
    {"g/100 g", D::oil_absorption, 1, 100},
    {"lb/100lb", D::oil_absorption, 1, 100},
    {"lb/100 lb", D::oil_absorption, 1, 100},

    {"%", D::pigment_volume_concentration, 1, 100},

    {"%", D::relative_humidity, 1, 100},
    {"% RH", D::relative_humidity, 1, 100},

    {"g/g", D::medium_per_pigment},
};
constexpr std::size_t row_count = sizeof rows / sizeof rows[0];

// starts[d] is the first row of dimension d, starts[d + 1] the one past its last.
constexpr auto starts = [] {
    std::array<std::size_t, dimension_count + 1> out{};
    std::size_t at = 0;
    for (std::size_t d = 0; d < dimension_count; ++d) {
        out[d] = at;
        while (at < row_count && static_cast<std::size_t>(rows[at].dimension) == d)
            ++at;
    }
    out[dimension_count] = at;
    return out;
}();
static_assert(starts[dimension_count] == row_count, "rows must follow the order of the enumeration");

constexpr std::array<DimensionWords, dimension_count> words = {{
    {"mass", "in g, mg, kg, ug, oz or lb", "g", "g, mg, kg, ug, oz, lb"},
    {"volume", "in mL, L, uL, cL, cm3, m3 or a named kitchen measure", "mL",
     "mL, L, uL, cL, cm3, m3, metric cup, US cup and the like"},
    {"length", "in um, mm, cm, m, nm, in or mil", "mm", "um, mm, cm, m, nm, in, mil"},
    {"area", "in cm2, mm2 or m2", "cm2", "cm2, mm2, m2"},
    {"time", "in s, min, h or d", "min", "s, min, h, d"},
    {"velocity", "length per time", "mm/s", "mm/s, um/s, m/s, cm/h"},
    {"density", "mass per volume", "g/cm3", "g/cm3, g/mL, kg/m3, kg/L, g/L"},
    {"viscosity", "pressure times time", "mPa s", "mPa s, Pa s, cP"},
    {"specific volume", "volume per mass", "mL/g", "mL/g, cm3/g"},
    {"temperature", "in degC, degF or K", "degC", "degC, degF, K"},
    {"temperature difference", "in K, degC or degF", "K", "K, degC, degF"},
    {"mass fraction", "mass per mass", "% w/w", "% w/w, g/g, g/kg"},
    {"volume fraction", "volume per volume", "% v/v", "% v/v, %, mL/mL"},
    {"share", "a percentage", "%", "%"},
    {"solution strength", "a percentage by mass (% w/w) or of mass in volume (% w/v)", "% w/w", "% w/w, % w/v"},
    {"oil absorption", "mass of oil per mass of pigment", "g/100g", "g/100g, lb/100lb"},
    {"pigment volume concentration", "a percentage of the dry film's volume", "%", "%"},
    {"relative humidity", "a percentage", "%", "%, % RH"},
    {"medium per pigment", "mass of medium per mass of pigment", "g/g", "g/g"},
    {"number", "a plain number without a unit", "", ""},
}};

} // namespace

std::span<const UnitRow> unit_rows(Dimension dimension) {
    const auto d = static_cast<std::size_t>(dimension);
    return {rows + starts[d], starts[d + 1] - starts[d]};
}

std::span<const UnitRow> all_unit_rows() { return {rows, row_count}; }

const DimensionWords& words_of(Dimension dimension) { return words[static_cast<std::size_t>(dimension)]; }

const UnitRow* find_unit(std::string_view plain, Dimension dimension) {
    for (const UnitRow& row : unit_rows(dimension))
        if (row.name == plain) return &row;
    return nullptr;
}

std::vector<Dimension> all_dimensions() {
    std::vector<Dimension> out;
    for (std::size_t d = 0; d < dimension_count; ++d)
        out.push_back(static_cast<Dimension>(d));
    return out;
}

std::string_view dimension_name(Dimension dimension) { return words_of(dimension).name; }

std::vector<std::string_view> unit_names(Dimension dimension) {
    std::vector<std::string_view> names;
    for (const UnitRow& row : unit_rows(dimension))
        names.push_back(row.name);
    return names;
}

} // namespace lakebound
