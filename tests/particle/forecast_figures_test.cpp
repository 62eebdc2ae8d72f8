// What fits foretell, each figure held against the same reckoned by hand from fits that are written down here.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/particle/first_order_grinding.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {

/// Four classes; the coarsest only loses, so that above the first limit stands feed[0] exp(-a t).
BreakageFit fit_of(const std::vector<double>& rates_per_minute) {
    BreakageFit fit;
    fit.model = {{micrometres(425), micrometres(150), micrometres(75), micrometres(45)}, {per_minute(0.1), 0.8}, {1.0, 0.9, 5.8}};
    fit.feed = {0.5, 0.2, 0.2, 0.1};
    fit.start = minutes(5);
    fit.fraction_deviation = 0.02;
    for (const double rate : rates_per_minute)
        fit.draws.push_back({std::log(rate / 60.0), std::log(0.8), std::log(0.9), 0.0, fit.feed});
    return fit;
}

/// 0.05 to 0.24 per minute.
std::vector<double> twenty_rates() {
    std::vector<double> rates;
    for (int i = 0; i < 20; ++i)
        rates.push_back(0.05 + 0.01 * i);
    return rates;
}

} // namespace

TEST_CASE("a foreseen time and its interval are ranks among the times of the draws", "[reference]") {
    const auto rates = twenty_rates();
    const BreakageFit fit = fit_of(rates);
    // By hand: from 0.5 to 0.05 takes ln 10 / a; the fastest draw is the last.
    const auto time_of = [&](std::size_t rank) { return 5.0 + std::log(10.0) / rates[rates.size() - rank]; };
    const auto nine_in_ten = predicted_time(fit, 1, 0.05, 0.90);
    CHECK(in_minutes(nine_in_ten.time) == Approx(5.0 + std::log(10.0) / 0.1).epsilon(1e-9));
    CHECK(in_minutes(nine_in_ten.low) == Approx(time_of(1)).epsilon(1e-9)); // 5 % of 20
    CHECK(in_minutes(nine_in_ten.high.value()) == Approx(time_of(19)).epsilon(1e-9));
    const auto half = predicted_time(fit, 1, 0.05, 0.50);
    CHECK(in_minutes(half.low) == Approx(time_of(5)).epsilon(1e-9));
    CHECK(in_minutes(half.high.value()) == Approx(time_of(15)).epsilon(1e-9));
    const auto near_all = predicted_time(fit, 1, 0.05, 0.999);
    CHECK(in_minutes(near_all.low) == Approx(time_of(1)).epsilon(1e-9));
    CHECK(in_minutes(near_all.high.value()) == Approx(time_of(20)).epsilon(1e-9));
    // Three draws need more than 30 min: they count as later than any.
    const auto some_never = predicted_time(fit, 1, 0.05, 0.50, minutes(std::log(10.0) / 0.075));
    CHECK(in_minutes(some_never.high.value()) == Approx(time_of(15)).epsilon(1e-9));
    CHECK_FALSE(predicted_time(fit, 1, 0.05, 0.90, minutes(std::log(10.0) / 0.075)).high);
}

TEST_CASE("a foreseen residue is spread as its draws are", "[reference]") {
    const auto rates = twenty_rates();
    const BreakageFit fit = fit_of(rates);
    std::vector<double> left;
    double mean = 0.0, squares = 0.0;
    for (const double rate : rates)
        left.push_back(0.5 * std::exp(-rate * 10.0)), mean += left.back() / 20.0;
    for (const double x : left)
        squares += (x - mean) * (x - mean);
    const auto foreseen = predicted_residue(fit, 1, minutes(15), 0.90);
    CHECK(foreseen.residue == Approx(0.5 * std::exp(-1.0)).epsilon(1e-10));
    CHECK(foreseen.standard_deviation == Approx(std::sqrt(squares / 19.0)).epsilon(1e-9));
    // 18 steps of 20 ordered values: from the 2nd to the 20th, or the 1st to the 19th.
    CHECK(foreseen.interval.low < 0.5 * std::exp(-2.2));
    CHECK(foreseen.interval.high > 0.5 * std::exp(-0.7));
}

