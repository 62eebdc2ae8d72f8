// A grinding answer, whole: what it is told on the way, its times and limits, each kind of test that it is asked with.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/particle/record_error.hpp"
#include "support/grinding_tests.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// A test over one screen of 75 um: grams over it of 20.
SieveRecord single(double min, double over) { return ground_test(min, {{75, over}}, 20.0 - over); }

std::vector<double> progress_of(GrindQuestion question) {
    std::vector<double> told;
    (void)plan_grinding(std::move(question), [&](double x) { told.push_back(x); });
    return told;
}

void check_all(const std::vector<double>& got, const std::vector<double>& expected) {
    REQUIRE(got.size() == expected.size());
    for (std::size_t i = 0; i < got.size(); ++i)
        CHECK(got[i] == Approx(expected[i]).epsilon(1e-9));
}

std::vector<double> minutes_of(const GrindAnswer& answer) {
    std::vector<double> out;
    for (const auto& row : answer.forecast)
        out.push_back(in_minutes(row.time));
    return out;
}

/// slow() after an hour, so much of it finer: what goes through the finest screen comes off each screen alike.
SieveRecord at_an_hour(double finer) {
    auto record = slow();
    record.grinding_time = minutes(60);
    double moved = 0.0;
    for (auto& screen : record.test.screens) {
        moved += in_grams(screen.retained) * finer;
        screen.retained = screen.retained * (1.0 - finer);
    }
    record.test.pan = record.test.pan + grams(moved);
    return record;
}

} // namespace

TEST_CASE("how much is done is told step by step", "[unit]") {
    // Fine already: the fits alone. A third test is looked at too, unless two alone tell no mortar.
    check_all(progress_of(grind_question({early(), late(), slow()}, 75.0, 0.6)), {0.05, 0.5, 0.7, 1.0});
}

TEST_CASE("how much is done is told where two tests alone tell no mortar", "[unit]") {
    const auto three_screens = [](double min, double a, double b, double c) { return ground_test(min, {{150, a}, {106, b}, {75, c}}, 20.0 - a - b - c); };
    check_all(progress_of(grind_question({three_screens(5, 10, 3, 2.3), three_screens(15, 5.5, 3, 2.8), three_screens(30, 2.5, 2, 2.3)}, 75.0, 0.6)), {0.05, 0.5, 1.0});
}

TEST_CASE("how much is done is told way by way", "[unit]") {
    check_all(progress_of(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.6)), {1.0});
    // Three ways to part 75 um, two of 45, one of finer: water.
    check_all(progress_of(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.02)), {0.8, 0.9, 1.0, 1.0});
    const auto fine = [](double um, double min, double over) { return ground_test(min, {{um, over}}, 20.0 - over); };
    check_all(progress_of(grind_question({fine(45, 5, 9.2), fine(45, 15, 4.7)}, 45.0, 0.02)), {0.85, 1.0, 1.0});
    check_all(progress_of(grind_question({fine(38, 5, 9.2), fine(38, 15, 4.7)}, 38.0, 0.02)), {1.0, 1.0});
}

TEST_CASE("the times of a forecast: the tests, half as long again, twice, thrice, four times, and when it is reached", "[reference]") {
    // By hand, of tests at 5 and 15 min: 22.5 is rounded to 23, then 30, 45, 60; those from the target's time on give way to it.
    for (const double residue : {0.21, 0.17, 0.12, 0.08, 0.05, 0.02, 0.005}) {
        const auto answer = planned(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, residue));
        REQUIRE(answer.one_long_grind);
        const double end = std::ceil(in_minutes(answer.one_long_grind->time));
        std::vector<double> expected{5, 15};
        for (const double t : {23.0, 30.0, 45.0, 60.0})
            if (t < end) expected.push_back(t);
        expected.push_back(end);
        check_all(minutes_of(answer), expected);
        CHECK_FALSE(answer.forecast_far); // of one screen it is not said
        REQUIRE(answer.law);
        REQUIRE(answer.screens.size() == 1);
        CHECK(in_micrometres(answer.screens[0]) == Approx(75.0));
        for (const auto& row : answer.forecast) {
            const auto foretold = predicted_residue(*answer.law, row.time, 0.90);
            CHECK(row.residue == Approx(residue_at(*answer.law, row.time)).epsilon(1e-12));
            CHECK(row.interval.low == foretold.interval.low);
            CHECK(row.interval.high == foretold.interval.high);
            CHECK(row.passing.size() == 1);
            CHECK(row.passing.at(0) == Approx(1.0 - row.residue).epsilon(1e-12));
        }
    }
    // Fine already: the tests, and nothing beyond.
    check_all(minutes_of(planned(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.3))), {5, 15});
    check_all(minutes_of(planned(grind_question({single(4, 9.2), single(7.5, 7.0)}, 75.0, 0.6))), {4, 7.5});
    // Out of reach in a thousand hours: all of them.
    const auto never = planned(grind_question({single(5, 9.2), single(15, 9.19)}, 75.0, 0.01));
    if (!never.one_long_grind) check_all(minutes_of(never), {5, 15, 23, 30, 45, 60});
}

