#include "lakebound/estimate/tilted_grid.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/expectation_propagation.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("nodes of one and of two quantities keep the moments", "[identity]") {
    const LogisticTrials chalked{{0.2, 16, 1}}, held{{0.5, -10, 2}};
    const JointNormal one{{0.0}, {0.09}};
    const auto exact = tilted_moments(0, 0.09, chalked);
    double mean = 0, second = 0;
    for (const auto& n : tilted_grid(one, std::vector<LogisticTrials>{chalked}, one)) {
        mean += n.weight * n.first;
        second += n.weight * n.first * n.first;
    }
    CHECK(mean == Approx(exact.mean).margin(1e-8));
    CHECK(second - mean * mean == Approx(exact.variance).epsilon(1e-7));
    // Two that are independent: each keeps its own.
    const JointNormal two{{0.0, 0.3}, {0.09, 0.0, 0.0, 0.04}};
    const auto other = tilted_moments(0.3, 0.04, held);
    const JointNormal about{{exact.mean, other.mean}, {exact.variance, 0, 0, other.variance}};
    double m[2] = {}, v[2] = {}, total = 0;
    for (const auto& n : tilted_grid(two, std::vector{chalked, held}, about)) {
        total += n.weight;
        m[0] += n.weight * n.first;
        m[1] += n.weight * n.second;
        v[0] += n.weight * n.first * n.first;
        v[1] += n.weight * n.second * n.second;
    }
    CHECK(total == Approx(1).epsilon(1e-12));
    CHECK(m[0] == Approx(exact.mean).margin(1e-5));
    CHECK(m[1] == Approx(other.mean).margin(1e-5));
    CHECK(v[0] - m[0] * m[0] == Approx(exact.variance).epsilon(1e-4));
    CHECK(v[1] - m[1] * m[1] == Approx(other.variance).epsilon(1e-4));
}

TEST_CASE("grids of nothing are refused", "[errors]") {
    const JointNormal none, twins{{0, 0}, {1, 1, 1, 1}};
    CHECK_THROWS_AS(tilted_grid(none, {}, none), DomainError);
    CHECK_THROWS_AS(tilted_grid(twins, std::vector<LogisticTrials>(2), twins), DomainError);
    CHECK_THROWS_AS(tilted_grid({{0}, {1}}, {}, none), DomainError);
    CHECK_THROWS_AS(tilted_grid({{0, 0}, {0, 0, 0, 1}}, std::vector<LogisticTrials>(2), twins), DomainError);
    CHECK_THROWS_AS(tilted_grid({{0, 0}, {1, 0, 0, 0}}, std::vector<LogisticTrials>(2), twins), DomainError);
}

TEST_CASE("A grid of two quantities bears trials that contradict each other", "[reference]") {
    // Against plain sums over 281 x 281 places, six times as fine, written here. Trials sharper than the belief is wide, as
    // many of either kind, within two of its spreads: what a swatch entered wrongly does.
    RandomEngine engine(20261128);
    const auto any = [&engine](double low, double high) {
        return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1p-53;
    };
    for (int i = 0; i < 25; ++i) {
        const double s1 = std::exp(any(-3.0, -0.7)), s2 = s1 * any(0.7, 1.7), r = any(-0.95, 0.95);
        const JointNormal known{{0.1, -0.1}, {s1 * s1, r * s1 * s2, r * s1 * s2, s2 * s2}};
        std::vector<LogisticTrials> trials(2);
        for (const std::size_t q : {0u, 1u})
            for (auto left = 1 + engine() % 6; left > 0; --left)
                trials[q].push_back({known.mean[q] + (q == 0 ? s1 : s2) * any(-2.0, 2.0), (engine() % 2 ? 1.0 : -1.0) / any(0.03, 0.08), 1.0});
        const auto about = with_messages(known, propagate(known, trials).sites, {}, std::vector<std::size_t>{0, 1});
        const auto window = [](double x) { return 0.5 * (std::erf((x + 0.3) / 0.14) - std::erf((x - 0.1) / 0.14)); };
        double mean = 0.0, inside = 0.0;
        for (const GridNode& n : tilted_grid(known, trials, about))
            mean += n.weight * n.second, inside += n.weight * window(n.second);
        double total = 0.0, plain_mean = 0.0, plain_inside = 0.0;
        for (int a = -140; a <= 140; ++a)
            for (int b = -140; b <= 140; ++b) {
                const double p = 0.05 * a, q = 0.05 * b, x = 0.1 + s1 * p, y = -0.1 + s2 * (r * p + std::sqrt(1.0 - r * r) * q);
                const double weight = std::exp(log_likelihood(trials[0], x) + log_likelihood(trials[1], y) - 0.5 * (p * p + q * q));
                total += weight, plain_mean += weight * y, plain_inside += weight * window(y);
            }
        INFO(i);
        CHECK(mean == Approx(plain_mean / total).margin(0.01 * s2).epsilon(0));
        CHECK(inside == Approx(plain_inside / total).margin(0.001).epsilon(0));
    }
}
