#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_grinding.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

std::string stays_fault(const std::string& text) {
    return summary(faults_of([&] { (void)stays_option("--stays", text); }));
}
std::string gauge_fault(const std::string& text) {
    return summary(faults_of([&] { (void)gauge_option("--mull", text); }));
}
std::string say_fault(const GrindTexts& texts) {
    return summary(faults_of([&] { (void)grind_say(texts); }));
}

} // namespace

TEST_CASE("What stays is a mass, after rounds of one length, separated as is said", "[unit]") {
    const auto plain = stays_option("--stays", "6.3 g after 2 rounds of 5 min");
    CHECK(in_grams(plain.stays) == Approx(6.3));
    CHECK(plain.rounds == 2);
    CHECK(in_minutes(plain.cycle) == Approx(5.0));
    CHECK_FALSE(plain.by);
    CHECK(stays_option("--stays", "6.3 g after 1 round of 90 s").rounds == 1);
    CHECK(stays_option("--stays", "6.3 g after 12 rounds of 5 min").rounds == 12);
    CHECK(stays_option("--stays", "6.3 g after 2 rounds of 5 min, wet").by == ScreeningAdvice::wet_screening);
    CHECK(stays_option("--stays", "6.3 g after 2 rounds of 5 min,dry").by == ScreeningAdvice::dry_sieving);
    CHECK(stays_option("--stays", "6.3 g after 2 rounds of 5 min, levigated").by == ScreeningAdvice::levigation);
}

TEST_CASE("What stays is refused when one of its three parts is not there", "[errors]") {
    for (const char* none : {"", "6.3 g", "6.3 g after 2 rounds", "6.3 g of 5 min after 2 rounds", "6.3 g after of 5 min",
                             "6.3 g after 0 rounds of 5 min", "6.3 g after 00 rounds of 5 min", "6.3 g after 100 rounds of 5 min",
                             "6.3 g after two rounds of 5 min", "6.3 g after 2 of 5 min", "6.3 g after 2 goes of 5 min",
                             "6.3 g after 2 rounds of 5 min, sifted", "6.3 g after 2 rounds of 5 min,", "after 2 rounds of 5 min"}) {
        CAPTURE(none);
        CHECK(stays_fault(none) == "stays-form");
    }
    CHECK(stays_fault("6.3 min after 2 rounds of 5 min") == "unit-dimension");
    CHECK(stays_fault("0 g after 2 rounds of 5 min") == "out-of-range");
    CHECK(stays_fault("6.3 g after 2 rounds of 5 g") == "unit-dimension");
    const auto faults = faults_of([] { (void)stays_option("--left", "6.3 g"); });
    REQUIRE(faults.size() == 1);
    CHECK(faults.front().hint == "write it like --left \"6.3 g after 2 rounds of 5 min\"");
}

TEST_CASE("A gauge is read in micrometres or in Hegman units, at equal intervals", "[unit][reference]") {
    // 12.7 um (8 - H): H 4 is 50.8 um (mckay-grind-gage).
    const auto readings = gauge_option("--mull", "60 um, 4 Hegman, 27 um every 10 min");
    REQUIRE(readings.size() == 3);
    CHECK(in_micrometres(readings[0].fineness) == Approx(60.0));
    CHECK(in_micrometres(readings[1].fineness) == Approx(50.8));
    CHECK(in_minutes(readings[0].time) == Approx(0.0).margin(1e-12));
    CHECK(in_minutes(readings[2].time) == Approx(20.0));
    CHECK(gauge_fault("60 um, 38 um, 27 um") == "series-form");
    CHECK(gauge_fault("60, 38 um, 27 um every 10 min") == "unit-missing");
    CHECK(gauge_fault("60 um, four Hegman, 27 um every 10 min") == "number-missing");
    CHECK(gauge_fault("60 um, Hegman, 27 um every 10 min") == "number-missing");
}

TEST_CASE("What a maker says of the work takes the place of one habit each", "[unit]") {
    const auto say = grind_say({"5 min", "6 min", "10 h", "1 %", "0.7", "1.9 g/cm3", "400 um", "6.3 g after 2 rounds of 5 min"});
    CHECK(in_minutes(say.cycle.value()) == Approx(5.0));
    CHECK(in_minutes(say.handling.value()) == Approx(6.0));
    CHECK(in_hours(say.drying.value()) == Approx(10.0));
    CHECK(say.loss->value() == Approx(0.01));
    CHECK(say.emptier_is_faster->value() == Approx(0.7));
    CHECK(in_grams_per_cubic_centimetre(say.density.value()) == Approx(1.9));
    CHECK(in_micrometres(say.largest_grain.value()) == Approx(400.0));
    CHECK(say.weighed->rounds == 2);
    const auto silent = grind_say({});
    CHECK_FALSE((silent.cycle || silent.handling || silent.drying || silent.loss || silent.emptier_is_faster || silent.density ||
                 silent.largest_grain || silent.weighed));
    CHECK(grind_say({.handling = "0 min", .drying = "0 h"}).handling.has_value()); // none at all
}

TEST_CASE("A habit out of its range is told with its option", "[errors]") {
    CHECK(say_fault({.handling = "-1 min"}) == "out-of-range");
    CHECK(say_fault({.drying = "-1 h"}) == "out-of-range");
    CHECK(say_fault({.cycle = "0 min"}) == "out-of-range");
    CHECK(say_fault({.loss = "51 %"}) == "out-of-range");
    CHECK(say_fault({.loss = "50 %"}).empty());
    CHECK(say_fault({.emptier = "2.1"}) == "out-of-range");
    CHECK(grind_say({.emptier = "2"}).emptier_is_faster->value() == Approx(2.0)); // as a weighing may tell
    CHECK(say_fault({.emptier = "0"}).empty());
    CHECK(say_fault({.emptier = "-0.1"}) == "out-of-range");
    CHECK(say_fault({.emptier = "much"}) == "number-missing");
    CHECK(say_fault({.largest = "400"}) == "unit-missing");
    CHECK(say_fault({.density = "0 g/cm3"}) == "out-of-range");
    const auto faults = faults_of([] { (void)grind_say({.drying = "-1 h"}); });
    REQUIRE(faults.size() == 1);
    CHECK(faults.front().message == "--drying \"-1 h\": must be 0 or more");
}
