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

TEST_CASE("Quantities have their unit and their digits", "[unit]") {
    CHECK(volume_text(millilitres(4.51)) == "4.5 mL");
    CHECK(volume_text(millilitres(0.0)) == "0 mL");
    CHECK(density_text(grams_per_cubic_centimetre(1.8804)) == "1.88 g/cm3");
    CHECK(specific_volume_text(millilitres_per_gram(0.7404)) == "0.740 mL/g");
    CHECK(oil_absorption_text(grams_per_100_grams(68.78)) == "68.8 g/100 g");
    CHECK(sufficiency_text(BinderSufficiency::of(1.404)) == "1.40");
    CHECK(plain_text(0.0) == "0");
    CHECK(plain_text(0.05) == "0.050");
    CHECK(plain_text(10.04) == "10");
    CHECK(plain_text(100.0) == "100");
    CHECK(plain_text(1.05) == "1.1"); // half away from zero
    CHECK(mass_text(grams(-0.5)) == "-0.50 g");
    CHECK(mass_text(grams(-2.5)) == "-2.5 g");
    CHECK(mass_text(grams(99.94)) == "99.9 g");
    CHECK(mass_text(grams(0.9949)) == "0.99 g");
    CHECK(mass_text(grams(1e-4)) == "0.00010 g");
}

TEST_CASE("Digits at the turn of a place", "[unit]") {
    CHECK(significant_text(99.95, 3) == "100"); // rounds up a place
    CHECK(significant_text(99.94, 3) == "99.9");
    CHECK(significant_text(1.0, 1) == "1");
    CHECK(significant_text(10.0, 3) == "10.0");
    CHECK(significant_text(0.5, 1) == "0.5");
    CHECK(significant_text(95.0, 1) == "100");
    CHECK(significant_text(1e-4, 2) == "0.00010");
    CHECK(significant_text(-1234.0, 2) == "-1200");
    CHECK(decimals_of_step(0.5) == 1);
    CHECK(decimals_of_step(5.0) == 0);
    CHECK(decimals_of_step(0.001) == 3);
    CHECK(decimals_of_step(0.00025) == 5);
    CHECK(decimals_of_step(1e-6) == 6);
    CHECK(decimals_of_step(1e-4) == 4);
    CHECK(decimals_of_step(0.3) == 1);
    CHECK(decimals_of_step(2.5) == 1);
    CHECK(decimals_of_step(0.1234567) == 6);
    CHECK_THROWS_AS(decimals_of_step(0.0), DomainError);
    CHECK_NOTHROW(decimals_of_step(1e-5));
    CHECK(percent_text(0.0005) == "0.1 %");
    CHECK(percent_text(0.00049) == "below 0.1 %");
    CHECK(percent_text(0.0994) == "9.9 %");
    CHECK(percent_text(1.0) == "100 %");
    CHECK(percent_text(1.004) == "100 %");
    CHECK(percent_text(0.9968) == "99.7 %"); // nearly sure is not sure
    CHECK(percent_text(0.995) == "99.5 %");
    CHECK(percent_text(0.9949) == "99 %");
    CHECK(percent_text(0.99949) == "99.9 %");
    CHECK(percent_text(0.9996) == "above 99.9 %");
    CHECK(percent_text(0.9999999) == "above 99.9 %");
    CHECK(percent_text(-0.02) == "-2.0 %");
}

TEST_CASE("The second digit of an uncertainty is kept from 1 to 2.9", "[unit]") {
    // jcgm-100, 7.2.6: two digits at most; ours where the first is 1 or 2.
    CHECK(value_text(10.0, 0.29) == "10.00 ± 0.29");
    CHECK(value_text(10.0, 0.294) == "10.00 ± 0.29");
    CHECK(value_text(10.0, 0.296) == "10.0 ± 0.3");
    CHECK(value_text(10.0, 0.1) == "10.00 ± 0.10");
    CHECK(value_text(10.0, 0.0995) == "10.00 ± 0.10");
    CHECK(value_text(10.0, 0.99) == "10.0 ± 1.0");
    CHECK(value_text(10.0, 9.96) == "10 ± 10");
    CHECK(value_text(1.0, 4e-4) == "1.0000 ± 0.0004");
    CHECK(value_and_uncertainty(5.0, 0.0).uncertainty.empty());
    CHECK(ratio_value_text(1.3, 4e-4) == "1.30 ± 0.01");
    CHECK(ratio_value_text(1.3, 0.005) == "1.30 ± 0.01");
    CHECK(ratio_value_text(1.3, 0.0149) == "1.30 ± 0.01");
    CHECK(percent_value_text(0.5, 0.0) == "50.0 %");
}

TEST_CASE("Small figures, and figures just about a change of form", "[unit]") {
    CHECK(significant_text(5e-4, 1) == "0.0005");
    CHECK(mass_text(grams(5e-4)) == "0.00050 g");
    CHECK(mass_text(grams(1.2)) == "1.2 g");
    CHECK(mass_text(grams(0.99)) == "0.99 g");
    CHECK(decimals_of_step(0.06) == 2); // .6 of a tenth is not a whole number of them
    CHECK(decimals_of_step(0.55) == 2);
    CHECK(decimals_of_step(0.5000001) == 1); // a tenth of a millionth off
    CHECK(decimals_of_step(0.500002) == 6);
    CHECK(value_text(100.0, 20.0) == "100 ± 20");
    CHECK(value_text(100.0, 25.0) == "100 ± 25");
    CHECK(value_text(100.0, 31.0) == "100 ± 30");
    CHECK(ratio_value_text(1.3, 0.0051) == "1.30 ± 0.01");
    CHECK(ratio_value_text(1.3, 0.0055) == "1.30 ± 0.01");
}
