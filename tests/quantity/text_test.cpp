#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>

#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/possible.hpp"
#include "lakebound/quantity/vocabulary.hpp"

using namespace lakebound;
using D = Dimension;

namespace {

/// Equal up to `relative`; both margins, so that zero can be compared as well.
bool near(double a, double b, double relative = 4e-16) {
    return std::fabs(a - b) <= relative * std::max(std::fabs(a), std::fabs(b)) + 1e-300;
}

KitchenMeasures spoons() {
    KitchenMeasures kitchen;
    kitchen.drop = millilitres(0.039);
    kitchen.teaspoon = millilitres(4.8);
    return kitchen;
}

} // namespace

TEST_CASE("numbers as people write them", "[unit]") {
    const auto [text, value] = GENERATE(table<std::string, double>({
        {"12", 12.0},
        {"12.5", 12.5},
        {".5", 0.5},
        {"5.", 5.0},
        {"-3", -3.0},
        {"+3", 3.0},
        {"0", 0.0},
        {"0.25", 0.25},
        {"1.2e-3", 1.2e-3},
        {"1E3", 1000.0},
        {"0e9999", 0.0},
        {"  7 ", 7.0},
        {"\u00A07\t", 7.0},
        {"1e308", 1e308},
    }));
    CAPTURE(text);
    CHECK(near(read_number(text), value));
}

TEST_CASE("a value, its unit and its spread are read into SI base units", "[unit]") {
    Reading r = read_quantity("12.5 g", D::mass);
    CHECK(near(r.value, 0.0125));
    CHECK(r.spread_kind == Spread::none);
    CHECK(r.unit == "g");

    r = read_quantity("1.88 +- 0.20 g/cm3", D::density);
    CHECK(near(r.value, 1880.0));
    CHECK(r.spread_kind == Spread::standard_uncertainty);
    CHECK(near(r.spread, 200.0));

    r = read_quantity("65 x/ 1.35 g/100g", D::oil_absorption);
    CHECK(near(r.value, 0.65));
    CHECK(r.spread_kind == Spread::factor);
    CHECK(near(r.spread, 1.35));

    // A difference has no zero point: the spread of a temperature is not shifted.
    r = read_quantity("68 +- 1.8 degF", D::temperature);
    CHECK(near(r.value, 293.15, 1e-15));
    CHECK(near(r.spread, 1.0));

    r = read_quantity("1.0 x/ 1.1", D::pure_number);
    CHECK(r.unit.empty());
    CHECK(near(r.spread, 1.1));
}

TEST_CASE("every sign of a spread", "[unit]") {
    for (const char* text : {"2 +- 0.5 g", "2+-0.5g", "2 +/- 0.5 g", "2 \u00B1 0.5 g", "2\u00B10.5 g"}) {
        CAPTURE(text);
        const Reading r = read_quantity(text, D::mass);
        CHECK(r.spread_kind == Spread::standard_uncertainty);
        CHECK(near(r.spread, 0.0005));
    }
    for (const char* text :
         {"2 x/ 1.5 g", "2x/1.5g", "2 x/\u00F7 1.5 g", "2 \u00D7/\u00F7 1.5 g", "2 \u00D7/ 1.5 g"}) {
        CAPTURE(text);
        const Reading r = read_quantity(text, D::mass);
        CHECK(r.spread_kind == Spread::factor);
        CHECK(near(r.spread, 1.5));
    }
}

TEST_CASE("spellings that mean the same unit", "[unit]") {
    const auto [text, dimension, value] = GENERATE(table<std::string, Dimension, double>({
        {"12.5g", D::mass, 0.0125},
        {"12.5\u00A0g", D::mass, 0.0125},
        {"12.5\u202Fg ", D::mass, 0.0125},
        {"5 \u00B5g", D::mass, 5e-9},
        {"5 \u03BCg", D::mass, 5e-9},
        {"45 \u03BCm", D::length, 45e-6},
        {"2 cm\u00B2", D::area, 2e-4},
        {"2 cm\u00B3", D::volume, 2e-6},
        {"1.9 g/cm\u00B3", D::density, 1900.0},
        {"1.9 g / cm3", D::density, 1900.0},
        {"65 g/100\u00A0g", D::oil_absorption, 0.65},
        {"65 g / 100 g", D::oil_absorption, 0.65},
        {"12 %w/w", D::mass_fraction, 0.12},
        {"12% w/w", D::mass_fraction, 0.12},
        {"50 %RH", D::relative_humidity, 0.5},
        {"2 mPa\u22C5s", D::dynamic_viscosity, 2e-3},
        {"1 US  fl   oz", D::volume, 29.5735295625e-6},
        {"20 \u00B0C", D::temperature, 293.15},
        {"20 degC", D::temperature_difference, 20.0},
    }));
    CAPTURE(text);
    CHECK(near(read_quantity(text, dimension).value, value));
}

