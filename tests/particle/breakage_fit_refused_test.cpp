// What a fit of a mortar refuses, in whole sentences and at the very limits; what its forecasts refuse likewise.

#include "lakebound/particle/breakage_fit.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "support/mortar_of_six_screens.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

using Fractions = std::vector<double>;

/// Two tests by the clock of a mortar, at these minutes.
std::vector<GrindingTest> two_tests(double first = 3.0, double second = 15.0) {
    std::vector<GrindingTest> tests;
    for (const double t : {first, second}) {
        Fractions w = powder;
        PopulationBalance({classes(), {per_minute(0.09), 0.8}, {}}).grind(w, minutes(t));
        tests.push_back({minutes(t), w});
    }
    return tests;
}

std::string fitted(const std::vector<GrindingTest>& tests, BreakageFitOptions options = {}) {
    options.resamples = 0;
    return told_in_full([&] { (void)fit_breakage(classes(), tests, options); });
}

/// The same over two residues that are said class by class: what a first look at them refuses.
std::string looked_at(const Fractions& first, const Fractions& second) { return fitted({{minutes(3), first}, {minutes(15), second}}); }

const std::string not_falling = "residue of the later sieve test: not below the earlier | falling with grinding time | check which test is which";

/// A fit without a fit: four classes, known draws.
BreakageFit said_fit(double start_minutes, const std::vector<double>& rates_per_minute) {
    BreakageFit fit;
    fit.model = {{micrometres(425), micrometres(150), micrometres(75), micrometres(45)}, {per_minute(0.1), 0.8}, {}};
    fit.feed = {0.5, 0.2, 0.2, 0.1};
    fit.start = minutes(start_minutes);
    fit.fraction_deviation = 0.02;
    for (const double rate : rates_per_minute)
        fit.draws.push_back({std::log(rate / 60.0), std::log(0.8), std::log(0.9), 0.0, fit.feed});
    return fit;
}

} // namespace

TEST_CASE("sieve tests that are no tests of grinding are refused in whole sentences", "[errors]") {
    const auto good = two_tests();
    CHECK(fitted(good) == "taken");
    CHECK(fitted({good[0]}) == "sieve tests of the grinding: one sieve test tells no rate: grind on for a known time and sieve again | "
                               "enough for a population balance | or use the one-screen law");
    const auto apart = [&](double relative) {
        auto tests = good;
        tests[1].time = tests[0].time * (1.0 + relative);
        return fitted(tests);
    };
    const std::string same_time = "time of a second sieve test: 3 min | different from the other tests | ";
    CHECK(apart(0.0) == same_time);
    CHECK(apart(5e-10).find("time of a second sieve test: 3") == 0);
    CHECK(apart(1e-8).find("time of a second sieve test") == std::string::npos);
    CHECK(apart(1e-6).find("time of a second sieve test") == std::string::npos);
    auto at_once = good;
    at_once[0].time = at_once[1].time = Time{};
    CHECK(fitted(at_once) == "time of a second sieve test: 0 min | different from the other tests | ");
    // At two hours a ten thousandth of a second is a difference, at a ten thousandth of a second nothing less is.
    auto late = two_tests(120, 240);
    late[1].time = late[0].time + seconds(5e-6);
    CHECK(fitted(late).find("time of a second sieve test: 120") == 0);
    auto instant = good;
    instant[0].time = seconds(1e-4), instant[1].time = seconds(2e-4);
    CHECK(fitted(instant) == "taken");
    auto before = good;
    before[0].time = minutes(-1);
    CHECK(fitted(before) == "grinding time: -1 min | 0 or more | ");
    before[0].time = Time{};
    CHECK(fitted(before) == "taken");
    auto fewer = good;
    fewer[1].fractions.pop_back();
    CHECK(fitted(fewer) == "classes of a sieve test: 5 | 6, the same screens in every test | ");
    // A millionth is left to rounding, in a sum; a class holds neither less than nothing nor more than all.
    CHECK(looked_at({1 + 5e-7, 0, 0, 0, 0, 0}, good[1].fractions) == "class fraction: 1.0000005 | 0 to 1 | ");
    CHECK(looked_at({1 - 5e-7, 5e-7, 0, 0, 0, 0}, good[1].fractions) != "class fraction: 0.9999995 | 0 to 1 | ");
    CHECK(looked_at({1, -5e-7, 0, 0, 0, 0}, good[1].fractions) == "class fraction: -5e-07 | 0 to 1 | ");
    CHECK(looked_at({1, 0, 0, 0, 0, 0}, {0.4, 0.2, 0.2, 0.1, 0.06, 0.04}).find("class fraction") == std::string::npos);
    CHECK(looked_at({0.5, 0.4, 0, 0, 0, 0}, good[1].fractions).find("sum of the class fractions: 0.9") == 0);
}

