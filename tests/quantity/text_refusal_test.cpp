// Every refusal of the reader: its id, the bytes it points at, and words of its message and hint.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <set>
#include <string>

#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/vocabulary.hpp"

using namespace lakebound;
using D = Dimension;

namespace {

struct Refusal {
    const char* text;
    Dimension dimension;
    const char* id;
    const char* faulty;  ///< the bytes pointed at
    const char* message; ///< words of it
    const char* hint;
};

const Refusal refusals[] = {
    {"", D::mass, "number-missing", "", "a number is wanted", ""},
    {"   ", D::mass, "number-missing", "", "a number is wanted", ""},
    {"g", D::mass, "number-missing", "g", "a number must come first, got 'g'", ""},
    {"about 5 g", D::mass, "number-missing", "about 5 g", "a number must come first", ""},
    {"- 5 g", D::mass, "number-missing", "- 5 g", "a number must come first", ""},
    {"\u22125 degC", D::temperature, "number-missing", "\u22125 degC", "the plain '-'", "write '-5 degC'"},
    {"1 +- g", D::mass, "number-missing", "g", "a number must come first", ""},
    {"1 +-", D::mass, "number-missing", "", "a number is wanted", ""},
    {"12,5 g", D::mass, "number-comma", "12,5", "a point, not a comma", "write '12.5 g'"},
    {"1,88 +- 0,20 g/cm3", D::density, "number-comma", "1,88", "a point, not a comma", "write '1.88 +- 0.20 g/cm3'"},
    {",5 g", D::mass, "number-comma", ",5 g", "a point, not a comma", "write '0.5 g'"},
    {"1,000 g", D::mass, "number-comma", "1,000", "a point, not a comma", "write '1.000 g' or '1000 g', whichever"},
    {"1,000.5 g", D::mass, "number-comma", "1,000.5", "a point, not a comma", "write '1000.5 g'; thousands"},
    {"1.000,5 g", D::mass, "number-comma", "1.000,5", "a point, not a comma", "thousands have no separator"},
    {"2 +- 0,5 g", D::mass, "number-comma", "0,5", "a point, not a comma", "write '2 +- 0.5 g'"},
    {"010 g", D::mass, "number-octal", "010", "needless zero, got '010'", "write '10'"},
    {"-007.5 g", D::mass, "number-octal", "-007", "needless zero", "write '7'"},
    {"00 g", D::mass, "number-octal", "00", "needless zero", "write '0'"},
    {"0x1F g", D::mass, "number-hex", "0x1F g", "must be decimal", "digits 0 to 9"},
    {"nan g", D::mass, "number-not-finite", "nan g", "must be finite, got 'nan g'", "write the number"},
    {".NaN", D::pure_number, "number-not-finite", ".NaN", "must be finite", ""},
    {"-inf g", D::mass, "number-not-finite", "-inf g", "must be finite", ""},
    {"Infinity", D::pure_number, "number-not-finite", "Infinity", "must be finite", ""},
    {"1e-400 g", D::mass, "number-underflow", "1e-400", "too small to tell from zero", "write 0"},
    {"1e-320 kg", D::mass, "number-underflow", "1e-320 kg", "too small to tell from zero", "write 0"},
    {"1e-305 ug", D::mass, "number-underflow", "1e-305 ug", "too small to tell from zero", "write 0"},
    {"1000000e-999 g", D::mass, "number-underflow", "1000000e-999", "too small", ""},
    {"0.0001e+999 g", D::mass, "number-overflow", "0.0001e+999", "too large", ""},
    {"1e99999999999999999999 g", D::mass, "number-overflow", "1e99999999999999999999", "too large", ""},
    {"1e400 g", D::mass, "number-overflow", "1e400", "too large", ""},
    {"1e306 g/cm3", D::density, "number-overflow", "1e306 g/cm3", "the quantity is too large", ""},
    {"1e308 d", D::time, "number-overflow", "1e308 d", "the quantity is too large", ""},
    {"1 +- 1e308 d", D::time, "number-overflow", "1 +- 1e308 d", "the quantity is too large", ""},
    {"1.2.3 g", D::mass, "number-trailing", ".3 g", "followed by '.3 g'", "one number"},
    {"1 000 g", D::mass, "number-trailing", "000 g", "followed by '000 g'", "nothing between the digits"},
    {"1'000 g", D::mass, "number-trailing", "'000 g", "followed by", ""},
    {"12.5(1) g", D::mass, "number-trailing", "(1) g", "followed by '(1) g'", "12.5 +- 0.1 g"},
    {"1/2 tsp", D::volume, "number-trailing", "/2 tsp", "followed by '/2 tsp'", "a decimal, such as 0.5"},
    {"5-6 g", D::mass, "number-trailing", "-6 g", "followed by", ""},
    {"5\u20136 g", D::mass, "number-trailing", "\u20136 g", "followed by", ""},
    {"12 g of gum", D::mass, "number-trailing", "of gum", "'of gum' is left over after '12 g'", "leave it out"},
    {"12 g +- 1 g", D::mass, "number-trailing", "+- 1 g", "left over", "before the unit"},
    {"12 g \u00B1 1", D::mass, "number-trailing", "\u00B1 1", "left over", "before the unit"},
    {"12 g x/ 1.2", D::mass, "number-trailing", "x/ 1.2", "left over", "before the unit"},
    {"12 g \u00D7/ 1.2", D::mass, "number-trailing", "\u00D7/ 1.2", "left over", "before the unit"},
    {"12 g +1", D::mass, "number-trailing", "+1", "left over", "before the unit"},
    {"12 g+1", D::mass, "number-trailing", "+1", "left over after '12 g'", "before the unit"},
    {"12 g x2", D::mass, "number-trailing", "x2", "left over", "leave it out"},
    {"12 g, fine", D::mass, "number-trailing", ", fine", "left over after '12 g'", "leave it out"},
    {"12 g; fine", D::mass, "number-trailing", "; fine", "left over after '12 g'", "leave it out"},
    {"12 g(fine)", D::mass, "number-trailing", "(fine)", "left over after '12 g'", "leave it out"},
    {"12 g:fine", D::mass, "unit-unknown", "g:fine", "'g:fine' is not a unit of mass", "write it in g, mg"},
    {"1.4 well", D::pure_number, "number-trailing", "well", "followed by 'well'", "the number alone"},
    {"-300 degC", D::temperature, "number-range", "-300 degC", "below absolute zero", "-273.15 degC"},
    {"12.5", D::mass, "unit-missing", "12.5", "mass must have a unit, got '12.5'", "for example '12.5 g'"},
    {" 1.9 +- 0.1 ", D::density, "unit-missing", "1.9 +- 0.1", "density must have a unit",
     "'1.9 +- 0.1 g/cm3'"},
    {"12 gm", D::mass, "unit-unknown", "gm", "'gm' is not a unit of mass", "write '12 g'"},
    {"12 KG", D::mass, "unit-unknown", "KG", "'KG' is not a unit of mass", "write '12 kg'"},
    {"5 ML", D::volume, "unit-unknown", "ML", "not a unit of volume", "write '5 mL'"},
    {"2 us cup", D::volume, "unit-unknown", "us cup", "not a unit of volume", "write '2 US cup'"},
    {"20 C", D::temperature, "unit-unknown", "C", "not a unit of temperature", "write '20 degC'"},
    {"12 pinches", D::mass, "unit-unknown", "pinches", "not a unit of mass", "write it in g, mg"},
    {"12 \xFF\x01", D::mass, "unit-unknown", "\xFF\x01", "'\\xFF\\x01' is not a unit", ""},
    {"2.7 g/cm2", D::density, "unit-dimension", "2.7 g/cm2", "density must be mass per volume, got '2.7 g/cm2'",
     "write '2.7 g/cm3'"},
    {"12 mL", D::mass, "unit-dimension", "12 mL", "mass must be in g", "multiply the volume by the density"},
    {"12 g", D::volume, "unit-dimension", "12 g", "volume must be in mL", "divide the mass by the density"},
    {"1 oz", D::volume, "unit-dimension", "1 oz", "volume must be", "'US fl oz'"},
    {"2 tsp", D::mass, "unit-dimension", "2 tsp", "mass must be", "weigh it"},
    {"68 %", D::oil_absorption, "unit-dimension", "68 %", "mass of oil per mass of pigment",
     "write '68 g/100g'"},
    {"70 mL/100g", D::oil_absorption, "unit-dimension", "70 mL/100g", "mass of oil per mass of pigment",
     "multiply by the test oil's density"},
    {"70 ml/100 g", D::oil_absorption, "unit-dimension", "70 ml/100 g", "mass of oil", "test oil's density"},
    {"65 g/100g", D::mass_fraction, "unit-dimension", "65 g/100g", "mass fraction must be mass per mass", ""},
    {"12 % v/v", D::mass_fraction, "unit-dimension", "12 % v/v", "mass per mass", "if that is what is meant"},
    {"12 % w/w", D::volume_fraction, "unit-dimension", "12 % w/w", "volume per volume", "'12 % v/v' if"},
    {"30 % w/w", D::pigment_volume_concentration, "unit-dimension", "30 % w/w", "dry film's volume",
     "'30 %' if"},
    {"5 % w/v", D::share, "unit-dimension", "5 % w/v", "a percentage", "'5 %'"},
    {"1.4 g", D::pure_number, "unit-dimension", "1.4 g", "without a unit, got '1.4 g'", "leave the unit out"},
    {"75 %", D::pure_number, "unit-dimension", "75 %", "without a unit", "0.75 for 75 %"},
    {"200 mesh", D::length, "unit-dimension", "200 mesh", "length must be in um",
     "nylon mesh is not wire mesh"},
    {"No. 200", D::length, "unit-dimension", "No. 200", "length must be in um",
     "the aperture, such as '75 um'"},
    {"#200", D::length, "unit-dimension", "#200", "length must be in um", "the aperture"},
    {"#200 um", D::length, "unit-dimension", "#200 um", "length must be in um", "the aperture"},
    {"3 pinches/g", D::mass, "unit-unknown", "pinches/g", "is not a unit of mass", "write it in g, mg"},
    {"3 g/pinch", D::mass, "unit-unknown", "g/pinch", "is not a unit of mass", ""},
    {"70 s/100g", D::oil_absorption, "unit-dimension", "70 s/100g", "mass of oil per mass of pigment", "write it in g/100g"},
    {"5 % w/v", D::mass_fraction, "unit-dimension", "5 % w/v", "mass per mass", "'5 % w/w' if"},
    {"5 g/cm2", D::mass_fraction, "unit-dimension", "5 g/cm2", "mass per mass", "write it in"},
    {"2 cups", D::volume, "unit-unqualified", "cups", "not the same everywhere", "'metric cup' (250 mL)"},
    {"1 pint", D::volume, "unit-unqualified", "pint", "not the same everywhere", "'imperial pint'"},
    {"1 fl oz", D::volume, "unit-unqualified", "fl oz", "not the same everywhere", "'US fl oz'"},
    {"1 tablespoon", D::volume, "unit-unqualified", "tablespoon", "not the same", "'Australian tablespoon'"},
    {"1 tbsp", D::volume, "unit-unqualified", "tbsp", "not the same everywhere", "'US tablespoon'"},
    {"1 tsp", D::volume, "unit-uncalibrated", "tsp", "the size of a teaspoon is not known", "bench file"},
    {"1 teaspoon", D::volume, "unit-uncalibrated", "teaspoon", "the size of a teaspoon", "'metric teaspoon'"},
    {"5 drops", D::volume, "unit-uncalibrated", "drops", "the size of a drop is not known", "bench file"},
    {"12 %", D::mass_fraction, "percent-basis", "%", "must say what the percent is of", "write '12 % w/w'"},
    {"10 %", D::solution_strength, "percent-basis", "%", "what the percent is of", "'10 % w/v' (g in 100 mL)"},
    {"2 +- -0.5 g", D::mass, "spread-negative", "+- -0.5", "must not be negative", "drop the sign"},
    {"2 x/ 0.8 g", D::mass, "spread-factor", "x/ 0.8", "above 1", "1.35"},
    {"2 x/ 1 g", D::mass, "spread-factor", "x/ 1", "above 1", "1.35"},
    {"0 x/ 1.5 g", D::mass, "spread-factor", "x/ 1.5", "positive quantity", "'+-'"},
    {"-2 x/ 1.5 g", D::mass, "spread-factor", "x/ 1.5", "positive quantity", "'+-'"},
    {"20 x/ 1.1 degC", D::temperature, "spread-factor", "x/ 1.1", "positive quantity", "'+-'"},
};

QuantityTextError refusal_of(std::string_view text, Dimension dimension) {
    try {
        (void)read_quantity(text, dimension);
    } catch (const QuantityTextError& e) {
        return e;
    }
    return {"none", 0, 0, "was read", ""};
}

} // namespace

