#include "lakebound/estimate/tilted_grid.hpp"

#include <catch2/catch.hpp>

#include <cmath>

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
}