namespace {

/// A plan whose long grind ends at this minute, by asking for the residue foretold there; tests at 5 and 15 min.
void check_end(double end) {
    const auto first = planned(grind_question({early(), late()}, 75.0, 0.56));
    REQUIRE(first.fit);
    CHECK(first.fit->draws.size() == 300);
    CHECK(in_minutes(first.long_grind_left) == Approx(std::max(0.0, in_minutes(first.one_long_grind->time) - 15.0)).margin(1e-9));
    const auto answer = planned(grind_question({early(), late()}, 75.0, residue_above(predicted_fractions(*first.fit, minutes(end)), 4)));
    REQUIRE(answer.one_long_grind);
    CHECK(in_minutes(answer.forecast.back().time) == Approx(end + 0.5).epsilon(1e-9));
    CHECK(answer.forecast_far == (end > 45.0));
    CHECK(in_minutes(answer.long_grind_left) == Approx(end - 15.0).epsilon(1e-6));
}

} // namespace

TEST_CASE("a forecast of three times the tests is not far", "[unit]") { check_end(44.5); }
TEST_CASE("a forecast beyond three times the tests is far", "[unit]") { check_end(54.5); }

TEST_CASE("a mortar slows where its cushioning gains more than chance would, on either side of the limit", "[reference]") {
    // By one screen: chi squared falls by more than 2.7. The last test is what it is by first order, or more or less.
    int shown = 0, hidden = 0, quick = 0;
    for (double over = 0.6; over < 3.4; over += 0.05) {
        const auto answer = planned(grind_question({single(5, 9.2), single(15, 4.7), single(30, over)}, 75.0, 0.6));
        REQUIRE(answer.law);
        REQUIRE(answer.later.size() == 1);
        const bool gains = answer.law->cushioning > 0.0 && answer.law->misfit_gain > 2.7;
        CHECK(answer.slowing == (gains || answer.later[0].slowing));
        CHECK(answer.later[0].slowing == (answer.later[0].deviations > 2.0));
        CHECK(answer.later[0].faster == (answer.later[0].deviations < -2.0));
        CHECK(answer.cushioning == answer.law->cushioning);
        if (!answer.later[0].slowing && answer.law->misfit_gain > 2.7 && answer.law->misfit_gain < 3.3) ++shown;
        if (!answer.later[0].slowing && answer.law->misfit_gain > 2.2 && answer.law->misfit_gain < 2.7) ++hidden;
        if (answer.law->cushioning < 0.0) ++quick;
    }
    CHECK(shown > 0);
    CHECK(hidden > 0);
    CHECK(quick > 0);
}

TEST_CASE("a later test by one screen is an alarm beyond two deviations, not below", "[unit]") {
    // Sharper readings, so that the doubt of the first two does not swallow it: the alarm is met from both sides.
    bool within = false, beyond = false, quick_within = false, quick_beyond = false;
    for (double over = 0.02; over < 4.6; over *= 1.03) {
        auto asked = grind_question({single(5, 9.2), single(15, 4.7), single(60, over)}, 75.0, 0.6);
        asked.habits.cushioning.latent_deviation = 0.3;
        const auto answer = planned(asked);
        REQUIRE(answer.later.size() == 1);
        const auto& later = answer.later[0];
        CHECK(later.slowing == (later.deviations > 2.0));
        CHECK(later.faster == (later.deviations < -2.0));
        within = within || (later.deviations > 1.6 && later.deviations < 2.0);
        beyond = beyond || (later.deviations > 2.0 && later.deviations < 2.5);
        quick_within = quick_within || (later.deviations < -1.6 && later.deviations > -2.0);
        quick_beyond = quick_beyond || (later.deviations < -2.0 && later.deviations > -2.5);
    }
    CHECK(within);
    CHECK(beyond);
    CHECK(quick_within);
    CHECK(quick_beyond);
}

