#include "lakebound/estimate/expectation_propagation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

struct Exact {
    double log_evidence = 0, mean[2] = {}, variance[2] = {};
};
/// Two quantities of a joint normal with trials each, by 801 x 801 midpoints.
Exact by_grid(const JointNormal& p, const std::vector<LogisticTrials>& trials) {
    const double a = std::sqrt(p.variance(0)), b = p.covariance_of(0, 1) / a,
                 c = std::sqrt(p.variance(1) - b * b);
    constexpr int n = 801;
    double mass = 0, first[2] = {}, second[2] = {};
    for (int i = 0; i < n; ++i) {
        const double z = 18.0 * ((i + 0.5) / n - 0.5), s = p.mean[0] + a * z;
        const double li = log_likelihood(trials[0], s) - 0.5 * z * z;
        for (int j = 0; j < n; ++j) {
            const double y = 18.0 * ((j + 0.5) / n - 0.5), t = p.mean[1] + b * z + c * y;
            const double w = std::exp(li + log_likelihood(trials[1], t) - 0.5 * y * y);
            mass += w;
            first[0] += w * s;
            first[1] += w * t;
            second[0] += w * s * s;
            second[1] += w * t * t;
        }
    }
    Exact e;
    e.log_evidence = std::log(mass * std::pow(18.0 / n, 2) / (2 * M_PI));
    for (int i = 0; i < 2; ++i) {
        e.mean[i] = first[i] / mass;
        e.variance[i] = second[i] / mass - e.mean[i] * e.mean[i];
    }
    return e;
}

LogisticTrials at(double x, double slope, int times = 1) {
    return LogisticTrials(static_cast<std::size_t>(times), {x, slope, 1});
}

} // namespace

TEST_CASE("two correlated thresholds against quadrature over both", "[reference]") {
    // Expectation propagation is not exact for two sites: evidence and moments are close, and worst where both
    // beliefs are cut on one side.
    const JointNormal prior{{0.1, -0.2}, {0.09, 0.06, 0.06, 0.08}};
    for (const auto& trials : {std::vector{at(0.1, 16), at(0.0, -16)}, std::vector{at(0.4, 16), at(0.2, 16)},
                               std::vector{at(0.0, -10, 4), at(-0.5, 16)}, std::vector{at(-1.0, 10), at(0.6, 16)}}) {
        const auto run = propagate(prior, trials);
        const auto exact = by_grid(prior, trials);
        const std::vector<std::size_t> both{0, 1};
        const auto belief = with_messages(prior, run.sites, {}, both);
        CHECK(run.log_evidence == Approx(exact.log_evidence).margin(3e-3).epsilon(0));
        for (std::size_t i = 0; i < 2; ++i) {
            const double sd = std::sqrt(exact.variance[i]);
            CHECK(belief.mean[i] == Approx(exact.mean[i]).margin(0.01 * sd).epsilon(0));
            CHECK(belief.variance(i) == Approx(exact.variance[i]).epsilon(0.02));
            CHECK(belief.variance(i) < prior.variance(i));
        }
        CHECK(run.sweeps <= 15);
    }
}

TEST_CASE("one site is exact, and a quantity that coincides with another changes nothing", "[identity]") {
    const auto trials = at(0.2, 16, 3);
    const auto exact = tilted_moments(0, 0.09, trials);
    const JointNormal one{{0.0}, {0.09}};
    const auto run = propagate(one, std::vector<LogisticTrials>{trials});
    const std::vector<std::size_t> first{0};
    const auto belief = with_messages(one, run.sites, {}, first);
    CHECK(belief.mean[0] == Approx(exact.mean).margin(1e-6));
    CHECK(belief.variance(0) == Approx(exact.variance).epsilon(1e-5));
    CHECK(run.log_evidence == Approx(exact.log_mass).margin(1e-9));
    // The same trials shared out over two names of one quantity: K is singular. Expectation propagation is then not
    // exact: its fixed point written again in NumPy (200 001 points) is .425350, .0201268 where .426824, .0232037 is
    // true. Trials of one quantity therefore belong into one site.
    const JointNormal twins{{0.0, 0.0}, {0.09, 0.09, 0.09, 0.09}};
    const auto split = propagate(twins, std::vector{at(0.2, 16, 2), at(0.2, 16, 1)});
    const auto joined = with_messages(twins, split.sites, {}, first);
    CHECK(exact.mean == Approx(.426824).margin(1e-6).epsilon(0));
    CHECK(exact.variance == Approx(.0232037).margin(1e-7).epsilon(0));
    CHECK(joined.mean[0] == Approx(.425350).margin(3e-6).epsilon(0));
    CHECK(joined.variance(0) == Approx(.0201268).margin(5e-7).epsilon(0));
    // Leaving the site out leaves the cavity, here the prior.
    const auto cavity = with_messages(one, run.sites, first, first);
    CHECK(cavity.mean[0] == Approx(0).margin(1e-15));
    CHECK(cavity.variance(0) == Approx(0.09).epsilon(1e-14));
}

