#include "lakebound/particle/grind_answer.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/particle/record_error.hpp"
#include "support/grinding_tests.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("A looser target never takes longer, nor a greater loss less powder through", "[identity]") {
    double last = 1e9;
    for (const double residue : {0.005, 0.01, 0.02, 0.05, 0.1}) {
        const auto answer = planned(grind_question({early(), late()}, 75.0, residue));
        CHECK(in_minutes(answer.one_long_grind->time) < last);
        last = in_minutes(answer.one_long_grind->time);
    }
    auto none = grind_question({early(), late()}), much = none;
    none.say.loss = Share::of(0.0);
    much.say.loss = Share::of(0.05);
    CHECK(planned(none).ways.front().plan.run.through > planned(much).ways.front().plan.run.through);
}

TEST_CASE("The recommended rounds are whole minutes and the least in hands", "[identity]") {
    const auto answer = planned(grind_question({early(), late()}));
    for (const auto& way : answer.ways) {
        CHECK(way.plan.run.hands >= answer.ways.front().plan.run.hands);
        if (way.plan.in_rounds)
            CHECK(in_minutes(way.plan.cycle) == Approx(std::round(in_minutes(way.plan.cycle))).epsilon(1e-9));
    }
}

TEST_CASE("A target that no screen sees, and powder that grows coarser, are refused", "[errors]") {
    CHECK_THROWS_AS(planned(grind_question({early(), late()}, 38.0)), DomainError);
    auto coarser = early();
    coarser.grinding_time = minutes(30);
    CHECK_THROWS_AS(planned(grind_question({late(), coarser})), DomainError);
}

TEST_CASE("tests on other screens, or a target between them, are read by one screen, and that is said", "[unit]") {
    auto other = late();
    other.test.screens[2].aperture = micrometres(125);
    other.sieves[2].aperture = micrometres(125);
    const auto apart = planned(grind_question({early(), other}));
    CHECK(apart.model == GrindModel::one_screen);
    CHECK(apart.why_one_screen == "the tests did not use the same screens");
    const auto between = planned(grind_question({early(), late()}, 90.0));
    CHECK(between.why_one_screen == "the target is none of the screens of the tests");
    // The rows are the residues as weighed, by hand: 15.43 of 19.75 g after 5 min, 11.32 of 19.72 g after 15.
    REQUIRE(apart.rows.size() == 2);
    CHECK(apart.rows[0].residue.share.value() == Approx(15.43 / 19.75).epsilon(1e-9));
    CHECK(apart.rows[1].residue.share.value() == Approx(11.32 / 19.72).epsilon(1e-9));
    CHECK(apart.residue_now == Approx(apart.rows[1].residue.share.value()).epsilon(1e-9));
    CHECK(in_grams(apart.charge) == Approx(19.72).epsilon(1e-9));
    CHECK(in_minutes(apart.now) == Approx(15.0));
    CHECK_FALSE(apart.fine_already);
    CHECK_FALSE(will_not_get_there(apart));
    // Of the ways the first alone, which is recommended, says how many rounds are left open.
    REQUIRE(apart.ways.size() > 1);
    CHECK(apart.ways.front().needed);
    for (std::size_t i = 1; i < apart.ways.size(); ++i)
        CHECK_FALSE(apart.ways[i].needed);
    CHECK(apart.later.empty());
    // A third test is held against what the first two foresee, in deviations of both.
    const auto third = planned(grind_question({early(), other, slow()}));
    REQUIRE(third.later.size() == 1);
    const auto& seen = third.later.front();
    CHECK(in_minutes(seen.time) == Approx(30.0));
    CHECK(seen.observed == Approx(third.rows[2].residue.share.value()).epsilon(1e-12));
    CHECK(seen.predicted < third.rows[1].residue.share.value());
    CHECK(seen.predicted < seen.observed); // hardly finer after twice the time
    CHECK(seen.slowing == (seen.deviations > 2.0));
    CHECK(seen.faster == (seen.deviations < -2.0));
    CHECK(seen.deviations > 0.0);
    auto quick = slow();
    quick.test.screens[0].retained = grams(0.1), quick.test.screens[1].retained = grams(0.2), quick.test.screens[2].retained = grams(0.2);
    quick.test.screens[3].retained = grams(0.3), quick.test.pan = grams(16.0);
    const auto fast = planned(grind_question({early(), other, quick}));
    REQUIRE(fast.later.size() == 1);
    CHECK(fast.later.front().faster);
    CHECK(fast.later.front().deviations < -2.0);
    const auto fine = planned(grind_question({early(), other}, 75.0, 0.6));
    CHECK(fine.fine_already);
    CHECK_FALSE(will_not_get_there(fine));
    GrindAnswer none;
    CHECK(will_not_get_there(none));
    REQUIRE(apart.law);
    CHECK(apart.forecast.size() > 1);
    for (std::size_t i = 1; i < apart.forecast.size(); ++i)
        CHECK(apart.forecast[i].residue < apart.forecast[i - 1].residue);
}

