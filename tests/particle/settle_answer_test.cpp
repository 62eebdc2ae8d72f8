#include "lakebound/particle/settle_answer.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/particle/record_error.hpp"
#include "support/four_pours.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;

namespace {
SettleQuestion question() { return testing::four_pours(micrometres(45.0)); }
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
    // Stokes: the wait goes with the depth and the inverse square of the cut. A day of it is still a room's.
    asked = question();
    asked.cut = micrometres(2.5);
    const double day = 24.0 * 3600.0 / in_seconds(plan_settling(asked).plan.how.wait);
    CHECK_FALSE(plan_settling(asked).brownian);
    asked.depth = asked.depth * (day * 0.999);
    CHECK_FALSE(plan_settling(asked).too_slow);
    asked.depth = asked.depth * 1.002;
    CHECK(plan_settling(asked).too_slow);
    // Just at a limit it is neither too slow nor too fast.
    asked.longest_wait = asked.shortest_wait = plan_settling(asked).plan.how.wait;
    CHECK_FALSE(plan_settling(asked).too_slow);
    CHECK_FALSE(plan_settling(asked).too_fast);
    // Who names no limits meets none.
    asked.shortest_wait = SettleQuestion{}.shortest_wait, asked.longest_wait = SettleQuestion{}.longest_wait;
    CHECK_FALSE(plan_settling(asked).too_slow);
    CHECK_FALSE(plan_settling(asked).too_fast);
    asked = question();
    asked.cut = micrometres(1.99);
    CHECK(plan_settling(asked).brownian);
    asked.cut = micrometres(2.01);
    CHECK_FALSE(plan_settling(asked).brownian);
    asked = question();
    asked.solids = VolumeFraction::of(0.10); // (0.9)^4.65 = 0.61
    CHECK(plan_settling(asked).crowded);
    CHECK_FALSE(plan_settling(question()).crowded);
}

TEST_CASE("a fault of the settling test or the sieve test is told as theirs", "[errors]") {
    const auto part_of = [](const SettleQuestion& asked) -> std::optional<RecordPart> {
        try {
            plan_settling(asked);
        } catch (const RecordError& error) {
            return error.part();
        } catch (const DomainError&) {
            return std::nullopt;
        }
        FAIL("not refused");
        throw;
    };
    auto asked = question();
    asked.test.emplace();
    asked.test->grains = TimedGrains{micrometres(45.0), millimetres(100.0), seconds(2.0)};
    CHECK(part_of(asked) == RecordPart::timed_grains);
    asked.density = {grams_per_cubic_centimetre(0.9), GivenBy::maker}; // now the maker is at fault, not the test
    CHECK(part_of(asked) == std::nullopt);
    asked.density.by = GivenBy::sieve_tests;
    CHECK(part_of(asked) == RecordPart::density);
    asked = question();
    asked.sieve.emplace();
    asked.sieve->test.screens = {{micrometres(75.0), grams(5.0)}};
    asked.sieve->test.pan = grams(5.0);
    CHECK(part_of(asked) == RecordPart::retained);
    // Grains between cold water and warm: they sink in what is asked about, not in the test's own water.
    asked = question();
    asked.density = {grams_per_cubic_centimetre(0.98), GivenBy::sieve_tests};
    asked.temperature = {degrees_celsius(95.0), GivenBy::maker};
    asked.test.emplace();
    asked.test->temperature = degrees_celsius(10.0);
    asked.test->grains = TimedGrains{micrometres(45.0), millimetres(100.0), minutes(150.0)};
    CHECK(part_of(asked) == RecordPart::density);
}

TEST_CASE("grains of a tenth to the whole of the cut are told, and what a sieve test keeps of its pan", "[identity]") {
    auto asked = question();
    const auto alone = plan_settling(asked);
    const double shares[] = {0.1, 0.25, 0.5, 0.8, 0.9, 1.0};
    REQUIRE(alone.recovery.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        const auto& row = alone.recovery[i];
        CHECK(in_micrometres(row.size) == Approx(45.0 * shares[i]).epsilon(1e-12));
        REQUIRE(row.poured.size() == 4);
        // Stokes' law: a grain falls as the square of its size, so after the wait the top 80 mm still hold
        // 1 - share^2 of what they held, and that over the depth is drawn each time (drag: a per cent at most).
        const double once = 0.8 * (1.0 - shares[i] * shares[i]);
        for (unsigned n = 1; n <= 4; ++n)
            CHECK(row.poured[n - 1] == Approx(1.0 - std::pow(1.0 - once, n)).margin(0.01));
        CHECK(in_seconds(row.falls) == Approx(in_seconds(alone.plan.how.wait) / (shares[i] * shares[i])).epsilon(0.02));
    }
    asked.sieve = testing::worked_sieving().record;
    const auto with = plan_settling(asked);
    REQUIRE(with.levigated);
    const auto& classes = with.levigated->classes;
    CHECK(classes.front().of.share.value() == Approx(4.0 / 19.7).epsilon(1e-6)); // the pan: 4.0 g of 19.7 g, by hand
    double poured = 0.0, left = 0.0, all = 0.0;
    for (const auto& each : classes) {
        poured += each.poured, left += each.left, all += each.of.share.value();
        CHECK(each.poured + each.left == Approx(each.of.share.value()).margin(1e-9));
    }
    CHECK(all == Approx(1.0).epsilon(1e-9));
    CHECK(poured == Approx(with.levigated->poured).epsilon(1e-9));
    CHECK(left == Approx(with.levigated->left).epsilon(1e-9));
    CHECK(with.below_screens_guessed);
    for (std::size_t i = 1; i < classes.size(); ++i) // coarser than the cut nothing is poured
        CHECK(classes[i].poured == Approx(0.0).margin(1e-9));
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

TEST_CASE("a wait just as long as it may be is neither too long nor too short", "[unit]") {
    auto asked = question();
    const Time wait = plan_settling(asked).plan.how.wait;
    asked.shortest_wait = asked.longest_wait = wait;
    CHECK_FALSE(plan_settling(asked).too_slow);
    CHECK_FALSE(plan_settling(asked).too_fast);
    asked.shortest_wait = wait * 1.0001;
    asked.longest_wait = wait * 0.9999;
    CHECK(plan_settling(asked).too_slow);
    CHECK(plan_settling(asked).too_fast);
    // (1 - phi)^4.65 is .75 at phi .06: by hand exp(ln(.75)/4.65) = .93999.
    asked = question();
    asked.cut = micrometres(10);
    asked.solids = VolumeFraction::of(0.0599);
    CHECK_FALSE(plan_settling(asked).crowded);
    asked.solids = VolumeFraction::of(0.0601);
    CHECK(plan_settling(asked).crowded);
}
