#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"

using namespace lakebound;

TEST_CASE("A mass is written to the step of the scale", "[unit]") {
    CHECK(mass_text(grams(11.63), grams(0.1)) == "11.6 g");
    CHECK(mass_text(grams(11.63), grams(0.01)) == "11.63 g");
    CHECK(mass_text(grams(11.63), grams(1.0)) == "12 g");
    CHECK(mass_text(grams(11.6), grams(0.2)) == "11.6 g");
    CHECK(mass_text(grams(125.0), grams(5.0)) == "125 g");
    CHECK(mass_text(grams(0.25), grams(0.05)) == "0.25 g");
    CHECK(mass_text(grams(0.0), grams(0.1)) == "0.0 g");
    CHECK(volume_text(millilitres(5.5), millilitres(0.5)) == "5.5 mL");
    CHECK_THROWS_AS(mass_text(grams(1.0), grams(0.0)), DomainError);
}

TEST_CASE("A step that no decimal shows exactly stops at six decimals", "[unit]") {
    CHECK(decimals_of_step(0.1) == 1);
    CHECK(decimals_of_step(0.25) == 2);
    CHECK(decimals_of_step(1.0) == 0);
    CHECK(decimals_of_step(10.0) == 0);
    CHECK(decimals_of_step(1.0 / 3.0) == 6);
}

TEST_CASE("Without an instrument the digits follow the size", "[unit]") {
    CHECK(mass_text(grams(0.01177)) == "0.012 g");
    CHECK(mass_text(grams(0.996)) == "1.0 g");
    CHECK(mass_text(grams(9.96)) == "10.0 g");
    CHECK(mass_text(grams(11.63)) == "11.6 g");
    CHECK(mass_text(grams(99.96)) == "100 g");
    CHECK(mass_text(grams(1250.4)) == "1250 g");
    CHECK(plain_text(19.0) == "19");
    CHECK(plain_text(2.5) == "2.5");
}

TEST_CASE("Significant digits survive the carry from 9.99 to 10", "[unit]") {
    CHECK(significant_text(9.996, 3) == "10.0");
    CHECK(significant_text(0.09996, 3) == "0.100");
    CHECK(significant_text(1234567.0, 3) == "1230000");
    CHECK(significant_text(-0.5678, 2) == "-0.57");
    CHECK(significant_text(0.0, 3) == "0");
}

TEST_CASE("Percent has a decimal only where it tells something", "[unit]") {
    CHECK(percent_text(0.4183) == "42 %");
    CHECK(percent_text(0.053) == "5.3 %");
    CHECK(percent_text(0.0996) == "10 %");
    CHECK(percent_text(0.0) == "0 %");
    CHECK(percent_text(0.0001) == "below 0.1 %");
}

TEST_CASE("The uncertainty sets the digits of the value", "[unit]") {
    CHECK(value_text(1.3977, 0.187) == "1.40 ± 0.19");
    CHECK(value_text(41.83, 4.4) == "42 ± 4");
    CHECK(value_text(0.8134, 0.0678) == "0.81 ± 0.07");
    CHECK(value_text(1234.0, 260.0) == "1230 ± 260");
    CHECK(value_text(65.0, 0.997) == "65.0 ± 1.0");
    CHECK(value_text(1.3977, 0.0) == "1.40");
    CHECK(ratio_value_text(1.3456, 0.3612) == "1.35 ± 0.36");
    CHECK(ratio_value_text(1.3456, 0.0) == "1.35");
    CHECK(percent_value_text(0.3394, 0.0277) == "33.9 ± 2.8 %");
}