TEST_CASE("the test that a fault lies in is told as it was asked, whatever its time", "[errors]") {
    const auto fault_of = [](const GrindQuestion& question) {
        try {
            planned(question);
        } catch (const RecordError& error) {
            return error;
        }
        FAIL("not refused as a fault of a test");
        throw;
    };
    // Late first, as a maker may name them.
    const auto seen = fault_of(grind_question({late(), early()}, 38.0));
    CHECK(seen.part() == RecordPart::retained);
    CHECK(seen.record() == 1); // of the tests in order of time the first shows it
    CHECK(!seen.beside());
    auto coarser = early();
    coarser.grinding_time = minutes(30);
    const auto contradicts = fault_of(grind_question({coarser, late()}));
    CHECK(contradicts.record() == 0);
    CHECK(contradicts.beside() == std::size_t{1});
    auto timeless = early();
    timeless.grinding_time.reset();
    const auto missing = fault_of(grind_question({late(), timeless}));
    CHECK(missing.part() == RecordPart::whole);
    CHECK(missing.record() == 1);
    auto light = late();
    light.density = grams_per_cubic_centimetre(0.9);
    const auto floats = fault_of(grind_question({light, early()}));
    CHECK(floats.part() == RecordPart::density);
    CHECK(floats.record() == 0);
    auto said = grind_question({late(), early()});
    said.say.density = grams_per_cubic_centimetre(0.9);
    CHECK_THROWS_AS(planned(said), DomainError);
    try {
        planned(said);
    } catch (const DomainError& error) {
        CHECK(dynamic_cast<const RecordError*>(&error) == nullptr); // no test says so
    }
}

TEST_CASE("the loss of a plan is what the maker says, else what the tests lost, else the shelf's", "[unit]") {
    auto asked = grind_question({early(), late()});
    CHECK(planned(asked).loss.by == GivenBy::shelf);
    CHECK(planned(asked).loss.value.value() == Approx(0.01).epsilon(1e-12));
    // By hand: 0.25 of 20 g and 0.30 of 20.02 g.
    asked.tests[0].test.charge = grams(20.0);
    asked.tests[1].test.charge = grams(20.02);
    auto answer = planned(asked);
    CHECK(answer.loss.by == GivenBy::sieve_tests);
    CHECK(answer.loss.value.value() == Approx(0.5 * (0.25 / 20.0 + 0.30 / 20.02)).epsilon(1e-9));
    // A test that lost nothing says nothing of the loss.
    asked.tests[1].test.charge = grams(19.72);
    CHECK(planned(asked).loss.value.value() == Approx(0.25 / 20.0).epsilon(1e-9));
    asked.say.loss = Share::of(0.03);
    CHECK(planned(asked).loss.by == GivenBy::maker);
}

TEST_CASE("the density of the grains is the maker's, else a test's, else the shelf's", "[unit]") {
    auto asked = grind_question({early(), late()});
    CHECK(planned(asked).density.by == GivenBy::shelf);
    asked.tests[0].density = grams_per_cubic_centimetre(1.7);
    auto answer = planned(asked);
    CHECK(answer.density.by == GivenBy::sieve_tests);
    CHECK(in_grams_per_cubic_centimetre(answer.density.value) == Approx(1.7));
    asked.say.density = grams_per_cubic_centimetre(2.4);
    CHECK(planned(asked).density.by == GivenBy::maker);
}

TEST_CASE("rounds of whole minutes never take more hands than either neighbour", "[identity]") {
    const auto answer = planned(grind_question({early(), late()}));
    const auto way = std::find_if(answer.ways.begin(), answer.ways.end(), [](const auto& w) { return w.plan.in_rounds; });
    REQUIRE(way != answer.ways.end());
    GrindLoad load;
    load.model = answer.fit->model;
    const auto analysis = analyse(late().test);
    for (const auto& f : analysis.fractions)
        load.feed.push_back(f.fraction.value());
    load.limit = class_limit(load.model, micrometres(75));
    load.load_exponent = 0.5;
    for (const double step : {-1.0, 1.0}) {
        const Time cycle = way->plan.cycle + minutes(step);
        if (in_minutes(cycle) < 1.0) continue;
        const auto run = run_rounds(load, way->separation, cycle, {0.01, 60, way->separate_first});
        if (run.reached) CHECK(in_seconds(run.hands) >= in_seconds(way->plan.run.hands) * (1 - 1e-12));
    }
}

