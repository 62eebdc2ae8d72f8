#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/estimate/lognormal_update.hpp"
#include "lakebound/estimate/threshold_update.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("two rub-outs against the library prior", "[reference]") {
    // Check vector T23: prior (65, .30), readings 78 and 74 with .08 each: 75.57, sd .05559, tol 1e-4.
    const auto b = updated({65, 0.30}, std::vector{78.0, 74.0}, 0.08);
    CHECK(b.median == Approx(75.57).epsilon(1e-4));
    CHECK(b.log_standard_deviation == Approx(0.05559).epsilon(1e-4));
    // 90 % between 69 and 83, printed to whole grams.
    CHECK(b.quantile(0.05) == Approx(69).margin(0.5).epsilon(0));
    CHECK(b.quantile(0.95) == Approx(83).margin(0.5).epsilon(0));
}

TEST_CASE("four batches of weld lake", "[reference]") {
    // Between batches .15, reading .06: centre 73.9 (sd .078), next batch sd .169, 90 % 56 to 98;
    // printed to those digits.
    const auto b = learned_from_batches({65, 0.30}, std::vector{72.0, 81.0, 69.0, 77.0}, 0.15, 0.06);
    CHECK(b.centre.median == Approx(73.9).margin(0.05).epsilon(0));
    CHECK(b.centre.log_standard_deviation == Approx(0.078).margin(5e-4).epsilon(0));
    CHECK(b.next_batch.log_standard_deviation == Approx(0.169).margin(5e-4).epsilon(0));
    CHECK(b.next_batch.median == b.centre.median);
    CHECK(b.next_batch.quantile(0.05) == Approx(56).margin(0.5).epsilon(0));
    CHECK(b.next_batch.quantile(0.95) == Approx(98).margin(0.5).epsilon(0));
}

TEST_CASE("learning has no order and no favourites", "[identity]") {
    const LognormalBelief prior{65, 0.3};
    const auto together = updated(prior, std::vector{78.0, 60.0, 74.0}, 0.08);
    const auto in_turn = updated(updated(prior, std::vector{74.0}, 0.08), std::vector{78.0, 60.0}, 0.08);
    CHECK(in_turn.median == Approx(together.median).epsilon(1e-14));
    CHECK(in_turn.log_standard_deviation == Approx(together.log_standard_deviation).epsilon(1e-14));
    // A wide prior leaves the geometric mean of the readings; another unit changes nothing else.
    CHECK(updated({65, 1e6}, std::vector{50.0, 98.0}, 0.1).median == Approx(70).epsilon(1e-9));
    const auto fraction = updated({0.65, 0.3}, std::vector{0.78, 0.60, 0.74}, 0.08);
    CHECK(100 * fraction.median == Approx(together.median).epsilon(1e-13));
    CHECK(updated(prior, {}, 0.1).median == Approx(65).epsilon(1e-15));
    CHECK(updated({65, 0}, std::vector{80.0}, 0.1).median == 65);
    const std::vector one{80.0};
    CHECK(learned_from_batches(prior, one, 0, 0.1).centre.median == Approx(updated(prior, one, 0.1).median));
}

