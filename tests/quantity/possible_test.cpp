#include "lakebound/quantity/possible.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "lakebound/quantity/vocabulary.hpp"

using namespace lakebound;

namespace {

std::string fault_of(const std::string& text, Dimension dimension) {
    try {
        read_quantity(text, dimension);
    } catch (const QuantityTextError& error) {
        return error.id + ": " + error.what();
    }
    return "";
}

} // namespace

TEST_CASE("a quantity that can stand on no bench is refused where it is read", "[errors]") {
    using D = Dimension;
    CHECK(fault_of("1e-308 g/cm3", D::density) ==
          "out-of-range: density must be 0.001 to 25 g/cm3, got '1e-308 g/cm3'");
    CHECK(fault_of("1e30 min", D::time) == "out-of-range: time must be 1 ms to 100 years, got '1e30 min'");
    CHECK(fault_of("1e100 g", D::mass) == "out-of-range: mass must be 1 ug to 10 t, got '1e100 g'");
    CHECK(fault_of("-1e100 g", D::mass) == "out-of-range: mass must be 1 ug to 10 t, got '-1e100 g'");
    CHECK(fault_of("1e-20 g", D::mass) == "out-of-range: mass must be 1 ug to 10 t, got '1e-20 g'");
    CHECK(fault_of("1e80", D::pure_number).rfind("out-of-range", 0) == 0);
    CHECK(fault_of("65 x/ 1e80 g/100g", D::oil_absorption).rfind("spread-too-wide", 0) == 0);
    CHECK(fault_of("65 x/ 10.1 g/100g", D::oil_absorption).rfind("spread-too-wide", 0) == 0);
    CHECK(fault_of("65 x/ 10 g/100g", D::oil_absorption).empty());
    CHECK(fault_of("12 +- 1e80 g", D::mass).rfind("spread-too-wide", 0) == 0);
}

TEST_CASE("what is too small to tell is not said to lie outside a range that begins at 0", "[errors]") {
    using D = Dimension;
    CHECK(fault_of("1e-15 % w/w", D::mass_fraction) ==
          "number-underflow: mass fraction is too small to tell from zero, got '1e-15 % w/w'");
    CHECK(fault_of("1e-11 %", D::share) == "number-underflow: share is too small to tell from zero, got '1e-11 %'");
    CHECK(fault_of("1e-10 %", D::share).empty());
    CHECK(fault_of("0 %", D::share).empty());
    CHECK(fault_of("1e-20 %", D::relative_humidity).rfind("number-underflow", 0) == 0);
}

TEST_CASE("zero, a sign and the usual amounts are left to the key", "[unit]") {
    using D = Dimension;
    for (const auto& [text, dimension] :
         {std::pair{"0 g", D::mass}, std::pair{"-3 g", D::mass}, std::pair{"0.000001 g", D::mass},
          std::pair{"1000 kg", D::mass}, std::pair{"0.001 g/cm3", D::density}, std::pair{"25 g/cm3", D::density},
          std::pair{"1 nm", D::length}, std::pair{"36500 d", D::time}, std::pair{"0 s", D::time},
          std::pair{"120 % w/w", D::mass_fraction}, std::pair{"0 K", D::temperature},
          std::pair{"450 g/100g", D::oil_absorption}}) {
        INFO(text);
        CHECK(fault_of(text, dimension).empty());
    }
}

TEST_CASE("every dimension has its bounds and says them", "[unit]") {
    for (const Dimension dimension : all_dimensions()) {
        INFO(dimension_name(dimension));
        const Possible& bounds = possible(dimension);
        CHECK(bounds.most > bounds.least);
        CHECK(bounds.least >= 0.0);
        CHECK(std::isfinite(bounds.most));
        CHECK_FALSE(bounds.words.empty());
        CHECK_FALSE(bounds.hint.empty());
    }
}

TEST_CASE("the bounds of what can stand on a bench are those of their words", "[unit]") {
    using D = Dimension;
    struct Row {
        D dimension;
        double least, most; ///< in SI base units, turned by hand from the words
    };
    for (const Row& row : {Row{D::mass, 1e-9, 1e4}, Row{D::volume, 1e-12, 10}, Row{D::length, 1e-9, 1e3},
                           Row{D::area, 1e-18, 1e6}, Row{D::time, 1e-3, 100 * 365.25 * 86400}, Row{D::velocity, 1e-12, 1e3},
                           Row{D::density, 1, 25e3}, Row{D::dynamic_viscosity, 1e-6, 1e6}, Row{D::specific_volume, 1e-9, 1},
                           Row{D::temperature, 0, 3273.15}, Row{D::temperature_difference, 0, 3000},
                           Row{D::solution_strength, 1e-12, 10}, Row{D::medium_per_pigment, 1e-6, 1e6},
                           Row{D::pure_number, 1e-9, 1e9}}) {
        INFO(dimension_name(row.dimension));
        CHECK(possible(row.dimension).least == Approx(row.least).epsilon(1e-12).margin(1e-300));
        CHECK(possible(row.dimension).most == Approx(row.most).epsilon(1e-12));
    }
    // A ratio is held by its own range; here only what cannot be told from 0, and what is no ratio by any reading.
    for (const D dimension : {D::mass_fraction, D::volume_fraction, D::share, D::oil_absorption, D::pigment_volume_concentration, D::relative_humidity}) {
        INFO(dimension_name(dimension));
        CHECK(possible(dimension).least == Approx(1e-12).epsilon(1e-12));
        CHECK(possible(dimension).most == Approx(1e6).epsilon(1e-12));
    }
    // At a bound, and a hair within the rounding of a unit, it is read; beyond, it is not.
    CHECK(fault_of("10000 kg", D::mass).empty());
    CHECK(fault_of("10000.001 kg", D::mass).rfind("out-of-range", 0) == 0);
    CHECK(fault_of("1 ug", D::mass).empty());
    CHECK(fault_of("0.999999 ug", D::mass).rfind("out-of-range", 0) == 0);
    CHECK(fault_of("1 +- 10000 kg", D::mass).empty());
    CHECK(fault_of("1 +- 10001 kg", D::mass).rfind("spread-too-wide", 0) == 0);
    CHECK(fault_of("  1e100 g  ", D::mass) == "out-of-range: mass must be 1 ug to 10 t, got '1e100 g'");
    CHECK(fault_of("  65 x/ 11 g/100g", D::oil_absorption) ==
          "spread-too-wide: a spread factor must be 10 at most, got '65 x/ 11 g/100g'");
    CHECK(fault_of("  1e-11 %", D::share) == "number-underflow: share is too small to tell from zero, got '1e-11 %'");
}