TEST_CASE("a powder that has not grown finer where it is looked at first is refused", "[errors]") {
    // Looked at: the coarsest limit with a fifth of the powder above it, or the finest limit of all.
    CHECK(looked_at({.22, .30, .20, .12, .10, .06}, {.22, .20, .20, .14, .14, .10}) == not_falling); // 22 % and 22 %
    CHECK(looked_at({.20, .32, .20, .12, .10, .06}, {.21, .20, .20, .14, .14, .11}) == not_falling); // 20 % and 21 %
    CHECK(looked_at({.19, .33, .20, .12, .10, .06}, {.19, .20, .20, .15, .15, .11}) != not_falling); // 52 % and 39 %
    CHECK(looked_at({.22, .30, .20, .12, .10, .06}, {.2199, .20, .20, .14, .14, .1001}) != not_falling);
    // Fine powder: 15 % over the finest limit is less than a fifth, and looked at all the same.
    CHECK(looked_at({.05, .03, .03, .02, .02, .85}, {.03, .03, .02, .02, .01, .89}) != not_falling);
    CHECK(looked_at({.05, .03, .03, .02, .02, .85}, {.03, .03, .03, .03, .03, .85}) == not_falling);
    CHECK(looked_at({.05, .03, .03, .02, .02, .85}, {.05, .03, .03, .02, .01, .86}) != not_falling); // only there
    CHECK(looked_at({.05, .03, .03, .02, .02, .85}, {.02, .03, .03, .02, .05, .85}) == not_falling);
    CHECK(looked_at({0, 0, 0, 0, 4e-4, 0.9996}, {0, 0, 0, 0, 1e-4, 0.9999}) != not_falling);
    CHECK(looked_at({0, 0, 0, 0, 0, 1}, {0, 0, 0, 0, 0, 1}) == not_falling);
    CHECK(looked_at({0, 0, 0, 0, 0, 1}, {0, 0, 0, 0, 0.1, 0.9}) == not_falling);
    CHECK(looked_at({.45, .22, .12, .09, .07, .05}, {.45, .22, .12, .09, .07, .05}) == not_falling);
}

TEST_CASE("a fit is asked with what belongs together", "[errors]") {
    const auto good = two_tests();
    BreakageFitOptions options;
    options.cushioning = CushioningPrior{0.5, 2.6};
    CHECK(fitted(good, options) == "prior of the cushioning: given alone | with a prior of the exponents | two tests cannot tell them apart");
    options.prior = BreakagePrior{std::log(0.9), 0.33, std::log(0.9), 0.33, 0.01, 2.0};
    CHECK(fitted(good, options) == "taken");
    for (const double u : {0.0, -0.01}) {
        options.fraction_uncertainty = u;
        CHECK(fitted(good, options).find("standard deviation of a class fraction: ") == 0);
    }
    CHECK(fitted(good, options) == "standard deviation of a class fraction: -0.01 | above 0 | ");
    options.fraction_uncertainty = 4e-4;
    CHECK(fitted(good, options) == "taken");
    // What stands in the way of a balance, in one sentence.
    CHECK(obstacle_to_breakage_fit(6, 0) == "one sieve test tells no rate: grind on for a known time and sieve again");
    CHECK(obstacle_to_breakage_fit(6, 1) == obstacle_to_breakage_fit(6, 0));
    CHECK(obstacle_to_breakage_fit(1, 9) == "the sieve tests name no screen");
    CHECK(obstacle_to_breakage_fit(2, 4) ==
          "4 sieve tests over 1 screen do not tell rate, selection and breakage apart; two tests need four screens, three need two");
    CHECK(obstacle_to_breakage_fit(2, 5).empty());
    CHECK(obstacle_to_breakage_fit(3, 2) ==
          "2 sieve tests over 2 screens do not tell rate, selection and breakage apart; two tests need four screens, three need two");
    CHECK(obstacle_to_breakage_fit(3, 3).empty());
    CHECK(obstacle_to_breakage_fit(4, 2).find("2 sieve tests over 3 screens do not") == 0);
    CHECK(obstacle_to_breakage_fit(5, 2).empty());
}