TEST_CASE("what four swatches say about the threshold of k", "[reference]") {
    // Check vector T28: prior N(0, .12), width .06; k 1.57 and 1.30 bound, 1.14 and .90 chalked:
    // mean .1132, sd .0791, tol 2e-3; chance of chalking printed to two digits.
    const std::vector<ThresholdTrial> trials{
        {std::log(1.57), false}, {std::log(1.30), false}, {std::log(1.14), true}, {std::log(0.90), true}};
    const auto b = updated(ThresholdPrior{}, trials);
    CHECK(b.mean() == Approx(0.1132).epsilon(2e-3));
    CHECK(b.standard_deviation() == Approx(0.0791).epsilon(2e-3));
    const ThresholdBelief prior{ThresholdPrior{}};
    const double k[] = {1.2, 1.3, 1.4, 1.5};
    const double after[] = {0.30, 0.13, 0.047, 0.016}, before[] = {0.13, 0.05, 0.02, 0.007};
    const double half_digit[] = {0.005, 0.005, 0.0005, 0.0005}, half_before[] = {0.005, 0.005, 0.005, 0.0005};
    for (int i = 0; i < 4; ++i) {
        INFO("k " << k[i]);
        CHECK(b.failure_probability(std::log(k[i])) == Approx(after[i]).margin(half_digit[i]).epsilon(0));
        CHECK(prior.failure_probability(std::log(k[i])) == Approx(before[i]).margin(half_before[i]).epsilon(0));
    }
    // The critical k: 1.12, "90 % from .98 to 1.28", which is mean +- 1.645 sd. The posterior is skewed:
    // its own 5th and 95th centiles, from an independent grid of 20001 points in NumPy, are .98077 and
    // 1.27215; this grid is ten times coarser.
    CHECK(std::exp(b.quantile(0.5)) == Approx(1.12).margin(0.005).epsilon(0));
    CHECK(std::exp(b.mean() - 1.645 * b.standard_deviation()) == Approx(0.98).margin(0.005).epsilon(0));
    CHECK(std::exp(b.mean() + 1.645 * b.standard_deviation()) == Approx(1.28).margin(0.005).epsilon(0));
    CHECK(std::exp(b.quantile(0.05)) == Approx(0.98077).epsilon(2e-4));
    CHECK(std::exp(b.quantile(0.95)) == Approx(1.27215).epsilon(2e-4));
}

TEST_CASE("what a ladder of swatches is worth", "[reference]") {
    // Theory of k, computed there from a prior of .15: one swatch .113; four at .9/1.1/1.3/1.5 .092;
    // four at .9/1.0/1.1/1.2 .081; six at .8 to 1.3 .073. Printed to .001.
    const ThresholdBelief prior{{0.0, 0.15, 0.06}};
    const auto worth = [&](std::vector<double> ks) {
        for (double& k : ks)
            k = std::log(k);
        return prior.expected_standard_deviation(ks);
    };
    CHECK(worth({}) == Approx(0.15).epsilon(1e-6));
    CHECK(worth({1.0}) == Approx(0.113).margin(1.5e-3).epsilon(0));
    CHECK(worth({0.9, 1.1, 1.3, 1.5}) == Approx(0.092).margin(1.5e-3).epsilon(0));
    CHECK(worth({0.9, 1.0, 1.1, 1.2}) == Approx(0.081).margin(1.5e-3).epsilon(0));
    CHECK(worth({0.8, 0.9, 1.0, 1.1, 1.2, 1.3}) == Approx(0.073).margin(1.5e-3).epsilon(0));
}

TEST_CASE("more trials never widen what is expected; a higher k never chalks more", "[identity]") {
    const ThresholdBelief b{{0.0, 0.15, 0.06}};
    double last = 1;
    for (double x = -0.5; x < 0.6; x += 0.05) {
        CHECK(b.failure_probability(x) < last);
        last = b.failure_probability(x);
        CHECK(b.expected_standard_deviation(std::vector{x}) < b.standard_deviation() + 1e-12);
    }
    CHECK(b.failure_probability(0) == Approx(0.5).epsilon(1e-12)); // by symmetry
    CHECK(b.quantile(0.975) == Approx(0.15 * 1.959964).epsilon(1e-4));
}