TEST_CASE("typed reading agrees with the makers to the bit", "[unit]") {
    CHECK(read<Mass>("12.5 g") == grams(12.5));
    CHECK(read<Volume>("250 mL") == millilitres(250));
    CHECK(read<Length>("45 um") == micrometres(45));
    CHECK(read<Time>("2 h") == hours(2));
    CHECK(read<MassDensity>("1.94 g/cm3") == grams_per_cubic_centimetre(1.94));
    CHECK(read<SpecificVolume>("0.224 mL/g") == millilitres_per_gram(0.224));
    CHECK(read<OilAbsorption>("68.8 g/100g") == grams_per_100_grams(68.8));
    CHECK(read<DynamicViscosity>("1.002 mPa s") == millipascal_seconds(1.002));
    CHECK(in_degrees_celsius(read<Temperature>("20 degC")) == Approx(20.0));
    CHECK(read<BinderSufficiency>("1.4").value() == Approx(1.4));
}

TEST_CASE("a ratio read from text obeys its range", "[errors]") {
    CHECK_THROWS_AS(read<OilAbsorption>("450 g/100g"), DomainError);
    CHECK_THROWS_AS(read<MassFraction>("120 % w/w"), DomainError);
    CHECK_THROWS_AS(read<Share>("-5 %"), DomainError);
    CHECK_THROWS_AS(read<RelativeHumidity>("101 % RH"), DomainError);
}

TEST_CASE("kitchen units are as large as the maker's own", "[unit]") {
    CHECK(near(read_quantity("2 tsp", D::volume, spoons()).value, 9.6e-6));
    CHECK(near(read_quantity("1 teaspoon", D::volume, spoons()).value, 4.8e-6));
    CHECK(near(read_quantity("19 drops", D::volume, spoons()).value, 19 * 0.039e-6));
    CHECK(near(read_quantity("1 drop", D::volume, spoons()).value, 0.039e-6));
    CHECK(near(read_quantity("10 +- 1 drops", D::volume, spoons()).spread, 0.039e-6));
    CHECK(near(read<Volume>("1 metric teaspoon").value(), 5e-6)); // needs no bench
}

TEST_CASE("solution strength keeps its basis", "[unit]") {
    CHECK_FALSE(read_quantity("10 % w/w", D::solution_strength).weight_per_volume);
    const Reading r = read_quantity("10 % w/v", D::solution_strength);
    CHECK(r.weight_per_volume);
    CHECK(near(r.value, 0.1));
}

TEST_CASE("every unit of the vocabulary reads back what was written", "[unit]") {
    // Property: within one unit in the last place, 4e-16 relative at most.
    std::uint64_t state = 20261125;
    const auto next = [&state] { // splitmix64, uniform in [0, 1)
        std::uint64_t z = (state += 0x9E3779B97F4A7C15U);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1p-53;
    };
    int units = 0;
    for (const Dimension dimension : all_dimensions())
        for (const std::string_view unit : unit_names(dimension)) {
            if (unit == "tsp" || unit.substr(0, 8) == "teaspoon" || unit.substr(0, 4) == "drop") continue;
            ++units;
            for (int i = 0; i < 400; ++i) {
                const double x =
                    i == 0 ? 0.0 : (next() + 1e-3) * std::pow(10.0, std::floor(next() * 16.0) - 8.0);
                // Beyond possible.hpp nothing is read: tests/quantity/possible_test.cpp.
                if (x > possible(dimension).most || (i > 0 && x < possible(dimension).least)) continue;
                const std::string text = quantity_text(x, dimension, unit);
                CAPTURE(text, x);
                // degC and degF are counted from 273.15 K, so that is where their last place lies.
                const double from = dimension == D::temperature && unit != "K" ? std::max(x, 273.15) : x;
                REQUIRE(std::fabs(read_quantity(text, dimension).value - x) <= 4e-16 * from);
            }
        }
    CHECK(units > 90); // so that an empty vocabulary cannot pass
}

