#include "lakebound/particle/settle_answer.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
SettleQuestion question() {
    SettleQuestion asked;
    asked.cut = micrometres(45.0);
    asked.depth = millimetres(100.0);
    asked.density = {grams_per_cubic_centimetre(1.88), GivenBy::maker};
    asked.temperature = {degrees_celsius(20.0), GivenBy::maker};
    asked.solids = VolumeFraction::of(0.02);
    asked.handling = {minutes(3), minutes(1)};
    return asked;
}
} // namespace

TEST_CASE("the draw is the maker's, else eight tenths of the depth", "[unit]") {
    auto asked = question();
    CHECK(in_millimetres(plan_settling(asked).plan.how.draw_depth) == Approx(80.0));
    asked.draw = millimetres(60.0);
    CHECK(in_millimetres(plan_settling(asked).plan.how.draw_depth) == Approx(60.0));
    asked.draw = millimetres(101.0);
    CHECK_THROWS_AS(plan_settling(asked), DomainError);
}

TEST_CASE("waits that hands or a warm room cannot keep are flagged", "[unit]") {
    auto asked = question();
    CHECK_FALSE(cannot_be_done(plan_settling(asked)));
    asked.cut = micrometres(400.0);
    asked.depth = millimetres(60.0);
    CHECK(cannot_be_done(plan_settling(asked)));
    asked.cut = micrometres(1.5);
    asked.depth = millimetres(200.0);
    const auto fine = plan_settling(asked);
    CHECK(fine.too_slow);
    CHECK(fine.brownian);
    asked = question();
    asked.solids = VolumeFraction::of(0.10); // (0.9)^4.65 = 0.61
    CHECK(plan_settling(asked).crowded);
    CHECK_FALSE(plan_settling(question()).crowded);
}

TEST_CASE("water in an open grain follows from the densities", "[identity]") {
    // By hand: a grain half way in density between water, 0.99821 g/cm3, and a solid of 1.88 is half water.
    auto asked = question();
    const auto water = water_at(degrees_celsius(20));
    const auto grain = grams_per_cubic_centimetre(0.5 * (0.99821 + 1.88));
    asked.test = SettlingRecord{};
    asked.test->grains = TimedGrains{micrometres(49), millimetres(100),
                                     settling_time(micrometres(49), millimetres(100), grain, water)};
    const auto answer = plan_settling(asked);
    REQUIRE(answer.open);
    CHECK(answer.open->value() == Approx(0.5).margin(1e-4));
}