namespace {

/// An answer of three tests over 45 um, the third at an hour, held against the fits of it made here; what the cushioning
/// gains, of the scatter.
struct Third {
    double cushioning, gain;
    bool slowing, later;
    explicit Third(double finer, bool foreseen_too = false) {
        const std::vector<Length> classes{micrometres(500), micrometres(250), micrometres(150), micrometres(106), micrometres(75), micrometres(45)};
        const std::vector<SieveRecord> records{early(), late(), at_an_hour(finer)};
        const auto answer = planned(grind_question(records, 45.0, 0.9));
        std::vector<GrindingTest> tests;
        for (const auto& record : records)
            tests.push_back(grinding_test(*record.grinding_time, analyse(record.test)));
        BreakageFitOptions options;
        options.prior = usual_breakage();
        options.resamples = 0;
        const auto straight = fit_breakage(classes, tests, options);
        options.cushioning = usual_cushioning();
        const auto bent = fit_breakage(classes, tests, options);
        cushioning = bent.model.cushioning;
        gain = (straight.misfit - bent.misfit) / (bent.fraction_deviation * bent.fraction_deviation);
        CHECK(answer.cushioning == Approx(cushioning).epsilon(1e-9));
        CHECK(answer.fit->misfit == Approx(bent.misfit).epsilon(1e-9));
        REQUIRE(answer.later.size() == 1);
        CHECK(in_minutes(answer.later[0].time) == Approx(60.0));
        slowing = answer.slowing, later = answer.later[0].slowing;
        CHECK(later == (answer.later[0].deviations > 2.0));
        if (!foreseen_too) return;
        options.resamples = 100;
        const auto foreseen = check_later_test(fit_breakage(classes, std::span(tests).first(2), options), tests[2], 5);
        CHECK(answer.later[0].predicted == Approx(foreseen.predicted).epsilon(1e-9));
        CHECK(answer.later[0].observed == Approx(foreseen.observed).epsilon(1e-9));
        CHECK(answer.later[0].deviations == Approx(foreseen.deviations).epsilon(1e-9));
        CHECK(answer.later[0].slowing == foreseen.slowing);
        CHECK(answer.later[0].faster == foreseen.faster);
    }
};

} // namespace

TEST_CASE("a mortar of several screens slows where cushioning gains more than 2.7 of its scatter", "[reference]") {
    const Third slows(0.45, true);
    CHECK_FALSE(slows.later);
    CHECK(slows.cushioning > 0.0);
    CHECK(slows.gain > 2.7);
    CHECK(slows.gain < 3.3);
    CHECK(slows.slowing);
}

TEST_CASE("a mortar of several screens that gains less than 2.7 does not slow beyond chance", "[reference]") {
    const Third hardly(0.47);
    CHECK_FALSE(hardly.later);
    CHECK(hardly.cushioning > 0.0);
    CHECK(hardly.gain < 2.7);
    CHECK(hardly.gain > 2.2);
    CHECK_FALSE(hardly.slowing);
}

TEST_CASE("a mortar of several screens that grinds the faster the longer does not slow", "[reference]") {
    const Third hastens(0.8);
    CHECK_FALSE(hastens.later);
    CHECK(hastens.cushioning < 0.0);
    CHECK(hastens.gain > 2.7);
    CHECK_FALSE(hastens.slowing);
}

