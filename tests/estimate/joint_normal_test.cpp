#include "lakebound/estimate/joint_normal.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

/// Groups theta_j = mu + a_j of a common mean, each read once with its own sd: readings, then mu, then theta.
struct Groups {
    std::vector<NormalSum> sums;
    std::vector<double> variances;
};
Groups groups(double mean, double mean_sd, double between, const std::vector<double>& sd) {
    Groups g;
    const std::size_t n = sd.size();
    g.variances = {mean_sd * mean_sd};
    for (std::size_t j = 0; j < n; ++j)
        g.variances.push_back(between * between);
    for (const double s : sd)
        g.variances.push_back(s * s);
    for (std::size_t j = 0; j < n; ++j)
        g.sums.push_back({mean, {0, 1 + j, 1 + n + j}});
    g.sums.push_back({mean, {0}});
    for (std::size_t j = 0; j < n; ++j)
        g.sums.push_back({mean, {0, 1 + j}});
    return g;
}

} // namespace

TEST_CASE("four batches of weld lake, as a joint normal", "[reference]") {
    // 72, 81, 69, 77, between jars .15, read with .06: 73.917, .07800, predictive .16907 by the rule of precisions
    // (gelman-bda-2013, 2.5), the figures of learning_test.cpp.
    std::vector<double> y;
    for (const double oa : {72.0, 81.0, 69.0, 77.0})
        y.push_back(std::log(oa / 65));
    auto g = groups(0, 0.30, 0.15, std::vector(4, 0.06));
    g.variances.push_back(0.15 * 0.15);
    g.sums.push_back({0, {0, g.variances.size() - 1}}); // the next jar
    const auto known = conditioned_on_first(joint_of_sums(g.sums, g.variances), y).rest;
    CHECK(65 * std::exp(known.mean[0]) == Approx(73.917).margin(1e-3).epsilon(0));
    CHECK(std::sqrt(known.variance(0)) == Approx(0.07800).margin(1e-5).epsilon(0));
    CHECK(std::sqrt(known.variance(5)) == Approx(0.16907).margin(1e-5).epsilon(0));
}

TEST_CASE("eight schools, the spread between them over nodes", "[reference]") {
    // Data and reference posterior: posteriordb, 10 000 draws (read): mu 4.411 (standard error .033), tau 3.602 (.032),
    // theta 6.151 4.940 3.906 4.796 3.614 4.051 6.317 4.884, E mu^2 30.40, E tau^2 23.2. By SciPy's quadrature,
    // tests/reference/learning_check.py: mu 4.397, tau 3.599, theta 6.212 4.940 3.927 4.757 3.615 4.043 6.297 4.854,
    // 30.34, 23.3.
    const std::vector<double> y{28, 8, -3, 7, -1, 1, 18, 12}, sd{15, 10, 16, 11, 9, 11, 10, 18};
    const double quadrature[] = {6.212, 4.940, 3.927, 4.757, 3.615, 4.043, 6.297, 4.854};
    const double draws[] = {6.151, 4.940, 3.906, 4.796, 3.614, 4.051, 6.317, 4.884};
    double sum = 0, mu = 0, mu2 = 0, tau_mean = 0, tau2 = 0, theta[8] = {};
    constexpr int nodes = 4000;
    for (int i = 0; i < nodes; ++i) { // tau half-Cauchy(5): tau = 5 tan(u pi/2), u uniform
        const double tau = 5 * std::tan((i + 0.5) / nodes * M_PI / 2);
        const auto g = groups(0, 5, tau, sd);
        const auto c = conditioned_on_first(joint_of_sums(g.sums, g.variances), y);
        const double w = std::exp(c.log_evidence);
        sum += w;
        mu += w * c.rest.mean[0];
        mu2 += w * (c.rest.mean[0] * c.rest.mean[0] + c.rest.variance(0));
        tau_mean += w * tau;
        tau2 += w * tau * tau;
        for (std::size_t j = 0; j < 8; ++j)
            theta[j] += w * c.rest.mean[1 + j];
    }
    CHECK(mu / sum == Approx(4.397).margin(1e-3).epsilon(0));
    CHECK(mu2 / sum == Approx(30.34).margin(0.02).epsilon(0));
    CHECK(tau_mean / sum == Approx(3.599).margin(2e-3).epsilon(0));
    CHECK(tau2 / sum == Approx(23.3).margin(0.15).epsilon(0));
    CHECK(mu / sum == Approx(4.411).margin(3 * .033).epsilon(0));
    CHECK(tau_mean / sum == Approx(3.602).margin(3 * .032).epsilon(0));
    for (int j = 0; j < 8; ++j) {
        CHECK(theta[j] / sum == Approx(quadrature[j]).margin(1.5e-3).epsilon(0));
        CHECK(theta[j] / sum == Approx(draws[j]).margin(0.17).epsilon(0)); // 3 of their standard errors, .056
    }
}

