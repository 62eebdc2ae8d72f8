#include "lakebound/particle/mull_answer.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

TEST_CASE("mulling stops at the target, or where it stops to pay", "[unit]") {
    MullQuestion asked{
        {{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}},
        micrometres(25), micrometres(2), minutes(10)};
    // By hand: the end is 16 um, 44 exp(-t/14.43 min) falls to 9 um after 22.9 min; whole minutes upward.
    const auto answer = plan_mulling(asked);
    CHECK(in_minutes(answer.so_far) == Approx(20));
    REQUIRE(answer.more_to_target);
    CHECK(in_minutes(*answer.more_to_target) == Approx(3.0).epsilon(1e-9));
    // 44 exp(-t/14.43) (1 - exp(-10/14.43)) = 2 at 34.6 min.
    CHECK(in_minutes(answer.stop) == Approx(34.6).margin(.1));
    CHECK(in_minutes(answer.more_to_stop) == Approx(14.6).margin(.1));
    CHECK(in_minutes(answer.in_all) == Approx(23.0).epsilon(1e-9));
    CHECK_FALSE(answer.past_stop);
    // 44 exp(-t/14.43) (1 - exp(-5/14.43)) = 4 at 16.9 min: a maker for whom half as long must gain twice as much.
    auto hasty = asked;
    hasty.worth_gaining = micrometres(4), hasty.spell = minutes(5);
    CHECK(in_minutes(plan_mulling(hasty).stop) == Approx(16.88).margin(.05));
    asked.target = micrometres(8);
    CHECK(plan_mulling(asked).out_of_reach);
    asked.target.reset();
    CHECK_FALSE(plan_mulling(asked).more_to_target);
    CHECK_FALSE(plan_mulling(asked).out_of_reach);
}

TEST_CASE("each reading stands beside the curve, in Hegman units where their gauge reaches", "[reference]") {
    // 120 um lies below the deep end of a 4 mil gauge; 12.7 um (8 - H): 101.6 um is 0, 50.8 um is 4.
    const auto answer = plan_mulling({{{minutes(5), micrometres(120)}, {minutes(15), micrometres(50.8)}, {minutes(25), micrometres(31)}, {minutes(95), micrometres(24)}}, {}, micrometres(2), minutes(10)});
    REQUIRE(answer.rows.size() == 4);
    CHECK_FALSE(answer.rows[0].hegman);
    CHECK(answer.rows[1].hegman.value() == Approx(4.0).epsilon(1e-9));
    CHECK(in_micrometres(answer.rows[1].read) == Approx(50.8));
    CHECK(in_minutes(answer.rows[0].mulled) == Approx(0.0).margin(1e-9));
    CHECK(in_minutes(answer.rows[3].mulled) == Approx(90.0));
    for (const auto& row : answer.rows)
        CHECK(in_micrometres(row.curve) == Approx(in_micrometres(fineness_at(answer.mulling, row.mulled))).epsilon(1e-12));
    CHECK(answer.past_stop);
    CHECK(plan_mulling({{{minutes(0), micrometres(101.6)}, {minutes(10), micrometres(60)}, {minutes(20), micrometres(40)}}, {}, micrometres(2), minutes(10)})
              .rows.front()
              .hegman.value() == Approx(0.0).margin(1e-9));
}
