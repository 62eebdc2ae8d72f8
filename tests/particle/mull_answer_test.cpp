#include "lakebound/particle/mull_answer.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

TEST_CASE("mulling stops at the target, or where it stops to pay", "[unit]") {
    MullQuestion asked{
        {{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}},
        micrometres(25)};
    // By hand: the end is 16 um, 44 exp(-t/14.43 min) falls to 9 um after 22.9 min; whole minutes upward.
    const auto answer = plan_mulling(asked);
    CHECK(in_minutes(answer.so_far) == Approx(20));
    REQUIRE(answer.more_to_target);
    CHECK(in_minutes(*answer.more_to_target) == Approx(3.0).epsilon(1e-9));
    // 44 exp(-t/14.43) (1 - exp(-10/14.43)) = 2 at 34.6 min.
    CHECK(in_minutes(answer.stop) == Approx(34.6).margin(.1));
    CHECK(in_minutes(answer.more_to_stop) == Approx(14.6).margin(.1));
    asked.target = micrometres(8);
    CHECK(plan_mulling(asked).out_of_reach);
    asked.target.reset();
    CHECK_FALSE(plan_mulling(asked).more_to_target);
    CHECK_FALSE(plan_mulling(asked).out_of_reach);
}