TEST_CASE("conditioning on all at once is conditioning in turn", "[identity]") {
    const auto g = groups(0.3, 0.5, 0.2, {0.1, 0.3, 0.2});
    const auto joint = joint_of_sums(g.sums, g.variances);
    const std::vector<double> y{0.5, 0.1, 0.9};
    const auto together = conditioned_on_first(joint, y);
    auto turn = conditioned_on_first(joint, std::vector{y[0]});
    const double first = turn.log_evidence;
    turn = conditioned_on_first(turn.rest, std::vector{y[1], y[2]});
    CHECK(first + turn.log_evidence == Approx(together.log_evidence).epsilon(1e-12));
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(turn.rest.mean[i] == Approx(together.rest.mean[i]).epsilon(1e-12));
        for (std::size_t j = 0; j < 4; ++j)
            CHECK(turn.rest.covariance_of(i, j) == Approx(together.rest.covariance_of(i, j)).margin(1e-14));
    }
    // The regression on the readings foretells the same means.
    const auto line = regression_on_first(joint, 3);
    for (std::size_t i = 0; i < 4; ++i) {
        double mean = line.intercept[i];
        for (std::size_t k = 0; k < 3; ++k)
            mean += line.slope[i * 3 + k] * y[k];
        CHECK(mean == Approx(together.rest.mean[i]).epsilon(1e-12));
        CHECK(line.covariance[i * 4 + i] == Approx(together.rest.variance(i)).epsilon(1e-10));
    }
    CHECK(conditioned_on_first(joint, {}).rest.mean == joint.mean);
}

TEST_CASE("a quantity given twice counts once", "[unit]") {
    const std::vector<NormalSum> sums{{1, {0}}, {1, {0}}, {1, {0, 1}}};
    const auto line = regression_on_first(joint_of_sums(sums, std::vector{4.0, 1.0}), 2);
    CHECK(line.slope[0] == Approx(1));
    CHECK(line.slope[1] == 0.0);
    CHECK(line.intercept[0] == Approx(0).margin(1e-14));
    CHECK(line.covariance[0] == Approx(1));
}

TEST_CASE("joint normals that are none are refused", "[errors]") {
    const std::vector<NormalSum> twins{{0, {0}}, {0, {0}}};
    const std::vector<double> one{1.0}, bad{-1.0};
    CHECK_THROWS_AS(joint_of_sums(twins, bad), DomainError);
    CHECK_THROWS_AS(joint_of_sums(std::vector<NormalSum>{{0, {1}}}, one), DomainError);
    CHECK_THROWS_AS(joint_of_sums(std::vector<NormalSum>{{0, {0, 0}}}, one), DomainError);
    const auto joint = joint_of_sums(twins, one);
    CHECK_THROWS_AS(conditioned_on_first(joint, std::vector{0.0, 0.0}), DomainError); // read without scatter
    CHECK_THROWS_AS(conditioned_on_first(joint, std::vector{std::nan("")}), DomainError);
    CHECK_THROWS_AS(conditioned_on_first(joint, std::vector{0.0, 0.0, 0.0}), DomainError);
    CHECK_THROWS_AS(regression_on_first(joint, 3), DomainError);
}

TEST_CASE("all quantities may be given, and none", "[unit]") {
    const std::vector<NormalSum> sums{{1, {0}}, {2, {0, 1}}};
    const auto joint = joint_of_sums(sums, std::vector{4.0, 0.25});
    const auto all = conditioned_on_first(joint, std::vector{1.5, 2.5});
    CHECK(all.rest.size() == 0);
    // ln of the density at .5, .5: determinant 4 x 4.25 - 16 = 1; quadratic form .25 (4.25 - 8 + 4) = .0625.
    CHECK(all.log_evidence == Approx(-0.03125 - std::log(2 * M_PI)).epsilon(1e-12));
    CHECK(regression_on_first(joint, 2).intercept.empty());
    const auto none = regression_on_first(joint, 0);
    CHECK(none.intercept[1] == Approx(2));
    CHECK(none.covariance[1] == Approx(4));
    CHECK(none.covariance[3] == Approx(4.25));
    CHECK_THROWS_WITH(conditioned_on_first(joint, std::vector(3, 0.0)), Catch::Contains("at most 2"));
    auto torn = joint;
    torn.covariance.pop_back();
    CHECK_THROWS_WITH(conditioned_on_first(torn, std::vector{1.0}), Catch::Contains("the square of 2"));
}

TEST_CASE("a source without variance, and one that many share in part", "[unit]") {
    // Covariances by hand: the variances of the sources that both name.
    const std::vector<NormalSum> sums{{0, {0, 2, 3}}, {0, {1, 2}}, {0, {0, 1, 3}}};
    const auto joint = joint_of_sums(sums, std::vector{1.0, 10.0, 100.0, 0.0});
    const double expected[] = {101, 100, 1, 100, 110, 10, 1, 10, 11};
    for (std::size_t i = 0; i < 9; ++i)
        CHECK(joint.covariance[i] == Approx(expected[i]).epsilon(1e-14));
    CHECK_THROWS_AS(joint_of_sums(std::vector<NormalSum>{{0, {4}}}, std::vector{1.0, 1.0, 1.0, 1.0}), DomainError);
    CHECK_THROWS_AS(joint_of_sums(std::vector<NormalSum>{{0, {1, 0}}}, std::vector{1.0, 1.0}), DomainError);
    CHECK_NOTHROW(joint_of_sums(std::vector<NormalSum>{{0, {0, 1}}}, std::vector{1.0, 1.0}));
}

TEST_CASE("a small variance is a variance", "[identity]") {
    // The same question in a unit a million times larger.
    for (const double unit : {1.0, 1e-8}) {
        const std::vector<NormalSum> sums{{0, {0, 1}}, {0, {0, 2}}, {0, {0}}};
        const auto joint = joint_of_sums(sums, std::vector{4.0 * unit, 1.0 * unit, 1.0 * unit});
        const auto line = regression_on_first(joint, 2);
        CHECK(line.slope[0] == Approx(4.0 / 9.0).epsilon(1e-12)); // 4/(4 + 4 + 1)
        CHECK(line.slope[1] == Approx(4.0 / 9.0).epsilon(1e-12));
        CHECK(line.covariance[0] == Approx(4.0 * unit / 9.0).epsilon(1e-10));
    }
}