TEST_CASE("a later test's own error is that of a sum of classes, each divided by all", "[reference]") {
    // Twenty draws alike: nothing but the test's own error is left.
    const BreakageFit sure = fit_of(std::vector<double>(20, 0.1));
    const double expected = 0.5 * std::exp(-1.0); // 0.18394
    struct Row {
        std::size_t limit;
        std::vector<double> fractions;
        double observed, deviation; // of a class 0.02; n1 above, n2 below: sqrt(n1 (1-R)^2 + n2 R^2)
    };
    const Row one{1, {0.25, 0.25, 0.25, 0.25}, 0.25, 0.02 * std::sqrt(1 * 0.75 * 0.75 + 3 * 0.25 * 0.25)};
    const auto first = check_later_test(sure, {minutes(15), one.fractions}, one.limit);
    CHECK(first.predicted == Approx(expected).epsilon(1e-10));
    CHECK(first.observed == Approx(one.observed).epsilon(1e-14));
    CHECK(first.deviations == Approx((one.observed - expected) / one.deviation).epsilon(1e-9));
    CHECK(first.slowing);
    CHECK_FALSE(first.faster);
    // Three classes above, one below, R = 0.5 of which far more was foreseen.
    const auto third = check_later_test(sure, {minutes(15), {0.1, 0.2, 0.2, 0.5}}, 3);
    const double own = 0.02 * std::sqrt(3 * 0.5 * 0.5 + 1 * 0.5 * 0.5);
    CHECK(third.deviations == Approx((0.5 - third.predicted) / own).epsilon(1e-9));
    CHECK(third.faster);
    CHECK_FALSE(third.slowing);
    // With draws that differ the two errors add as squares.
    const BreakageFit unsure = fit_of(twenty_rates());
    const double spread = predicted_residue(unsure, 1, minutes(15)).standard_deviation;
    const auto both = check_later_test(unsure, {minutes(15), one.fractions}, 1);
    CHECK(both.deviations == Approx((0.25 - expected) / std::hypot(one.deviation, spread)).epsilon(1e-9));
    CHECK_FALSE(both.slowing);
}

TEST_CASE("an alarm rings beyond two deviations on either side, not within", "[unit]") {
    const BreakageFit sure = fit_of(std::vector<double>(20, 0.1));
    const double expected = 0.5 * std::exp(-1.0);
    const auto at = [&](double R) {
        return check_later_test(sure, {minutes(15), {R, 0.5 * (1 - R), 0.3 * (1 - R), 0.2 * (1 - R)}}, 1);
    };
    const auto own = [](double R) { return 0.02 * std::sqrt((1 - R) * (1 - R) + 3 * R * R); };
    for (const double k : {-2.1, -1.9, 1.9, 2.1}) {
        double R = expected;
        for (int i = 0; i < 50; ++i)
            R = expected + k * own(R);
        const auto later = at(R);
        CHECK(later.deviations == Approx(k).epsilon(1e-6));
        CHECK(later.slowing == (k > 2.0));
        CHECK(later.faster == (k < -2.0));
    }
}

TEST_CASE("a fit may begin with powder that was not ground", "[unit]") {
    BreakageFit fit = fit_of(std::vector<double>(20, 0.1));
    std::vector<GrindingTest> tests;
    for (const double t : {0.0, 10.0, 25.0}) {
        auto w = fit.feed;
        PopulationBalance(fit.model).grind(w, minutes(t));
        tests.push_back({minutes(t), w});
    }
    BreakageFitOptions options;
    options.resamples = 0;
    const auto found = fit_breakage(fit.model.class_sizes, tests, options);
    CHECK(in_minutes(found.start) == Approx(0.0).margin(1e-12));
    CHECK(in_per_minute(found.model.selection.top) == Approx(0.1).epsilon(1e-5));
    tests[0].time = minutes(-1);
    CHECK(told([&] { (void)fit_breakage(fit.model.class_sizes, tests, options); }) == "grinding time: -1 min");
}