TEST_CASE("the classes of a sieve test, from the largest grain to its finest screen", "[unit][errors]") {
    SieveTest test;
    test.screens = {{micrometres(150), grams(5)}, {micrometres(75), grams(4)}};
    test.pan = grams(1);
    const auto two = analyse(test);
    CHECK(told_in_full([&] { (void)grinding_classes(two, micrometres(150)); }) ==
          "largest grain: 150 um | coarser than the coarsest screen, 150 um | give the size of the largest grain that you see, or leave it out");
    CHECK(told_in_full([&] { (void)grinding_classes(two, micrometres(150.001)); }) == "taken");
    test.screens.pop_back();
    const auto one = analyse(test);
    CHECK(told_in_full([&] { (void)grinding_classes(one, micrometres(149)); }).find("largest grain: 149 um | coarser than the coarsest screen, 150 um") == 0);
    CHECK(grinding_classes(one, micrometres(151)).size() == 2);
    CHECK(grinding_classes(SieveAnalysis{}, micrometres(151)).size() == 1); // nothing but a grain
    const auto read = grinding_test(minutes(7), two);
    CHECK(in_minutes(read.time) == Approx(7.0));
    REQUIRE(read.fractions.size() == 3);
    CHECK(read.fractions[0] == Approx(0.5));
    CHECK(read.fractions[1] == Approx(0.4));
    CHECK(read.fractions[2] == Approx(0.1));
}

TEST_CASE("a forecast begins with the first test, which may be at once", "[errors]") {
    for (const double start : {0.0, 5.0}) {
        const auto fit = said_fit(start, std::vector<double>(20, 0.1));
        const auto now = predicted_fractions(fit, minutes(start));
        for (std::size_t i = 0; i < 4; ++i)
            CHECK(now[i] == Approx(fit.feed[i]).epsilon(1e-13));
        CHECK(predicted_residue(fit, 1, minutes(start)).residue == Approx(0.5).epsilon(1e-13));
        CHECK(predicted_fractions(fit, minutes(start + 10))[0] == Approx(0.5 * std::exp(-1.0)).epsilon(1e-12));
        CHECK(told_in_full([&] { (void)predicted_fractions(fit, minutes(-1)); }) == "grinding time: -1 min | at or after the first sieve test | ");
        CHECK(told_in_full([&] { (void)predicted_residue(fit, 1, minutes(-1)); }) == "grinding time: -1 min | at or after the first sieve test | ");
    }
    const auto fit = said_fit(5.0, std::vector<double>(20, 0.1));
    CHECK(told_in_full([&] { (void)predicted_fractions(fit, minutes(5.0 * (1.0 - 1e-13))); }) == "taken"); // the last digit of a clock
    CHECK(told_in_full([&] { (void)predicted_fractions(fit, minutes(5.0 * (1.0 - 1e-9))); }) != "taken");
}

TEST_CASE("an interval wants twenty draws", "[errors]") {
    const auto few = said_fit(5.0, std::vector<double>(19, 0.1)), enough = said_fit(5.0, std::vector<double>(20, 0.1));
    const std::string refused = "bootstrap draws: 19 | 20 at least for an interval | fit with resamples";
    CHECK(told_in_full([&] { (void)predicted_residue(few, 1, minutes(9)); }) == refused);
    CHECK(told_in_full([&] { (void)predicted_time(few, 1, 0.1); }) == refused);
    CHECK(told_in_full([&] { (void)check_later_test(few, {minutes(9), {.25, .25, .25, .25}}, 1); }) == refused);
    CHECK(told_in_full([&] { (void)predicted_residue(enough, 1, minutes(9)); }) == "taken");
    CHECK(told_in_full([&] { (void)predicted_time(enough, 1, 0.1); }) == "taken");
    CHECK(told_in_full([&] { (void)check_later_test(enough, {minutes(9), {.5, .5}}, 1); }) ==
          "classes of the later sieve test: 2 | 4, the same screens as before | ");
    for (const double coverage : {5e-4, 0.9999})
        CHECK(told_in_full([&] { (void)predicted_time(enough, 1, 0.1, coverage); }) == "taken");
    CHECK(told_in_full([&] { (void)predicted_time(enough, 1, 0.1, 1.0); }) == "coverage: 1 | above 0 and below 1 | ");
    CHECK(told_in_full([&] { (void)predicted_time(enough, 1, 0.1, 0.0); }) == "coverage: 0 | above 0 and below 1 | ");
    // In a thousand hours, and 9 in 10, unless told otherwise: ln 10 / a hours.
    const auto slow = said_fit(0.0, std::vector<double>(20, std::log(10.0) / 60.0 / 999.0));
    CHECK(in_hours(predicted_time(slow, 1, 0.05).high.value()) == Approx(999.0).epsilon(1e-9));
    CHECK_FALSE(predicted_time(said_fit(0.0, std::vector<double>(20, std::log(10.0) / 60.0 / 1001.0)), 1, 0.05).high);
}