TEST_CASE("what was typed is what is written back", "[unit]") {
    for (const char* text : {"12.5 g", "0.1 g", "1.94 g/cm3", "68.8 g/100g", "0.3 mL", "45 um", "7 US cup",
                             "19.6 degC", "33 % w/w", "0.07 lb", "29.3 oz", "100000 g", "0.00035 g"}) {
        CAPTURE(text);
        const std::string_view all(text);
        const std::string_view unit = all.substr(all.find(' ') + 1);
        for (const Dimension d : all_dimensions()) {
            bool is_of = false;
            for (const std::string_view name : unit_names(d))
                is_of = is_of || name == unit;
            if (is_of) CHECK(quantity_text(read_quantity(text, d).value, d, unit) == text);
        }
    }
}

TEST_CASE("quantities as text, typed", "[unit]") {
    CHECK(quantity_text(grams(12.5), "g") == "12.5 g");
    CHECK(quantity_text(degrees_celsius(20), "degC") == "20 degC");
    CHECK(number_in_unit(0.3048, Dimension::length, "in") == Approx(12.0).epsilon(1e-14));
    CHECK(number_in_unit(0.3, Dimension::mass_fraction, "% w/w") == Approx(30.0).epsilon(1e-14));
    CHECK(number_in_unit(1.4, Dimension::pure_number, "") == Approx(1.4).epsilon(1e-14));
    CHECK_THROWS_AS(number_in_unit(1.0, Dimension::mass, "mL"), QuantityTextError);
    CHECK(quantity_text(grams_per_100_grams(68.8), "g/100g") == "68.8 g/100g");
    CHECK(quantity_text(BinderSufficiency::of(1.4), "") == "1.4");
    CHECK(quantity_text(grams(1), "\u00B5g") == "1000000 \u00B5g");
    CHECK_THROWS_AS(quantity_text(grams(1), "mL"), QuantityTextError);
    CHECK_THROWS_AS(quantity_text(grams(1), ""), QuantityTextError);
    CHECK_THROWS_AS(quantity_text(millilitres(1), "tsp"), QuantityTextError);
    CHECK_THROWS_AS(quantity_text(kilograms(1e308), "mg"), QuantityTextError);
    CHECK_THROWS_AS(quantity_text(std::nan(""), D::mass, "g"), DomainError);
}

TEST_CASE("a quantity prints itself in its usual unit, and reads back", "[unit]") {
    CHECK(quantity_text(grams(12.5)) == "12.5 g");
    CHECK(quantity_text(grams_per_cubic_centimetre(1.88)) == "1.88 g/cm3");
    CHECK(quantity_text(grams_per_100_grams(68.0)) == "68 g/100g");
    CHECK(quantity_text(MassFraction::of(0.04)) == "4 % w/w");
    CHECK(quantity_text(degrees_celsius(20.0)) == "20 degC");
    CHECK(quantity_text(BinderSufficiency::of(1.4)) == "1.4");
    const auto reads_back = [](const auto& quantity) {
        using Q = std::decay_t<decltype(quantity)>;
        return canonical(read<Q>(quantity_text(quantity))) == Approx(canonical(quantity)).epsilon(1e-15);
    };
    CHECK(reads_back(grams(0.1)));
    CHECK(reads_back(millilitres(1.0 / 3.0)));
    CHECK(reads_back(micrometres(45.0)));
    CHECK(reads_back(minutes(7.0)));
    CHECK(reads_back(PigmentVolumeConcentration::of(0.37)));
    CHECK(reads_back(RelativeHumidity::of(0.505)));
    CHECK(reads_back(MediumPerPigment::of(4.4)));
}

TEST_CASE("number_text is short and reads back", "[unit]") {
    CHECK(number_text(12.5) == "12.5");
    CHECK(number_text(0.0362) == "0.0362");
    CHECK(number_text(100000) == "100000");
    CHECK(number_text(0.1 + 0.2) == "0.30000000000000004");
    CHECK(number_text(-0.0) == "0");
    CHECK(number_text(1e22) == "1e+22");
    CHECK(number_text(-2.5e-9) == "-2.5e-09");
    for (const double x : {1.0 / 3.0, 2.2250738585072014e-308, 5e-324, 1.7976931348623157e308, 123456789.125}) {
        const double back = read_number(number_text(x));
        CHECK_FALSE(back < x);
        CHECK_FALSE(back > x);
    }
    CHECK_THROWS_AS(number_text(std::nan("")), DomainError);
    CHECK_THROWS_AS(number_text(std::numeric_limits<double>::infinity()), DomainError);
}