TEST_CASE("the interval of a one-screen time holds the times at which the line may have got there", "[reference]") {
    // Fieller by a plain search: t belongs to the interval where (c - k t)^2 <= z^2 (v0 - 2 v01 t + v1 t^2).
    const double z = 1.6448536269514722; // normal tables: 1.645
    struct Row {
        double log_residue, rate, v0, v1, v01;
    };
    for (const Row& row : {Row{-0.5, 0.10, 0.01, 1e-4, 5e-4}, Row{-0.5, 0.10, 0.04, 4e-4, 3e-3}, Row{-2.9, 0.05, 0.01, 2e-5, 1e-4},
                           Row{-2.5, 0.20, 0.16, 1e-4, 1e-3}}) {
        FirstOrderLaw law;
        law.log_initial_residue = row.log_residue;
        law.rate = per_minute(row.rate);
        law.covariance = FirstOrderLaw::Covariance{row.v0, row.v1 / 3600.0, row.v01 / 60.0};
        const double c = row.log_residue - std::log(0.05);
        const auto inside = [&](double t) {
            const double miss = c - row.rate * t;
            return miss * miss <= z * z * (row.v0 - 2.0 * row.v01 * t + row.v1 * t * t);
        };
        double low = -1.0, high = -1.0;
        for (double t = 0.0; t < 300.0; t += 0.001)
            if (inside(t)) low = low < 0.0 ? t : low, high = t;
        const auto found = time_interval(law, 0.05, 0.90);
        CHECK(in_minutes(found.low) == Approx(low).margin(0.0011));
        REQUIRE(found.high);
        CHECK(in_minutes(*found.high) == Approx(high).margin(0.0011));
    }
    // The readings alone may have it done already: time does not run backward.
    FirstOrderLaw done;
    done.log_initial_residue = std::log(0.06);
    done.rate = per_minute(0.1);
    done.covariance = FirstOrderLaw::Covariance{0.09, 1e-4 / 3600.0, 0.0};
    CHECK(in_seconds(time_interval(done, 0.05, 0.90).low) == 0.0);
}

TEST_CASE("sets that are drawn spread as the stated doubt of the fractions has it", "[identity]") {
    // 400 sets: their standard deviation is known to 3.5 %; the covariance of the fit says the same to first order.
    const BreakageFit truth = fit_of({});
    std::vector<GrindingTest> tests;
    for (const double t : {2.0, 8.0, 20.0}) {
        auto w = truth.feed;
        PopulationBalance(truth.model).grind(w, minutes(t));
        tests.push_back({minutes(t), w});
    }
    BreakageFitOptions options;
    options.prior = BreakagePrior{std::log(0.8), 0.3, std::log(0.9), 0.3, 0.01, 2.0};
    options.fraction_uncertainty = 0.002;
    options.resamples = 400;
    const auto fit = fit_breakage(truth.model.class_sizes, tests, options);
    CHECK(fit.deviation_stated);
    CHECK(fit.fraction_deviation == 0.002);
    std::vector<double> rates;
    for (const auto& draw : fit.draws)
        rates.push_back(draw.log_rate);
    CHECK(sample_standard_deviation(rates) == Approx(std::sqrt(fit.covariance[0])).epsilon(0.12));
    // An interval lies evenly about its parameter, in the logarithm.
    const std::pair<BreakageParameter, double> parameters[] = {{BreakageParameter::log_rate, std::log(fit.model.selection.top.value())},
                                                               {BreakageParameter::log_exponent, std::log(fit.model.selection.exponent)},
                                                               {BreakageParameter::log_gamma, std::log(fit.model.breakage.gamma)}};
    for (const auto& [which, value] : parameters) {
        const auto interval = parameter_interval(fit, which, 0.9);
        CHECK(0.5 * (interval.low + interval.high) == Approx(value).epsilon(1e-9));
        CHECK(interval.low < value);
    }
    // Degrees of freedom, by hand: of four classes three are free in each of three tests, less the feed's three and the
    // three parameters: 3 * 3 - 3 - 3.
    BreakageFitOptions alone;
    alone.resamples = 0;
    CHECK(fit_breakage(truth.model.class_sizes, tests, alone).degrees_of_freedom == Approx(3.0));
    // All of a charge may lie in one class at first.
    tests[0] = {minutes(0), {1.0, 0.0, 0.0, 0.0}};
    for (std::size_t k = 1; k < 3; ++k) {
        std::vector<double> w{1.0, 0.0, 0.0, 0.0};
        PopulationBalance(truth.model).grind(w, tests[k].time);
        tests[k].fractions = w;
    }
    CHECK(told([&] { (void)fit_breakage(truth.model.class_sizes, tests, alone); }) == "taken");
}
