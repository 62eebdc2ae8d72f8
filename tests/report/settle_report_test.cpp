#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <sstream>

#include "lakebound/quantity/error.hpp"
#include "lakebound/report/settle_report.hpp"
#include "support/four_pours.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

SettleQuestion question() { return four_pours(micrometres(45.0)); }

DecantQuestion blanket(std::string name, const InterfaceHeights& heights) {
    return {std::move(name), heights, millimetres(1), millimetres(15), Share::of(0.05)};
}

} // namespace

TEST_CASE("The clock begins with filling and counts every wait", "[unit]") {
    const auto answer = plan_settling(question());
    REQUIRE(answer.plan.steps.size() == 4);
    CHECK(answer.plan.steps[0].stirred == minutes(3));
    const Time wait = answer.plan.how.wait;
    for (const auto& step : answer.plan.steps)
        CHECK(in_seconds(step.pour - step.stirred) == Approx(in_seconds(wait)).epsilon(1e-9));
    const auto text = settle_text(answer);
    CHECK_THAT(text, Contains("0:03:00") && Contains("CLOCK, FROM THE FIRST FILL"));
    check_page(text);
}

TEST_CASE("Many pour-offs fit the page", "[unit]") {
    auto asked = question();
    asked.pours = 40;
    const auto text = settle_text(plan_settling(asked));
    CHECK_THAT(text, Contains("...") && Contains("40 pours"));
    check_page(text);
}

TEST_CASE("More pour-offs never carry over less, coarser grains never more", "[identity]") {
    const auto answer = plan_settling(question());
    for (std::size_t i = 0; i < answer.recovery.size(); ++i) {
        const auto& row = answer.recovery[i];
        CHECK(std::is_sorted(row.poured.begin(), row.poured.end()));
        if (i > 0) CHECK(row.poured.back() <= answer.recovery[i - 1].poured.back());
    }
}

TEST_CASE("Grains timed as solid ones fall have the solid's density", "[identity]") {
    auto asked = question();
    const Time solid =
        settling_time(micrometres(49.0), millimetres(100.0), asked.density.value, water_at(asked.temperature.value));
    asked.test = SettlingRecord{};
    asked.test->grains = TimedGrains{micrometres(49.0), millimetres(100.0), solid};
    const auto answer = plan_settling(asked);
    REQUIRE(answer.effective);
    CHECK(in_grams_per_cubic_centimetre(*answer.effective) == Approx(1.88).epsilon(1e-6));
    check_page(settle_text(answer));
}

TEST_CASE("A draw below the bottom and grains that float are refused", "[errors]") {
    auto deep = question();
    deep.draw = millimetres(120.0);
    CHECK_THROWS_AS(plan_settling(deep), DomainError);
    auto light = question();
    light.density.value = grams_per_cubic_centimetre(0.9);
    CHECK_THROWS_AS(plan_settling(light), DomainError);
}

TEST_CASE("A blanket that has nearly ended is decanted now", "[unit]") {
    const auto answer =
        plan_decanting(blanket("Wash", {millimetres(100.0), millimetres(45.0), millimetres(41.0), hours(4.0)}));
    const auto text = decant_text(answer);
    CHECK_THAT(text, Contains("Decant now"));
    check_page(text);
}

TEST_CASE("Without timed grains only solid ones are kept back, and the powder for the wait is named",
          "[unit]") {
    auto asked = question();
    const auto solid = plan_settling(asked);
    const auto text = settle_text(solid);
    CHECK_THAT(text, Contains("no solid grain coarser than 45 um; open clumps") &&
                         Contains("Catch every pour-off in a pail") &&
                         Contains("Reckoned for 2 % by volume: at most 18.8 g of powder to half a litre.") &&
                         Contains("settling of the fine part"));
    CHECK_THAT(settle_json(solid), Contains("\"powder_per_half_litre_g\": 18.8"));
    // Stokes' law for balls knows no third digit of a lake's grains.
    CHECK(std::regex_search(text, std::regex("falls\\s+0\\.[0-9]{2}\\s+mm/s,\\s+among\\s+the\\s+others\\s+0\\.[0-9]{2}\\s+mm/s")));
    asked.test = SettlingRecord{};
    asked.test->grains = TimedGrains{micrometres(49.0), millimetres(100.0), minutes(3.0)};
    const auto timed = plan_settling(asked);
    CHECK(timed.powder_per_half_litre < solid.powder_per_half_litre);
    CHECK_THAT(settle_text(timed), Contains("if all are as open as") && !Contains("no solid grain"));
    check_page(settle_text(timed));
}

TEST_CASE("Water is drawn to a finger above the blanket as it stands then, not where it ends", "[unit]") {
    const auto answer =
        plan_decanting(blanket("", {millimetres(100.0), millimetres(62.0), millimetres(48.0), hours(2.0)}));
    CHECK(answer.blanket > answer.zone.end_height);
    CHECK(in_millimetres(answer.blanket) ==
          Approx(1.05 * in_millimetres(answer.zone.end_height)).epsilon(1e-9));
    CHECK(in_millimetres(answer.draw_to - answer.blanket) == Approx(15.0).epsilon(1e-9));
    CHECK(in_millimetres(answer.drawn + answer.draw_to) == Approx(100.0).epsilon(1e-9));
    const auto text = decant_text(answer);
    CHECK_THAT(text, Contains("then stands at 42 mm: draw the water down to 57 mm") && !Contains("60 %"));
    CHECK_THAT(decant_json(answer), Contains("\"draw_to_mm\": 56.8"));
    check_page(text);
    const auto shallow =
        decant_text(plan_decanting(blanket("", {millimetres(20.0), millimetres(18.0), millimetres(17.0), hours(2.0)})));
    CHECK_THAT(shallow, Contains("too little clear water"));
}