TEST_CASE("a start from elsewhere ends at the same place", "[identity]") {
    const JointNormal prior{{0.1, -0.2, 0}, {0.09, 0.06, 0.03, 0.06, 0.08, 0.03, 0.03, 0.03, 0.07}};
    const std::vector<LogisticTrials> trials{at(0.1, 16), at(0.0, -16), {}};
    const auto cold = propagate(prior, trials);
    SiteMessages far = cold.sites;
    far.precision[0] = 200;
    far.shift[1] = 30;
    const auto warm = propagate(prior, trials, &far), warmer = propagate(prior, trials, &cold.sites);
    CHECK(warmer.sweeps <= 2);
    CHECK(warm.log_evidence == Approx(cold.log_evidence).margin(1e-5));
    const std::vector<std::size_t> all{0, 1, 2};
    const auto a = with_messages(prior, cold.sites, {}, all), b = with_messages(prior, warm.sites, {}, all);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(b.mean[i] == Approx(a.mean[i]).margin(1e-5).epsilon(0));
        CHECK(b.variance(i) == Approx(a.variance(i)).epsilon(1e-4));
    }
    // The normal evidence of messages: of one site by hand, ln sqrt(...) of exp(-p s^2/2 + h s) over N(m, v).
    const JointNormal one{{0.5}, {2.0}};
    const double p = 3, h = 0.7, v = 1 / (1 / 2.0 + p), m = v * (0.5 / 2.0 + h);
    CHECK(log_mass_of_messages(one, {{p}, {h}}) ==
          Approx(0.5 * std::log(v / 2.0) + 0.5 * m * m / v - 0.5 * 0.25 / 2.0).epsilon(1e-12));
}

TEST_CASE("intercept and slope of a bioassay, by expectation propagation", "[reference]") {
    // racine-1986 (data from memory): four doses -.86 -.30 -.05 .73, five animals each, 0 1 3 5 dead; prior N(0, 2^2) on
    // the intercept, N(0, 10^2) on the slope. Four sites on four sums of two quantities: K is singular. NumPy's grid of
    // 2000 x 2000 is tests/reference/learning_check.py.
    const double x[] = {-.86, -.30, -.05, .73};
    const int dead[] = {0, 1, 3, 5};
    JointNormal prior{std::vector<double>(6), std::vector<double>(36)};
    std::vector<LogisticTrials> trials;
    const auto row = [&](std::size_t i) {
        return i < 4 ? std::pair{1.0, x[i]} : i == 4 ? std::pair{1.0, 0.0} : std::pair{0.0, 1.0};
    };
    for (std::size_t i = 0; i < 6; ++i)
        for (std::size_t j = 0; j < 6; ++j)
            prior.covariance[i * 6 + j] =
                4 * row(i).first * row(j).first + 100 * row(i).second * row(j).second;
    for (int i = 0; i < 4; ++i)
        trials.push_back({{0, 1, double(dead[i])}, {0, -1, double(5 - dead[i])}});
    const auto run = propagate(prior, trials);
    const std::vector<std::size_t> both{4, 5};
    const auto belief = with_messages(prior, run.sites, {}, both);
    // By brute force here, 500 x 500.
    double mass = 0, a1 = 0, b1 = 0, a2 = 0, b2 = 0;
    for (int i = 0; i < 500; ++i)
        for (int j = 0; j < 500; ++j) {
            const double a = -6 + 14.0 * (i + .5) / 500, b = -10 + 60.0 * (j + .5) / 500;
            double l = -a * a / 8 - b * b / 200;
            for (int g = 0; g < 4; ++g)
                l += dead[g] * log_logistic(a + b * x[g]) + (5 - dead[g]) * log_logistic(-a - b * x[g]);
            const double w = std::exp(l);
            mass += w, a1 += w * a, b1 += w * b, a2 += w * a * a, b2 += w * b * b;
        }
    a1 /= mass, b1 /= mass;
    const double sa = std::sqrt(a2 / mass - a1 * a1), sb = std::sqrt(b2 / mass - b1 * b1);
    CHECK(belief.mean[0] == Approx(a1).margin(0.05 * sa).epsilon(0));
    CHECK(belief.mean[1] == Approx(b1).margin(0.05 * sb).epsilon(0));
    CHECK(std::sqrt(belief.variance(0)) == Approx(sa).epsilon(0.05));
    CHECK(std::sqrt(belief.variance(1)) == Approx(sb).epsilon(0.10)); // 8 % short: the slope is strongly skewed
}

TEST_CASE("cases that cannot be propagated are refused", "[errors]") {
    const JointNormal one{{0.0}, {1.0}};
    CHECK_THROWS_AS(propagate(one, std::vector<LogisticTrials>(2)), DomainError);
    const SiteMessages two{{0, 0}, {0, 0}}, negative{{-1}, {0}};
    CHECK_THROWS_AS(propagate(one, std::vector<LogisticTrials>{at(0, 1)}, &two), DomainError);
    CHECK_THROWS_AS(propagate(one, std::vector<LogisticTrials>{at(0, 1)}, &negative), DomainError);
    const std::vector<std::size_t> beyond{1};
    CHECK_THROWS_AS(with_messages(one, {{0}, {0}}, {}, beyond), DomainError);
}