TEST_CASE("each refusal has its id, its place and a way to mend it", "[errors]") {
    for (const Refusal& row : refusals) {
        const QuantityTextError e = refusal_of(row.text, row.dimension);
        CAPTURE(row.text, e.what(), e.hint);
        CHECK(e.id == row.id);
        CHECK(std::string(row.text).substr(e.offset, e.length) == row.faulty);
        CHECK_THAT(e.what(), Catch::Contains(row.message));
        CHECK_THAT(e.hint, Catch::Contains(row.hint));
    }
}

TEST_CASE("every stable id of the reader has a row", "[errors]") {
    std::set<std::string> seen;
    for (const Refusal& row : refusals)
        seen.insert(row.id);
    try {
        (void)read<Mass>("2 +- 0.1 g");
    } catch (const QuantityTextError& e) {
        seen.insert(e.id);
    }
    for (const char* id :
         {"number-missing", "number-comma", "number-octal", "number-hex", "number-not-finite",
          "number-underflow", "number-overflow", "number-trailing", "number-range", "unit-missing",
          "unit-unknown", "unit-dimension", "unit-unqualified", "unit-uncalibrated", "percent-basis",
          "spread-negative", "spread-factor", "spread-unwanted"}) {
        CAPTURE(id);
        CHECK(seen.count(id) == 1);
        seen.erase(id);
    }
    CHECK(seen.empty()); // no id that the list does not name
}

