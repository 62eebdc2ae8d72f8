// Where a text is at fault, what its hint keeps of it, and that no number stands nearer than the one that is written.
#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"

using namespace lakebound;

TEST_CASE("a unit that is none is told where it stands, with the one that was meant", "[errors]") {
    const auto refused = [](Dimension dimension, const std::string& unit) {
        try {
            number_in_unit(1.0, dimension, unit);
        } catch (const QuantityTextError& error) {
            return error.id + " " + std::to_string(error.offset) + "+" + std::to_string(error.length) + ": " + error.hint;
        }
        return std::string("taken");
    };
    CHECK(refused(Dimension::mass, "KG").rfind("unit-unknown 0+2: write 'kg'", 0) == 0);
    CHECK(refused(Dimension::volume, "ML").rfind("unit-unknown 0+2: write 'mL'", 0) == 0);
    CHECK(refused(Dimension::mass, "pinches").rfind("unit-unknown 0+7: write it in g", 0) == 0);
    try {
        (void)read<Mass>("  2 +- 0.1 g ");
        FAIL("read");
    } catch (const QuantityTextError& error) {
        CHECK(error.id == "spread-unwanted");
        CHECK(error.offset == 0);
        CHECK(error.length == 13);
    }
}

TEST_CASE("only a comma between digits becomes a point in the hint", "[errors]") {
    const auto hint = [](const std::string& text) {
        try {
            read_quantity(text, Dimension::mass);
        } catch (const QuantityTextError& error) {
            return error.hint;
        }
        return std::string();
    };
    CHECK(hint("1,5 +- 0,5 g").find("write '1.5 +- 0.5 g'") == 0);
    CHECK(hint("1,5 +- 0,5").find("write '1.5 +- 0.5'") == 0); // to the very end
    CHECK(hint("1,5 g 3, 4").find("write '1.5 g 3, 4'") == 0);
    CHECK(hint("1,5 g ,4").find("write '1.5 g ,4'") == 0);
}

TEST_CASE("no neighbouring double reads back nearer than the number that is written", "[identity]") {
    struct Unit {
        Dimension dimension;
        const char* name;
    };
    unsigned long long state = 88172645463325252ULL; // Marsaglia's xorshift
    const auto random = [&state] {
        state ^= state << 13, state ^= state >> 7, state ^= state << 17;
        return static_cast<double>(state >> 11) * 0x1.0p-53;
    };
    for (const Unit& unit : {Unit{Dimension::temperature, "degF"}, Unit{Dimension::temperature, "degC"}, Unit{Dimension::mass, "oz"},
                             Unit{Dimension::length, "in"}, Unit{Dimension::density, "g/cm3"}, Unit{Dimension::volume, "US fl oz"},
                             Unit{Dimension::mass_fraction, "% w/w"}})
        for (int i = 0; i < 300; ++i) {
            const double x = unit.dimension == Dimension::temperature ? 250.0 + 130.0 * random()
                             : unit.dimension == Dimension::density   ? 500.0 + 5000.0 * random()
                                                                      : random() * (i % 3 ? 1e-3 : 0.9) + 1e-5;
            const double y = number_in_unit(x, unit.dimension, unit.name);
            const auto off = [&](double number) {
                return std::abs(read_quantity(number_text(number) + " " + unit.name, unit.dimension).value - x);
            };
            double below = y, above = y;
            for (int step = 0; step < 2; ++step) {
                INFO(unit.name << " " << number_text(x));
                below = std::nextafter(below, -1e300), above = std::nextafter(above, 1e300);
                CHECK(off(y) <= off(below));
                CHECK(off(y) <= off(above));
            }
        }
}

TEST_CASE("only words of numbers that are none, with their signs, are told to be so", "[errors]") {
    const auto id = [](const std::string& text) {
        try {
            read_quantity(text, Dimension::mass);
        } catch (const QuantityTextError& error) {
            return error.id;
        }
        return std::string("read");
    };
    for (const char* text : {"nan g", "NAN g", "+NaN g", "-inf", ".nan", "-.inf g", "+Infinity g", "nan(1) g", "INF-5"})
        CHECK(id(text) == "number-not-finite");
    for (const char* text : {"nanZ g", "nanz g", "(nan) g", "*inf g", "n an g", "nanometre", ", g", "x5 g", "\u2212nan"})
        CHECK(id(text) == "number-missing");
    for (const char* text : {"1e+5 g", "1e-3 g", "1E2 g"})
        CHECK(id(text) == "read");
    CHECK(id("1e g") == "unit-unknown"); // no power, so a unit "e g"
    CHECK(id("1e+ g") != "read");
    CHECK(id("1e5") == "unit-missing");
}

TEST_CASE("the hint of a comma keeps what stands around it in a line of sixty", "[errors]") {
    const auto hint = [](std::size_t length) {
        std::string text = "1,5 g ";
        text.resize(length, 'x');
        try {
            read_quantity(text, Dimension::mass);
        } catch (const QuantityTextError& error) {
            return error.hint;
        }
        return std::string();
    };
    CHECK(hint(60).find("1.5 g " + std::string(54, 'x')) != std::string::npos);
    CHECK(hint(61).find("xxx") == std::string::npos);
}

TEST_CASE("oil by volume for a mass of pigment is told apart from other shares", "[errors]") {
    const auto hint = [](const std::string& text) {
        try {
            read_quantity(text, Dimension::oil_absorption);
        } catch (const QuantityTextError& error) {
            return error.hint;
        }
        return std::string();
    };
    CHECK(hint("70 mL/100g").rfind("multiply by the test oil's density", 0) == 0);
    CHECK(hint("70 s/100g").rfind("multiply by", 0) != 0);
    CHECK(hint("70 mL/50g").rfind("multiply by", 0) != 0);
    CHECK(hint("70 mL").rfind("multiply by", 0) != 0);
}

TEST_CASE("superscripts are read before, between and after other letters", "[unit]") {
    CHECK(read<SpecificVolume>("0.7 cm\u00B3/g") == read<SpecificVolume>("0.7 cm3/g"));
    CHECK(read<MassDensity>("1.9 g/cm\u00B3") == read<MassDensity>("1.9 g/cm3"));
    CHECK(in_millilitres(read<Volume>("2 cm\u00B3")) == Approx(2.0));
}

TEST_CASE("digits of a rounded text, at the ends of their rules", "[unit]") {
    CHECK(mass_text(grams(0.001)) == "0.0010 g");
    CHECK(mass_text(grams(0.0)) == "0 g");
    CHECK(significant_text(0.001, 2) == "0.0010");
    CHECK(significant_text(0.0, 2) == "0");
    CHECK(significant_text(999.6, 3) == "1000");
    CHECK(significant_text(-0.0996, 2) == "-0.10");
    CHECK(fixed_text(0.25, 1) == "0.3");
    CHECK(fixed_text(2.5, 0) == "3");
    CHECK(fixed_text(2.4, 1) == "2.4");
    CHECK(fixed_text(2.0, 0) == "2");
    CHECK(fixed_text(9.99, 1) == "10.0");
    CHECK(ratio_value_text(1.234, 0.004) == "1.23 \u00B1 0.01");
    CHECK(ratio_value_text(1.234, 0.012) == "1.23 \u00B1 0.01");
    CHECK(ratio_value_text(1.234, 0.0) == "1.23");
    CHECK(value_text(3.14159, 0.0966) == "3.14 \u00B1 0.10");
    CHECK(value_text(3.14159, 0.0254) == "3.142 \u00B1 0.025");
    CHECK(value_text(3.14159, 0.031) == "3.14 \u00B1 0.03");
}
