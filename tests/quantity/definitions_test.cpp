// Units whose size is laid down by law or standard, against their published definitions.
#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/text.hpp"

using namespace lakebound;

namespace {

struct Definition {
    const char* text;
    Dimension dimension;
    double value; ///< SI base units
    const char* source;
};

constexpr const char* handbook_44 = "nist-handbook-44, Appendix C (value from memory)";
constexpr const char* sp_811 = "nist-sp-811, Appendix B (value from memory)";
constexpr const char* imperial = "uk-units-of-measurement-1995, Schedule (value from memory)";
constexpr const char* si = "si-brochure, tables of prefixes and of units accepted for use with the SI";

const Definition definitions[] = {
    {"1 lb", Dimension::mass, 0.45359237, handbook_44},
    {"1 oz", Dimension::mass, 0.45359237 / 16.0, handbook_44}, // 16 avoirdupois ounces to the pound
    {"1 in", Dimension::length, 0.0254, sp_811},
    {"1 mil", Dimension::length, 0.0254e-3, sp_811},
    // The gallon is 231 cubic inches, of 16 cups, 8 pints, 128 fl oz, 256 tablespoons, 768 teaspoons.
    {"1 US cup", Dimension::volume, 236.5882365e-6, handbook_44},
    {"16 US cup", Dimension::volume, 231.0 * 0.0254 * 0.0254 * 0.0254, handbook_44},
    {"8 US pint", Dimension::volume, 231.0 * 0.0254 * 0.0254 * 0.0254, handbook_44},
    {"1 US fl oz", Dimension::volume, 29.5735295625e-6, handbook_44},
    {"128 US fl oz", Dimension::volume, 231.0 * 0.0254 * 0.0254 * 0.0254, handbook_44},
    {"256 US tablespoon", Dimension::volume, 231.0 * 0.0254 * 0.0254 * 0.0254, handbook_44},
    {"768 US teaspoon", Dimension::volume, 231.0 * 0.0254 * 0.0254 * 0.0254, handbook_44},
    // The imperial gallon is 4.54609 L, of 8 pints, 160 fl oz.
    {"1 imperial fl oz", Dimension::volume, 28.4130625e-6, imperial},
    {"160 imperial fl oz", Dimension::volume, 4.54609e-3, imperial},
    {"1 imperial pint", Dimension::volume, 568.26125e-6, imperial},
    {"8 imperial pint", Dimension::volume, 4.54609e-3, imperial},
    {"16 imperial cup", Dimension::volume, 4.54609e-3, "common practice, no source: half a pint"},
    {"1 metric cup", Dimension::volume, 250e-6, "common practice, no source"},
    {"1 metric tablespoon", Dimension::volume, 15e-6, "common practice, no source"},
    {"1 Australian tablespoon", Dimension::volume, 20e-6, "common practice, no source"},
    {"1 metric teaspoon", Dimension::volume, 5e-6, "common practice, no source"},
    {"1 cP", Dimension::dynamic_viscosity, 1e-3, sp_811},
    {"0 degC", Dimension::temperature, 273.15, si},
    {"32 degF", Dimension::temperature, 273.15, sp_811},
    {"212 degF", Dimension::temperature, 373.15, sp_811},
    {"-40 degF", Dimension::temperature, 233.15, sp_811},
    {"-40 degC", Dimension::temperature, 233.15, si},
    {"1 d", Dimension::time, 86400, si},
    {"1 L", Dimension::volume, 1e-3, si},
    {"1 g/cm3", Dimension::density, 1000, si},
};

} // namespace

TEST_CASE("units are as large as their definitions say", "[reference]") {
    // Tolerance: the definitions are exact; one part in 10^15 allows for the few roundings on both sides.
    for (const Definition& row : definitions) {
        CAPTURE(row.text, row.source);
        CHECK(std::fabs(read_quantity(row.text, row.dimension).value - row.value) <= 1e-15 * row.value);
    }
}
