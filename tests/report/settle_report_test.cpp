#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/settle_report.hpp"

using namespace lakebound;
using Catch::Contains;

namespace {

SettleQuestion question() {
    SettleQuestion asked;
    asked.cut = micrometres(45.0);
    asked.depth = millimetres(100.0);
    asked.density = grams_per_cubic_centimetre(1.88);
    asked.density_origin = "as you say";
    asked.temperature_origin = "as you say";
    return asked;
}

void check_page(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }) <= 80);
    }
}

} // namespace

TEST_CASE("The clock begins with filling and counts every wait", "[unit]") {
    const auto subject = settle_subject(question());
    REQUIRE(subject.plan.steps.size() == 4);
    CHECK(subject.plan.steps[0].stirred == minutes(3));
    const Time wait = subject.plan.how.wait;
    for (const auto& step : subject.plan.steps)
        CHECK(in_seconds(step.pour - step.stirred) == Approx(in_seconds(wait)).epsilon(1e-9));
    const auto text = settle_text(subject);
    CHECK_THAT(text, Contains("0:03:00") && Contains("CLOCK, FROM THE FIRST FILL"));
    check_page(text);
}

TEST_CASE("Many pour-offs fit the page", "[unit]") {
    auto asked = question();
    asked.pours = 40;
    const auto text = settle_text(settle_subject(asked));
    CHECK_THAT(text, Contains("...") && Contains("40 pours"));
    check_page(text);
}

TEST_CASE("More pour-offs never carry over less, coarser grains never more", "[identity]") {
    const auto subject = settle_subject(question());
    for (std::size_t i = 0; i < subject.recovery.size(); ++i) {
        const auto& row = subject.recovery[i];
        CHECK(std::is_sorted(row.poured.begin(), row.poured.end()));
        if (i > 0) CHECK(row.poured.back() <= subject.recovery[i - 1].poured.back());
    }
}

TEST_CASE("Grains timed as solid ones fall have the solid's density", "[identity]") {
    auto asked = question();
    const Time solid =
        settling_time(micrometres(49.0), millimetres(100.0), asked.density, water_at(asked.temperature));
    asked.test = SettlingRecord{};
    asked.test->grains = TimedGrains{micrometres(49.0), millimetres(100.0), solid};
    const auto subject = settle_subject(asked);
    REQUIRE(subject.effective);
    CHECK(in_grams_per_cubic_centimetre(*subject.effective) == Approx(1.88).epsilon(1e-6));
    check_page(settle_text(subject));
}

TEST_CASE("A draw below the bottom and grains that float are refused", "[errors]") {
    auto deep = question();
    deep.draw = millimetres(120.0);
    CHECK_THROWS_AS(settle_subject(deep), DomainError);
    auto light = question();
    light.density = grams_per_cubic_centimetre(0.9);
    CHECK_THROWS_AS(settle_subject(light), DomainError);
}

TEST_CASE("A blanket that has nearly ended is decanted now", "[unit]") {
    const auto subject =
        decant_subject("Wash", {millimetres(100.0), millimetres(45.0), millimetres(41.0), hours(4.0)});
    const auto text = decant_text(subject);
    CHECK_THAT(text, Contains("Decant now"));
    check_page(text);
}