TEST_CASE("a weighing of the model's own mortar gives its exponent back and narrows the rounds", "[identity]") {
    const auto open = planned(grind_question({early(), late()}, 45.0, 0.005));
    const auto& way = open.ways.front();
    REQUIRE(way.plan.in_rounds);
    REQUIRE(way.needed);
    for (const double e : {0.2, 0.5, 0.9}) {
        auto asked = grind_question({early(), late()}, 45.0, 0.005);
        GrindLoad load;
        load.model = open.fit->model;
        for (const auto& f : analyse(late().test).fractions)
            load.feed.push_back(f.fraction.value());
        load.limit = class_limit(load.model, micrometres(45));
        load.load_exponent = e;
        const auto two = run_rounds(load, way.separation, way.plan.cycle, {1e-9, 2, way.separate_first});
        const auto all = run_rounds(load, way.separation, way.plan.cycle, {0.005, 60, way.separate_first});
        asked.say.weighed = WeighedStay{two.remains * open.charge, 2, way.plan.cycle, {}};
        const auto known = planned(asked);
        REQUIRE(known.rounds_left);
        CHECK(known.rounds_left->exponent == Approx(e).margin(1e-6));
        CHECK_FALSE(known.rounds_left->beyond_model);
        CHECK(known.rounds_left->more == all.rounds.size() - (way.separate_first ? 1 : 0) - 2);
        REQUIRE(known.rounds_left->range.high);
        REQUIRE(way.needed->high);
        CHECK(*known.rounds_left->range.high - known.rounds_left->range.low <= *way.needed->high - way.needed->low);
    }
    auto heavy = grind_question({early(), late()}, 45.0, 0.005);
    heavy.say.weighed = WeighedStay{grams(19.0), 2, way.plan.cycle, {}};
    CHECK(planned(heavy).rounds_left->beyond_model);
    heavy.say.weighed->stays = grams(25.0);
    CHECK_THROWS_AS(planned(heavy), DomainError);
    heavy.say.weighed = WeighedStay{grams(5.0), 2, way.plan.cycle, ScreeningAdvice::dry_sieving};
    CHECK_THROWS_AS(planned(heavy), DomainError);
}

TEST_CASE("grinding that slows is alarmed, and a mortar that gains nothing needs the most rounds", "[unit]") {
    CHECK(planned(grind_question({early(), late(), slow()})).slowing);
    CHECK_FALSE(planned(grind_question({early(), late()})).slowing);
    const auto single = [](double min, double over) { return ground_test(min, {{75, over}}, 20.0 - over); };
    CHECK_FALSE(planned(grind_question({single(5, 9.2), single(15, 4.7), single(25, 2.4)})).slowing);
    const auto lagging = planned(grind_question({single(5, 9.2), single(15, 4.7), single(40, 3.4)}));
    CHECK(lagging.model == GrindModel::one_screen);
    CHECK(lagging.slowing);
    auto never = grind_question({early(), late()}), ever = never;
    never.say.emptier_is_faster = LoadExponent::of(0.0);
    ever.say.emptier_is_faster = LoadExponent::of(1.0);
    const auto plan_never = planned(never), plan_ever = planned(ever);
    CHECK(plan_never.ways.front().plan.run.grinding > plan_ever.ways.front().plan.run.grinding);
}

TEST_CASE("the maker's own round stands beside the best once for each way that reaches", "[unit]") {
    auto asked = grind_question({early(), late()});
    asked.say.cycle = minutes(7);
    const auto answer = planned(asked);
    for (const auto kind : {ScreeningAdvice::dry_sieving, ScreeningAdvice::wet_screening}) {
        const auto own = std::count_if(answer.ways.begin(), answer.ways.end(), [&](const GrindWay& way) {
            return way.own && way.separation.kind == kind;
        });
        CHECK(own == 1);
    }
    for (const auto& way : answer.ways)
        if (way.own) {
            CHECK(way.plan.cycle == minutes(7));
            CHECK(way.needed);
            CHECK_FALSE(way.separate_first);
        }
}