TEST_CASE("rounds by several screens are those of a hundred of the fit's draws", "[reference]") {
    auto asked = grind_question({early(), late()});
    asked.say.emptier_is_faster = LoadExponent::of(0.5); // said: all of them gain as much
    const auto answer = planned(asked);
    const auto& way = answer.ways.front();
    REQUIRE(way.needed);
    const auto load_of = [&](const BreakageModel& model) {
        GrindLoad load;
        load.model = model;
        for (const auto& f : analyse(late().test).fractions)
            load.feed.push_back(f.fraction.value());
        load.limit = 4, load.load_exponent = 0.5;
        return load;
    };
    std::vector<double> counts, left;
    const double first = way.separate_first ? 1.0 : 0.0;
    for (std::size_t i = 0; i < answer.fit->draws.size(); i += 3) {
        const auto load = load_of(drawn_model(*answer.fit, answer.fit->draws[i]));
        const auto run = run_rounds(load, way.separation, way.plan.cycle, {0.01, 60, way.separate_first});
        counts.push_back(run.reached ? static_cast<double>(run.rounds.size()) - first : 1000.0);
        left.push_back(run_rounds(load, way.separation, way.plan.cycle, {1e-300, 2, way.separate_first}).remains);
    }
    REQUIRE(counts.size() == 100);
    std::sort(counts.begin(), counts.end());
    CHECK(way.needed->low == counts[4]);
    CHECK(way.needed->high.value_or(1000) == counts[94]);
    const auto mine = run_rounds(load_of(answer.fit->model), way.separation, way.plan.cycle, {0.01, 60, way.separate_first});
    CHECK(static_cast<double>(grinds_of(way)) == static_cast<double>(mine.rounds.size()) - first);
    REQUIRE(way.stays_after_two);
    const auto range = summarise(left, 0.90).symmetric;
    CHECK(way.stays_after_two->low == Approx(range.low).epsilon(1e-10));
    CHECK(way.stays_after_two->high == Approx(range.high).epsilon(1e-10));
    // The ranges of the answer are those of all the draws.
    std::vector<double> cushioning;
    for (const auto& draw : answer.fit->draws)
        cushioning.push_back(draw.cushioning);
    const auto of_cushioning = summarise(cushioning, 0.90).symmetric;
    CHECK(answer.cushioning_range.value().low == of_cushioning.low);
    CHECK(answer.cushioning_range.value().high == of_cushioning.high);
    const std::pair<BreakageParameter, const CoverageInterval*> parameters[] = {{BreakageParameter::log_rate, &*answer.rate_per_minute},
                                                                               {BreakageParameter::log_exponent, &*answer.selection_exponent},
                                                                               {BreakageParameter::log_gamma, &*answer.breakage_exponent}};
    for (const auto& [which, told] : parameters) {
        const auto interval = parameter_interval(*answer.fit, which, 0.90);
        const double unit = which == BreakageParameter::log_rate ? 60.0 : 1.0;
        CHECK(told->low == Approx(unit * std::exp(interval.low)).epsilon(1e-12));
        CHECK(told->high == Approx(unit * std::exp(interval.high)).epsilon(1e-12));
    }
}

TEST_CASE("fine already at the very residue that is allowed", "[unit]") {
    auto asked = grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.6);
    const double now = planned(asked).residue_now;
    CHECK(now == Approx(4.7 / 20.0).epsilon(1e-12));
    CHECK(planned(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, now)).fine_already);
    CHECK_FALSE(planned(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, now * (1 - 1e-9))).fine_already);
    CHECK(planned(asked).ways.empty());
    CHECK_FALSE(will_not_get_there(planned(asked)));
}

TEST_CASE("a balance wants the same screens and enough of them", "[unit]") {
    const auto why = [](std::vector<SieveRecord> tests, double um = 75.0) { return planned(grind_question(std::move(tests), um, 0.62)).why_one_screen; };
    auto more = late();
    more.test.screens.push_back({micrometres(38), grams(0.5)});
    CHECK(why({early(), more}) == "the tests did not use the same screens");
    CHECK(why({[&] { auto m = more; m.grinding_time = minutes(2), m.test.screens[0].retained = grams(8); return m; }(), late()}) ==
          "the tests did not use the same screens");
    auto coarser = late();
    coarser.test.screens[0].aperture = micrometres(260);
    CHECK(why({early(), coarser}) == "the tests did not use the same screens");
    auto nearly = late();
    nearly.test.screens[2].aperture = micrometres(106 * (1 + 5e-7));
    CHECK(why({early(), nearly}).empty());
    nearly.test.screens[2].aperture = micrometres(106 * (1 + 2e-6));
    CHECK(why({early(), nearly}) == "the tests did not use the same screens");
    CHECK(why({early(), late()}, 75 * (1 + 5e-7)).empty());
    CHECK(why({early(), late()}, 75 * (1 + 2e-6)) == "the target is none of the screens of the tests");
}

