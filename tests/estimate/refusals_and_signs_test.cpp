// Limits, signs and small steps of the estimate room, each against a value worked by hand.
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/correlation.hpp"
#include "lakebound/estimate/expectation_propagation.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/estimate/lognormal_sum.hpp"
#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
constexpr double endless = std::numeric_limits<double>::infinity();
}

TEST_CASE("second-order uncertainty is exact for a quadratic, whatever is exactly known beside it", "[reference]") {
    // y = a x^2 + b x z + c x + d z w, w exact at 3; x, z normal about 0: variances by moments of the normal,
    // 2 a^2 s^4 + b^2 s^2 t^2 + c^2 s^2 + 9 d^2 t^2.
    const double a = 0.7, b = -1.3, c = 0.4, d = 0.2, s = 0.5, t = 0.8;
    const std::vector<UncertainInput> inputs{{"x", {Shape::normal, 0, s}, {}}, {"w", {Shape::exact, 3, 0}, {}}, {"z", {Shape::normal, 0, t}, {}}};
    const auto f = [&](std::span<const double> x) { return a * x[0] * x[0] + b * x[0] * x[2] + c * x[0] + d * x[2] * x[1]; };
    const auto found = budget(f, inputs, {.correlation = {}, .second_order = true});
    const double first = c * c * s * s + 9 * d * d * t * t;
    CHECK(found.standard_uncertainty == Approx(std::sqrt(first)).epsilon(1e-7));
    CHECK(found.second_order_uncertainty.value() ==
          Approx(std::sqrt(first + 2 * a * a * std::pow(s, 4) + b * b * s * s * t * t)).epsilon(1e-6));
}

TEST_CASE("messages and terms that cannot be are told", "[errors]") {
    const JointNormal prior{{0.0, 0.0}, {1, 0.2, 0.2, 1}};
    const auto refused = [&](std::vector<double> precision, std::vector<double> shift) {
        return told([&] { (void)with_messages(prior, {std::move(precision), std::move(shift)}, {}, {}); });
    };
    CHECK(refused({1, 1}, {0, 0}) == "taken");
    CHECK(refused({0, 0}, {0, 0}) == "taken");
    CHECK(refused({1, 1}, {0}) == "number of messages: 2");
    CHECK(refused({1}, {0, 0}) == "number of messages: 1");
    CHECK(refused({1, 1, 1}, {0, 0, 0}) == "number of messages: 3");
    CHECK(refused({1, -0.5}, {0, 0}) == "precision of a message: -0.5");
    CHECK(refused({endless, 1}, {0, 0}) == "precision of a message: infinity");
    const auto sum_of = [](double share, double s) {
        const LognormalTerm terms[] = {{share, s}, {0.5, 0.2}};
        return told([&] { (void)matched_sum(terms); });
    };
    CHECK(sum_of(0.5, 0.3) == "taken");
    CHECK(sum_of(0.75, 0.3) == "sum of the shares: 1.25");
    CHECK(sum_of(-0.25, 0.3) == "share of a term: -0.25");
    CHECK(sum_of(0.5, -0.25) == "ln-sd of a term: -0.25");
    CHECK(sum_of(0.5, endless) == "ln-sd of a term: infinity");
    CHECK(sum_of(0.5, 0.0) == "taken");
}

TEST_CASE("slope and curvature of a trial near its place, on either side", "[reference]") {
    // ln logistic(t): slope 1 - L, curvature -L (1 - L), L = 1 / (1 + exp(-t)), t = slope (s - place).
    for (const double t : {-30.0, -2.0, -5e-4, 0.0, 5e-4, 2.0, 30.0}) {
        const LogisticTrial trial{0.3, 4.0, 2.0};
        const double s = trial.location + t / trial.slope, L = 1.0 / (1.0 + std::exp(-t));
        const auto c = log_likelihood_curve({&trial, 1}, s);
        CHECK(c.value == Approx(trial.count * (t < 0 ? t - std::log1p(std::exp(t)) : -std::log1p(std::exp(-t)))).epsilon(1e-11));
        CHECK(c.slope == Approx(trial.count * trial.slope / (1.0 + std::exp(t))).epsilon(1e-11));
        CHECK(c.curvature == Approx(-trial.count * trial.slope * trial.slope * L / (1.0 + std::exp(t))).epsilon(1e-11));
    }
}

TEST_CASE("draws hardly correlated are those that are not", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}}, {"b", {Shape::normal, 0, 1}, {}}, {"c", {Shape::lognormal, 1, 0.3}, {}}};
    const auto f = [](std::span<const double> x) { return x[0] + 10 * x[1] + 100 * x[2]; };
    for (const auto drawing : {Drawing::independent, Drawing::stratified, Drawing::sobol}) {
        MonteCarloOptions options;
        options.draws = 512;
        options.drawing = drawing;
        const auto apart = monte_carlo(f, inputs, options).outputs[0];
        options.correlation = CorrelationMatrix(3);
        for (const auto& [i, j] : {std::pair{0, 1}, std::pair{0, 2}, std::pair{1, 2}})
            options.correlation.set(static_cast<std::size_t>(i), static_cast<std::size_t>(j), 1e-9);
        const auto near = monte_carlo(f, inputs, options).outputs[0];
        REQUIRE(near.size() == apart.size());
        for (std::size_t i = 0; i < near.size(); ++i)
            CHECK(near[i] == Approx(apart[i]).epsilon(1e-7).margin(1e-5));
    }
}

TEST_CASE("a drawn input spreads as its law says", "[reference]") {
    // Of 20 000 draws: mean and sd of x, or of ln x for a lognormal; margins of four of their own deviations.
    RandomEngine engine(5);
    for (const Distribution& law : {Distribution{Shape::normal, 3.0, 0.5}, Distribution{Shape::lognormal, 2.0, 0.4}}) {
        const bool logarithm = law.shape == Shape::lognormal;
        std::vector<double> drawn;
        for (int i = 0; i < 20000; ++i)
            drawn.push_back(logarithm ? std::log(draw(law, engine)) : draw(law, engine));
        CHECK(sample_mean(drawn) == Approx(logarithm ? std::log(2.0) : 3.0).margin(4 * law.scale / std::sqrt(20000.0)));
        CHECK(sample_standard_deviation(drawn) == Approx(law.scale).epsilon(4 / std::sqrt(40000.0)));
    }
    CHECK(draw({Shape::exact, 7.0, 0.0}, engine) == 7.0);
}

TEST_CASE("chances, limits and coefficients just inside and outside of their range", "[errors]") {
    CorrelationMatrix m(2);
    CHECK(told([&] { m.set(0, 1, 1.01); }) == "correlation coefficient: 1.01");
    CHECK(told([&] { m.set(0, 1, -1.01); }) == "correlation coefficient: -1.01");
    CHECK(told([&] { m.set(0, 1, 1.0); }) == "taken");
    CHECK(told([] { (void)lognormal_median_for_risk(0.0, 0.2, 0.1); }) == "limit: 0");
    CHECK(told([] { (void)lognormal_median_for_risk(1e-4, 0.2, 0.1); }) == "taken");
    CHECK(told([] { (void)student_quantile(0.0, 5); }) == "probability: 0");
    // Student's t with 2 degrees of freedom has a closed form: (2p - 1) / sqrt(2 p (1 - p)).
    CHECK(student_quantile(5e-4, 2) == Approx((2 * 5e-4 - 1) / std::sqrt(2 * 5e-4 * (1 - 5e-4))).epsilon(1e-10));
}