TEST_CASE("a forecast is far when its last rows lie beyond three times the tests", "[unit]") {
    for (const double residue : {0.005, 0.05, 0.3}) {
        const auto answer = planned(grind_question({early(), late()}, 75.0, residue));
        REQUIRE(answer.fit);
        CHECK(answer.forecast_far == (in_minutes(answer.forecast.back().time) > 3.0 * in_minutes(answer.now)));
        CHECK(in_minutes(answer.long_grind_left) ==
              Approx(std::max(0.0, in_minutes(answer.one_long_grind->time) - in_minutes(answer.now))).margin(1e-9));
    }
    CHECK(planned(grind_question({early(), late()}, 75.0, 0.0005)).forecast_far);
    const auto now = planned(grind_question({early(), late()})).residue_now;
    CHECK_FALSE(planned(grind_question({early(), late()}, 75.0, 0.8 * now)).forecast_far);
}

TEST_CASE("what stays after two rounds is told in masses of the charge", "[unit]") {
    GrindWay way;
    CHECK_FALSE(masses_after_two(way, grams(20)));
    way.stays_after_two = CoverageInterval{0.1, 0.3};
    CHECK(in_grams(masses_after_two(way, grams(20))->low) == Approx(2));
    CHECK(in_grams(masses_after_two(way, grams(20))->high) == Approx(6));
}

TEST_CASE("rounds by one screen are those of the law's own draws", "[identity]") {
    const auto single = [](double min, double over) { return ground_test(min, {{75, over}}, 20.0 - over); };
    auto asked = grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.02);
    asked.say.emptier_is_faster = LoadExponent::of(0.5); // said, so every draw has it
    const auto answer = planned(asked);
    REQUIRE(answer.law);
    const auto& way = answer.ways.front();
    REQUIRE(way.plan.in_rounds);
    const auto load_of = [&](double rate, double c, double exponent) {
        GrindLoad load;
        load.model.class_sizes = {micrometres(150), micrometres(75)};
        load.model.selection = {BreakageRate::from_value(rate), 0.0};
        load.model.cushioning = c;
        load.feed = {4.7 / 20.0, 15.3 / 20.0};
        load.limit = 1;
        load.load_exponent = exponent;
        return load;
    };
    const auto grinds = [&](const GrindLoad& load) {
        const auto run = run_rounds(load, way.separation, way.plan.cycle, {0.02, 60, way.separate_first});
        return run.reached ? static_cast<unsigned>(run.rounds.size()) - (way.separate_first ? 1u : 0u) : 120u;
    };
    std::vector<unsigned> counts;
    for (std::size_t i = 0; i < answer.law->draws.size(); i += answer.law->draws.size() / 100)
        if (const auto& draw = answer.law->draws[i]; draw.rate > 0.0) counts.push_back(grinds(load_of(draw.rate, draw.cushioning, 0.5)));
    std::sort(counts.begin(), counts.end());
    REQUIRE(counts.size() >= 90);
    REQUIRE(way.needed);
    // The twentieth parts fall between two draws: no less than the one, no more than the next.
    const auto last = static_cast<double>(counts.size() - 1);
    const auto drawn = [&](double p) { return counts[static_cast<std::size_t>(p)]; };
    CHECK(way.needed->low >= drawn(std::floor(0.05 * last)));
    CHECK(way.needed->low <= drawn(std::ceil(0.05 * last)));
    REQUIRE(way.needed->high.has_value() == (drawn(std::ceil(0.95 * last)) <= 60));
    if (way.needed->high) {
        CHECK(*way.needed->high >= drawn(std::floor(0.95 * last)));
        CHECK(*way.needed->high <= drawn(std::ceil(0.95 * last)));
    }
    CHECK(grinds_of(way) == grinds(load_of(answer.law->rate.value(), answer.cushioning, 0.5)));

    // One weighing of this mortar with another exponent gives that back, and the rounds that are left with it.
    const auto mine = load_of(answer.law->rate.value(), answer.cushioning, 0.8);
    const auto one = run_rounds(mine, way.separation, way.plan.cycle, {1e-9, 1, way.separate_first});
    asked.say.weighed = WeighedStay{one.remains * answer.charge, 1, way.plan.cycle, {}};
    const auto known = planned(asked);
    REQUIRE(known.rounds_left);
    CHECK(known.rounds_left->exponent == Approx(0.8).margin(1e-6));
    CHECK_FALSE(known.rounds_left->beyond_model);
    CHECK(known.rounds_left->more == grinds(mine) - 1);
    CHECK(known.rounds_left->range.low <= known.rounds_left->more);
    if (known.rounds_left->range.high) CHECK(*known.rounds_left->range.high >= known.rounds_left->more);
}