TEST_CASE("fixed_text rounds the decimal a person sees, half away from zero", "[unit]") {
    const auto [x, decimals, text] = GENERATE(table<double, int, std::string>({
        {12.5, 2, "12.50"},
        {12.5, 0, "13"},
        {-12.5, 0, "-13"},
        {2.675, 2, "2.68"},
        {1.005, 2, "1.01"},
        {0.125, 2, "0.13"},
        {0.124999, 2, "0.12"},
        {9.995, 2, "10.00"},
        {99.96, 1, "100.0"},
        {-0.004, 2, "0.00"},
        {-0.0, 1, "0.0"},
        {0.0, 0, "0"},
        {1e-9, 3, "0.000"},
        {1e21, 1, "1000000000000000000000.0"},
        {-0.005, 2, "-0.01"},
        {0.05, 1, "0.1"},
        {0.4, 0, "0"},
        {0.5, 0, "1"},
    }));
    CAPTURE(x, decimals);
    CHECK(fixed_text(x, decimals) == text);
}

TEST_CASE("fixed_text refuses what has no digits", "[errors]") {
    CHECK_THROWS_AS(fixed_text(std::nan(""), 1), DomainError);
    CHECK_THROWS_AS(fixed_text(-std::numeric_limits<double>::infinity(), 1), DomainError);
    CHECK_THROWS_AS(fixed_text(1.0, -1), DomainError);
    CHECK_THROWS_AS(fixed_text(1.0, 31), DomainError);
}

TEST_CASE("messages quote what was typed, wherever in the line it stands", "[unit]") {
    const auto told = [](const std::string& text, Dimension dimension = Dimension::mass) {
        try {
            read_quantity(text, dimension);
        } catch (const QuantityTextError& error) {
            return error.id + ": " + error.what();
        }
        return std::string("read");
    };
    CHECK(told("  1e999 g") == "number-overflow: the number is too large, got '1e999'");
    CHECK(told("  +1e999 g") == "number-overflow: the number is too large, got '1e999'");
    CHECK(told("  1e-999 g") == "number-underflow: the number is too small to tell from zero, got '1e-999'");
    CHECK(told("  -1e-999 g").rfind("number-underflow", 0) == 0);
    CHECK(told("   0x1F g") == "number-hex: a number must be decimal, got '0x1F g'");
    CHECK(told("   0X1F g") == "number-hex: a number must be decimal, got '0X1F g'");
    CHECK(told("   007 g") == "number-octal: a number must not begin with a needless zero, got '007'");
    CHECK(told("   1,5 g") == "number-comma: a decimal has a point, not a comma, got '1,5'");
    CHECK(told("   NaN g") == "number-not-finite: a number must be finite, got 'NaN g'");
    CHECK(told("   -inf g") == "number-not-finite: a number must be finite, got '-inf g'");
    CHECK(told("   Zinc g") == "number-missing: a number must come first, got 'Zinc g'");
    CHECK(told("0e999 g") == "read"); // nothing, however written
    CHECK(told("0.0000000000e-999 g") == "read");
    CHECK(told("000.5e3 g").rfind("number-octal", 0) == 0);
    // Digits, not their number, make it large: a point and an exponent pull either way.
    CHECK(told(std::string(400, '1') + "e-400 g") == "read");
    CHECK(told("0." + std::string(400, '0') + "1e400 g") == "read");
    CHECK(told("0." + std::string(400, '0') + "1e+800 g").rfind("number-overflow", 0) == 0);
    CHECK(told("0." + std::string(400, '0') + "1 g").rfind("number-underflow", 0) == 0);
    CHECK(told("1e99999999999999999999 g").rfind("number-overflow", 0) == 0);
    CHECK(told("1e-99999999999999999999 g").rfind("number-underflow", 0) == 0);
    CHECK(told("10e308 g").rfind("number-overflow", 0) == 0);
}

