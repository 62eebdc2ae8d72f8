#include "lakebound/particle/decant_answer.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {
DecantAnswer decanted(double first, double second, double third, double hours_apart) {
    return plan_decanting({"",
                           {millimetres(first), millimetres(second), millimetres(third), hours(hours_apart)},
                           millimetres(1),
                           millimetres(15),
                           Share::of(.05)});
}
} // namespace

TEST_CASE("a decanting plan waits from the third reading and leaves a finger of water", "[unit]") {
    // Worked by hand with the curve 100, 62, 48 mm every 2 h: end 39.8 mm, decant at 6.8 h, blanket 1.05 x 39.8.
    const auto answer = decanted(100, 62, 48, 2);
    CHECK(in_hours(answer.read) == Approx(4.0));
    CHECK(in_hours(answer.wait) == Approx(2.8).margin(.06));
    CHECK(in_millimetres(answer.blanket) == Approx(1.05 * 39.8).margin(.1));
    CHECK(in_millimetres(answer.draw_to - answer.blanket) == Approx(15.0).epsilon(1e-9));
    CHECK(in_millimetres(answer.drawn + answer.draw_to) == Approx(100.0).epsilon(1e-9)); // all that stood there
    CHECK(answer.interval.decant_low < answer.decant);
    REQUIRE(answer.interval.decant_high);
    CHECK(*answer.interval.decant_high > answer.decant);
    CHECK(answer.interval.end_height_m.low < in_metres(answer.zone.end_height));
    CHECK(answer.interval.end_height_m.high > in_metres(answer.zone.end_height));
}

TEST_CASE("a blanket that has nearly ended waits no longer than its readings", "[unit]") {
    const auto answer = decanted(100, 45, 41, 4);
    CHECK(in_seconds(answer.wait) < 1e-9);
    CHECK(in_hours(answer.at) == Approx(8.0));
}