TEST_CASE("beliefs that are none are refused", "[errors]") {
    CHECK_THROWS_AS(updated(LognormalBelief{0, 0.3}, std::vector{70.0}, 0.1), DomainError);
    CHECK_THROWS_AS(updated(LognormalBelief{65, -1}, std::vector{70.0}, 0.1), DomainError);
    CHECK_THROWS_AS(updated(LognormalBelief{65, 0.3}, std::vector{-70.0}, 0.1), DomainError);
    CHECK_THROWS_AS(updated(LognormalBelief{65, 0.3}, std::vector{70.0}, 0), DomainError);
    CHECK_THROWS_AS(learned_from_batches({65, 0.3}, std::vector{70.0}, -1, 0.1), DomainError);
    CHECK_THROWS_AS(ThresholdBelief({0, 0, 0.06}), DomainError);
    CHECK_THROWS_AS(ThresholdBelief({0, 0.1, 0}), DomainError);
    CHECK_NOTHROW(ThresholdBelief({0, 1e-4, 1e-4}));
    ThresholdBelief b{ThresholdPrior{}};
    CHECK_THROWS_AS(b.learn({std::nan(""), true}), DomainError);
    CHECK_THROWS_AS(b.learn({500, true}), DomainError); // k of e^500 that chalked: not this model
    CHECK_THROWS_AS(b.expected_standard_deviation(std::vector<double>(13)), DomainError);
}

TEST_CASE("beliefs at the edges of what they take", "[errors]") {
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(ThresholdBelief({std::nan(""), 0.1, 0.06}), DomainError);
    CHECK_THROWS_AS(ThresholdBelief({0, infinity, 0.06}), DomainError);
    CHECK_THROWS_AS(ThresholdBelief({0, 0.1, infinity}), DomainError);
    const ThresholdBelief b{{0.0, 0.15, 0.06}};
    for (const double p : {0.0, 1.0, -0.1})
        CHECK_THROWS_AS(b.quantile(p), DomainError);
    CHECK_THROWS_AS(b.failure_probability(infinity), DomainError);
    CHECK_THROWS_AS(b.expected_standard_deviation(std::vector{infinity}), DomainError);
    CHECK_NOTHROW(b.expected_standard_deviation(std::vector(2, 0.0)));
    CHECK_THROWS_AS(updated(LognormalBelief{infinity, 0.3}, std::vector{70.0}, 0.1), DomainError);
    CHECK_THROWS_AS(updated(LognormalBelief{65, infinity}, std::vector{70.0}, 0.1), DomainError);
    CHECK_THROWS_AS(updated(LognormalBelief{65, 0.3}, std::vector{infinity}, 0.1), DomainError);
    CHECK_THROWS_AS(learned_from_batches({65, 0.3}, std::vector{70.0}, infinity, 0.1), DomainError);
    // What is sure stays; what is small is a figure like any other.
    CHECK(updated(LognormalBelief{65, 0.0}, std::vector{90.0}, 0.1).median == Approx(65));
    const auto small = updated(LognormalBelief{6.5e-4, 0.3}, std::vector{7e-4}, 0.1);
    const auto large = updated(LognormalBelief{65, 0.3}, std::vector{70.0}, 0.1);
    CHECK(small.median == Approx(1e-5 * large.median).epsilon(1e-12));
    CHECK(small.quantile(0.9) == Approx(1e-5 * large.quantile(0.9)).epsilon(1e-12));
    CHECK(updated(LognormalBelief{65, 1e-4}, std::vector{90.0}, 1e-4).median == Approx(std::sqrt(65.0 * 90.0)).epsilon(1e-12));
}

TEST_CASE("quantiles of a threshold go with its share of failures", "[identity]") {
    // A swatch of wide width leaves the normal law; its quantiles from any table, and the far ends in order.
    const ThresholdBelief b{{0.2, 0.15, 0.06}};
    CHECK(b.quantile(0.5) == Approx(0.2).margin(1e-9));
    CHECK(b.quantile(0.05) == Approx(0.2 - 0.15 * 1.644854).epsilon(2e-4));
    CHECK(b.quantile(1e-4) == Approx(0.2 - 0.15 * 3.719016).epsilon(5e-4));
    CHECK(b.quantile(1.0 - 1e-16) <= 0.2 + 8.0 * 0.15 + 1e-9);
    CHECK(b.quantile(1.0 - 1e-16) > 0.2 + 7.0 * 0.15);
    CHECK(b.mean() == Approx(0.2).epsilon(1e-12));
    CHECK(b.standard_deviation() == Approx(0.15).epsilon(1e-9));
}