TEST_CASE("two tests want four screens for a balance", "[unit]") {
    const auto why = [](std::vector<SieveRecord> tests) { return planned(grind_question(std::move(tests), 75.0, 0.62)).why_one_screen; };
    const auto some = [](double min, std::vector<std::pair<double, double>> kept, double pan) { return ground_test(min, kept, pan); };
    CHECK(why({some(5, {{150, 10}, {106, 3}, {75, 2.3}}, 4.7), some(15, {{150, 5.5}, {106, 3}, {75, 2.8}}, 8.7)}) ==
          "2 sieve tests over 3 screens do not tell rate, selection and breakage apart; two tests need four screens, three need two");
    CHECK(why({some(5, {{250, 5}, {150, 5}, {106, 3}, {75, 2.3}}, 4.7), some(15, {{250, 2.5}, {150, 3}, {106, 3}, {75, 2.8}}, 8.7)}).empty());
}

TEST_CASE("half of the powder is finer than what two screens say, of one nothing is said", "[reference]") {
    const auto one = planned(grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.6));
    CHECK_FALSE(one.rows[0].d50);
    const auto two_screens = [](double min, double a, double b) { return ground_test(min, {{150, a}, {75, b}}, 20.0 - a - b); };
    const auto two = planned(grind_question({two_screens(5, 6, 8), two_screens(15, 2, 9)}, 75.0, 0.6));
    REQUIRE(two.rows[0].d50);
    // By hand: 30 % passes 75 um and 70 % passes 150 um, so half passes the middle in ln size.
    CHECK(in_micrometres(two.rows[0].d50->size) == Approx(75.0 * std::sqrt(2.0)).epsilon(1e-9));
    CHECK(in_micrometres(two.rows[1].d50->size) == Approx(75.0 * std::pow(2.0, 1.0 / 9.0)).epsilon(1e-9)); // 45 and 90 %
}

TEST_CASE("what a test cannot say is told with the test that it lies in", "[errors]") {
    CHECK(told_in_full([] { (void)planned(grind_question({single(5, 9.2), single(15, 0.0)})); }) ==
          "residue over the target screen: 0 % | above 0: a clean screen tells no rate | sieve at an earlier time, or name a finer screen");
    CHECK(told_in_full([] { (void)planned(grind_question({single(5, 9.2), single(15, 0.01)})); }) == "taken");
    try {
        (void)planned(grind_question({single(15, 0.0), single(5, 9.2)}));
        FAIL("taken");
    } catch (const RecordError& error) {
        CHECK(error.part() == RecordPart::retained);
        CHECK(error.record() == 0); // as it was asked
        CHECK_FALSE(error.beside());
    }
    CHECK(told_in_full([] { (void)planned(grind_question({single(5, 9.2), single(15, 4.7)}, 38.0)); }) ==
          "target screen: 38 um | between the coarsest and the finest screen of every test | sieve again with that screen; below 75 um sieve wet");
    try {
        (void)planned(grind_question({single(5, 9.2), single(5, 9.0)})); // twice the same time: the second is at fault
        FAIL("taken");
    } catch (const RecordError& error) {
        CHECK(error.record() == 1);
        CHECK(error.beside() == std::size_t{0});
    }
    auto timeless = single(15, 4.7);
    timeless.grinding_time.reset();
    CHECK(told_in_full([&] { (void)planned(grind_question({single(5, 9.2), timeless})); }) == "grinding time of 'After 15 min': unknown | known for every test | ");
}

TEST_CASE("a little that was lost counts, and a gain of the scale does not", "[reference]") {
    auto asked = grind_question({single(5, 9.2), single(15, 4.7)}, 75.0, 0.6);
    asked.tests[0].test.charge = grams(20.01), asked.tests[1].test.charge = grams(20.008);
    CHECK(planned(asked).loss.by == GivenBy::sieve_tests);
    CHECK(planned(asked).loss.value.value() == Approx(0.5 * (0.01 / 20.01 + 0.008 / 20.008)).epsilon(1e-9));
    asked.tests[1].test.charge = grams(19.99); // more than was put in
    CHECK(planned(asked).loss.value.value() == Approx(0.01 / 20.01).epsilon(1e-9));
    asked.tests[0].test.charge = grams(20.0);
    CHECK(planned(asked).loss.by == GivenBy::shelf);
}

TEST_CASE("what an answer holds until it is filled", "[unit]") {
    CHECK(WeighedStay{}.rounds == 1);
    CHECK(RoundsNeeded{}.low == 1);
    CHECK_FALSE(RoundsNeeded{}.high);
    CHECK(GrindAnswer{}.model == GrindModel::one_screen);
    CHECK(far_forecast == 3.0);
}