TEST_CASE("large numbers are refused only where the quantity itself is too large", "[errors]") {
    CHECK_NOTHROW(read_quantity("10000000 g", D::mass)); // 10 t, the most of possible.hpp
    CHECK_NOTHROW(read_quantity("2204 lb", D::mass));
    CHECK_NOTHROW(read_quantity("10000 L", D::volume));
    CHECK_NOTHROW(read_quantity("0.000001 g", D::mass));
    CHECK_NOTHROW(read_quantity("0 kg", D::mass));
    CHECK_NOTHROW(read_quantity("-273.15 degC", D::temperature));
}

TEST_CASE("no unit of one dimension is read as another by mistake", "[errors]") {
    // A unit may serve two dimensions only where the same text is a plain statement of both.
    const std::set<std::string> shared = {"%", "% w/w", "g/g", "K", "degC", "\u00B0C", "degF", "\u00B0F"};
    for (const Dimension from : all_dimensions())
        for (const std::string_view unit : unit_names(from))
            for (const Dimension to : all_dimensions()) {
                if (from == to || shared.count(std::string(unit)) == 1) continue;
                CAPTURE(unit, dimension_name(to));
                CHECK(refusal_of("1 " + std::string(unit), to).id == "unit-dimension");
            }
}

TEST_CASE("ten thousand strings of fragments are read or refused, never more", "[errors]") {
    const char* fragments[] = {
        "1",      "0",      "12.5", ".",      ",",        "e",
        "E9",     "-",      "+",    "+-",     "x/",       "\u00B1",
        "\u00F7", "\u00D7", " ",    "\u00A0", "g",        "mL",
        "%",      " w/w",   "/",    "100",    "cm",       "3",
        "\u00B2", "\u03BC", "m",    "\xC2",   "\xE2\x80", "\xFF",
        "(",      ")",      "No.",  "mesh",   "US cup",   "nan",
        "inf",    "0x",     "\t",   "degC",   "tsp",      "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"};
    std::uint32_t state = 1;
    const auto next = [&state](std::uint32_t below) {
        state = state * 1664525U + 1013904223U;
        return (state >> 8U) % below;
    };
    int read_ones = 0, refused = 0;
    for (int i = 0; i < 10000; ++i) {
        std::string text;
        const std::uint32_t parts = next(9);
        for (std::uint32_t k = 0; k < parts; ++k)
            text += next(8) == 0 ? std::string(1, static_cast<char>(next(256)))
                                 : fragments[next(sizeof fragments / sizeof *fragments)];
        const Dimension dimension = all_dimensions()[next(static_cast<std::uint32_t>(all_dimensions().size()))];
        try {
            const Reading r = read_quantity(text, dimension);
            REQUIRE(std::isfinite(r.value));
            REQUIRE(std::isfinite(r.spread));
            ++read_ones;
        } catch (const QuantityTextError& e) {
            REQUIRE(e.offset + e.length <= text.size());
            REQUIRE_FALSE(e.id.empty());
            ++refused;
        }
    }
    CHECK(read_ones > 0);
    CHECK(refused > 5000);
}
