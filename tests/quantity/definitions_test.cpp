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

TEST_CASE("makers and getters of one unit undo one another, at the size of its definition", "[reference]") {
    // SI prefixes, the minute and the hour: exact by definition. Through a variable, for what the compiler works out
    // alone is seen by no test.
    for (const double x : {3.0, 0.25}) {
        CHECK(kilograms(x).value() == Approx(x));
        CHECK(grams(x).value() == Approx(1e-3 * x));
        CHECK(milligrams(x).value() == Approx(1e-6 * x));
        CHECK(litres(x).value() == Approx(1e-3 * x));
        CHECK(millilitres(x).value() == Approx(1e-6 * x));
        CHECK(metres(x).value() == Approx(x));
        CHECK(millimetres(x).value() == Approx(1e-3 * x));
        CHECK(micrometres(x).value() == Approx(1e-6 * x));
        CHECK(seconds(x).value() == Approx(x));
        CHECK(minutes(x).value() == Approx(60 * x));
        CHECK(hours(x).value() == Approx(3600 * x));
        CHECK(metres_per_second(x).value() == Approx(x));
        CHECK(kilograms_per_cubic_metre(x).value() == Approx(x));
        CHECK(grams_per_cubic_centimetre(x).value() == Approx(1e3 * x));
        CHECK(millilitres_per_gram(x).value() == Approx(1e-3 * x));
        CHECK(pascal_seconds(x).value() == Approx(x));
        CHECK(millipascal_seconds(x).value() == Approx(1e-3 * x));
        CHECK(degrees_celsius(x).value() == Approx(273.15 + x));
        CHECK(in_kilograms(kilograms(x)) == Approx(x));
        CHECK(in_grams(kilograms(x)) == Approx(1e3 * x));
        CHECK(in_litres(millilitres(x)) == Approx(1e-3 * x));
        CHECK(in_millilitres(litres(x)) == Approx(1e3 * x));
        CHECK(in_metres(millimetres(x)) == Approx(1e-3 * x));
        CHECK(in_millimetres(metres(x)) == Approx(1e3 * x));
        CHECK(in_micrometres(millimetres(x)) == Approx(1e3 * x));
        CHECK(in_seconds(minutes(x)) == Approx(60 * x));
        CHECK(in_minutes(hours(x)) == Approx(60 * x));
        CHECK(in_hours(minutes(x)) == Approx(x / 60));
        CHECK(in_metres_per_second(metres_per_second(x)) == Approx(x));
        CHECK(in_kilograms_per_cubic_metre(grams_per_cubic_centimetre(x)) == Approx(1e3 * x));
        CHECK(in_grams_per_cubic_centimetre(kilograms_per_cubic_metre(x)) == Approx(1e-3 * x));
        CHECK(in_millilitres_per_gram(millilitres_per_gram(x)) == Approx(x));
        CHECK(in_pascal_seconds(millipascal_seconds(x)) == Approx(1e-3 * x));
        CHECK(in_millipascal_seconds(pascal_seconds(x)) == Approx(1e3 * x));
        CHECK(in_kelvin(kelvin(x)) == Approx(x));
        CHECK(in_degrees_celsius(kelvin(x)) == Approx(x - 273.15));
        CHECK(grams_per_100_grams(30 * x).value() == Approx(0.3 * x));
        CHECK(in_grams_per_100_grams(OilAbsorption::of(x)) == Approx(100 * x));
    }
}