TEST_CASE("a fault names its bytes, counted from the start of the text", "[errors]") {
    const auto place = [](const std::string& text, Dimension dimension = Dimension::mass) {
        try {
            read_quantity(text, dimension);
        } catch (const QuantityTextError& error) {
            return error.id + " " + std::to_string(error.offset) + "+" + std::to_string(error.length);
        }
        return std::string("read");
    };
    CHECK(place("  1e999 g") == "number-overflow 2+5");
    CHECK(place("  1e-999 g") == "number-underflow 2+6");
    CHECK(place("  007 g") == "number-octal 2+3");
    CHECK(place("  0x7 g") == "number-hex 2+5");
    CHECK(place("  1,5 g") == "number-comma 2+3");
    CHECK(place("  1e100 g ") == "out-of-range 2+7");
    CHECK(place("  1e-12 % w/w ", Dimension::mass_fraction) == "number-underflow 2+11");
    CHECK(place("  1 +- 1e9 kg ") == "spread-too-wide 2+11");
    CHECK(place("  1 +- -2 g ") == "spread-negative 4+5");
    CHECK(place("  1 x/ 0.5 g ") == "spread-factor 4+6");
    CHECK(place("  -300 degC ", Dimension::temperature) == "number-range 2+9");
    CHECK(place("  1 +- 0 g") == "read"); // an uncertainty of nothing is none below nothing
    CHECK(place("  0.5 x/ 1.2 g") == "read");
    CHECK(place("  0.0005 x/ 1.2 g") == "read");
    try {
        read_number("  1.5 kg");
        FAIL("read");
    } catch (const QuantityTextError& error) {
        CHECK(error.id == "number-trailing");
        CHECK(error.offset == 6);
        CHECK(error.length == 2);
    }
    CHECK(read_number(" -1.5e+3 ") == Approx(-1500));
    CHECK(read_number("1e5") == Approx(1e5)); // an exponent of one digit
    CHECK(read_number("2E-07") == Approx(2e-7));
    CHECK(place("1e g").rfind("unit-", 0) == 0); // no exponent: a letter
}

TEST_CASE("numbers turn to powers of ten where a person stops counting zeros", "[unit]") {
    CHECK(number_text(1e-4) == "0.0001");
    CHECK(number_text(9.9e-5) == "9.9e-05");
    CHECK(number_text(1.1e-4) == "0.00011");
    CHECK(number_text(1e15) == "1e+15");
    CHECK(number_text(999999999999999.0) == "999999999999999");
    CHECK(number_text(1.2e15) == "1.2e+15");
    CHECK(fixed_text(1.0, 30) == "1." + std::string(30, '0'));
    for (const double side : {1.0, -1.0})
        try {
            number_text(side * std::numeric_limits<double>::infinity());
            FAIL("written");
        } catch (const DomainError& error) {
            CHECK(error.value() == (side > 0 ? "inf" : "-inf"));
        }
}

TEST_CASE("long units and odd blanks", "[unit]") {
    const auto told = [](const std::string& text) {
        try {
            read_quantity(text, Dimension::mass);
        } catch (const QuantityTextError& error) {
            return std::string(error.what());
        }
        return std::string("read");
    };
    // A quotation ends after 60 bytes.
    CHECK(told("1 " + std::string(57, 'q')).find(std::string(57, 'q') + "'") != std::string::npos);
    CHECK(told(std::string(61, 'q')).find(std::string(60, 'q') + "...'") != std::string::npos);
    CHECK(told(std::string(61, 'q')).find(std::string(61, 'q')) == std::string::npos);
    CHECK(told(std::string(60, 'q')).find("...") == std::string::npos);
    CHECK(read_quantity("5 % w/w", Dimension::mass_fraction).value == Approx(0.05));
    CHECK(read_quantity("5 %w/w", Dimension::mass_fraction).value == Approx(0.05));
    CHECK(read_quantity("5 %\u2009w/w", Dimension::mass_fraction).value == Approx(0.05)); // thin space
    CHECK(read_quantity("1.5 g / cm3", Dimension::density).value == Approx(1500));
    CHECK(read_quantity("1.5 g/cm\u00B3", Dimension::density).value == Approx(1500));
    CHECK(read_quantity("12 \u03BCm", Dimension::length).value == Approx(12e-6));
    CHECK(read_quantity("3 mPa\u22C5s", Dimension::dynamic_viscosity).value == Approx(3e-3));
}