TEST_CASE("the interval of a time ends where draws that never get there begin", "[reference]") {
    // Of 20 draws 9 in 10 ends at the 19th: with one that does not get there the 19th still does, with two it does not.
    for (const std::size_t never : {0u, 1u, 2u, 20u}) {
        std::vector<double> rates;
        for (std::size_t i = 0; i < 20; ++i)
            rates.push_back(i + never < 20 ? 0.2 - 0.002 * static_cast<double>(i) : 0.001);
        const auto time = predicted_time(said_fit(5.0, rates), 1, 0.05, 0.90, minutes(60));
        CHECK(time.high.has_value() == (never < 2));
        if (time.high) CHECK(in_minutes(*time.high) == Approx(5.0 + std::log(10.0) / 0.164).epsilon(1e-9));
        // The first of them all; where none gets there the fit's own time is the least that is known.
        CHECK(in_minutes(time.low) == Approx(5.0 + std::log(10.0) / (never < 20 ? 0.2 : 0.1)).epsilon(1e-9));
        CHECK(in_minutes(time.time) == Approx(5.0 + std::log(10.0) / 0.1).epsilon(1e-9));
    }
    const auto usual = said_fit(5.0, {0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16, 0.17, 0.18, 0.19, 0.20, 0.21, 0.22, 0.23, 0.24, 0.25, 0.26, 0.27, 0.28, 0.29,
                                      0.30, 0.31, 0.32, 0.33, 0.34, 0.35, 0.36, 0.37, 0.38, 0.39});
    CHECK(in_minutes(predicted_time(usual, 1, 0.05).high.value()) == in_minutes(predicted_time(usual, 1, 0.05, 0.90).high.value()));
    CHECK(predicted_residue(usual, 1, minutes(9)).interval.low == predicted_residue(usual, 1, minutes(9), 0.90).interval.low);
}

TEST_CASE("a later test without any doubt is off by nothing, with a little by much", "[unit]") {
    auto fit = said_fit(5.0, std::vector<double>(20, 0.1));
    fit.fraction_deviation = 0.0; // at the first test the draws all say what the fit says
    const auto sure = check_later_test(fit, {minutes(5), {0.3, 0.3, 0.2, 0.2}}, 1);
    CHECK(sure.deviations == 0.0);
    CHECK_FALSE(sure.slowing);
    CHECK_FALSE(sure.faster);
    fit.fraction_deviation = 1e-5;
    const auto nearly = check_later_test(fit, {minutes(15), {0.3, 0.3, 0.2, 0.2}}, 1);
    // By hand: 0.3 seen, 0.5 / e foreseen, u = 1e-5 sqrt(0.7^2 + 3 x 0.3^2).
    CHECK(nearly.deviations == Approx((0.3 - 0.5 * std::exp(-1.0)) / (1e-5 * std::sqrt(0.49 + 0.27))).epsilon(1e-6));
    CHECK(nearly.slowing);
}

TEST_CASE("a draw stands for a mortar of its own, on classes of the fit", "[unit]") {
    auto fit = said_fit(5.0, {});
    fit.model.breakage.phi = 0.6, fit.model.breakage.beta = 4.0;
    const auto model = drawn_model(fit, {std::log(0.002), std::log(1.3), std::log(0.7), 0.4, {}});
    CHECK(model.selection.top.value() == Approx(0.002).epsilon(1e-12));
    CHECK(model.selection.exponent == Approx(1.3).epsilon(1e-12));
    CHECK(model.breakage.gamma == Approx(0.7).epsilon(1e-12));
    CHECK(model.cushioning == 0.4);
    CHECK(model.breakage.phi == 0.6);
    CHECK(model.breakage.beta == 4.0);
    CHECK(model.class_sizes == fit.model.class_sizes);
}
