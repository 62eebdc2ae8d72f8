#include "lakebound/estimate/normal_mixture.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"

using namespace lakebound;

namespace {

NormalMixture blend_like(double guess, double rest) {
    const NormalGrid grid = normal_grid(0.3);
    std::vector<double> centres;
    for (const double z : grid.z)
        centres.push_back(-std::log(0.5 * std::exp(guess * z) + 0.5));
    return NormalMixture(rest, centres, grid.weights);
}

} // namespace

TEST_CASE("a mixture of one centre is the normal law", "[identity]") {
    const NormalMixture one(0.3, {0.1}, {2.0});
    CHECK(one.is_normal());
    CHECK(one.mean() == Approx(0.1).epsilon(1e-15));
    CHECK(one.standard_deviation() == Approx(0.3).epsilon(1e-15));
    for (const double t : {-1.0, -0.2, 0.1, 0.5}) {
        CHECK(one.below(t).value() == Approx(standard_normal_cdf((t - 0.1) / 0.3)).epsilon(1e-13));
        CHECK(one.above(t).value() == Approx(standard_normal_cdf((0.1 - t) / 0.3)).epsilon(1e-13));
    }
    CHECK(one.quantile(0.05) == Approx(0.1 - 0.3 * 1.6448536269514722).epsilon(1e-12));
    CHECK(NormalMixture().below(1e-9).value() == Approx(1.0));
    CHECK(NormalMixture().below(0.0).value() == Approx(0.5));
    CHECK(NormalMixture().above(-1e-9).value() == Approx(1.0));
}

TEST_CASE("moments, chances and quantiles of a mixture", "[identity]") {
    // By hand: centres -1, 0, 4 and sd 2: mean 1, variance 4 + (4 + 1 + 9)/3.
    const NormalMixture three(2.0, {-1.0, 0.0, 4.0}, {1.0, 1.0, 1.0});
    CHECK(three.mean() == Approx(1.0));
    CHECK(three.standard_deviation() == Approx(std::sqrt(4.0 + 14.0 / 3.0)));
    CHECK(three.below(1.0).value() ==
          Approx((standard_normal_cdf(1.0) + standard_normal_cdf(0.5) + standard_normal_cdf(-1.5)) / 3.0));
    CHECK_FALSE(three.is_normal());
    for (const auto& mixture : {three, blend_like(0.3, 0.13), NormalMixture(0.0, {0.0, 1.0, 2.0, 3.0}, {1.0, 2.0, 1.0, 1.0})})
        for (const double p : {0.001, 0.05, 0.3, 0.6, 0.99}) {
            const double x = mixture.quantile(p);
            CHECK(mixture.below(x + 1e-7).value() >= p - 1e-6);
            CHECK(mixture.below(x - 1e-7).value() <= p + 1e-6);
        }
    const auto half = three.narrowed(0.5);
    CHECK(half.mean() == Approx(1.0));
    CHECK(half.standard_deviation() == Approx(0.5 * three.standard_deviation()));
    CHECK(three.narrowed(0.0).standard_deviation() == Approx(0.0).margin(1e-15));
}

TEST_CASE("normals of different spread side by side", "[identity]") {
    // Half about -1 with sd .5, half about 1 with sd 2: variance 1 + (.25 + 4)/2.
    const NormalMixture two({{1.0, -1.0, 0.5}, {1.0, 1.0, 2.0}});
    CHECK(two.mean() == Approx(0.0).margin(1e-15));
    CHECK(two.standard_deviation() == Approx(std::sqrt(3.125)).epsilon(1e-14));
    CHECK(two.below(0.0).value() ==
          Approx(0.5 * (standard_normal_cdf(2.0) + standard_normal_cdf(-0.5))).epsilon(1e-14));
    CHECK(two.above(0.0).value() ==
          Approx(0.5 * (standard_normal_cdf(-2.0) + standard_normal_cdf(0.5))).epsilon(1e-14));
    // The far left belongs to the wide one although its centre lies on the right.
    for (const double p : {1e-6, 0.01, 0.2, 0.8, 0.999})
        CHECK(two.below(two.quantile(p)).value() == Approx(p).epsilon(1e-6));
    // A normal of no spread is a step.
    const NormalMixture steps({{1.0, 0.0, 0.0}, {3.0, 2.0, 0.0}});
    CHECK(steps.below(1.0).value() == Approx(0.25));
    CHECK(steps.quantile(0.5) == Approx(2.0).margin(1e-6));
    const auto half = two.narrowed(0.5);
    CHECK(half.standard_deviation() == Approx(0.5 * std::sqrt(3.125)).epsilon(1e-14));
    CHECK(half.below(0.3).value() == Approx(two.below(0.6).value()).epsilon(1e-12));
}

TEST_CASE("between two limits lies what is neither below nor above", "[identity]") {
    const NormalMixture wide({{0.3, -0.4, 0.05}, {0.5, 0.1, 0.30}, {0.2, 0.2, 0.0}});
    for (const double low : {-9.0, -0.5, -0.41, 0.0, 0.2})
        for (const double width : {0.0, 0.01, 0.4, 20.0}) {
            INFO(low << " and " << width << " more");
            const double high = low + width;
            CHECK(wide.between(low, high).value() ==
                  Approx(1.0 - wide.below(low).value() - wide.above(high).value()).margin(1e-14));
            CHECK(wide.roughly_between(low, high).value() == Approx(wide.between(low, high).value()).margin(1e-8).epsilon(0));
        }
}

TEST_CASE("a grid stands for the law it is laid out over", "[reference]") {
    // Against a million draws by the random engine: standard error .05 points at most.
    for (const double guess : {0.3, 0.45}) {
        const NormalMixture mixture = blend_like(guess, 0.13);
        RandomEngine engine(7);
        constexpr int draws = 1'000'000;
        int below[3] = {};
        const double limits[] = {-0.3, 0.0, 0.2};
        for (int i = 0; i < draws; ++i) {
            const double x = -std::log(0.5 * std::exp(guess * standard_normal(engine)) + 0.5) +
                             0.13 * standard_normal(engine);
            for (int j = 0; j < 3; ++j)
                below[j] += x < limits[j];
        }
        for (int j = 0; j < 3; ++j)
            CHECK(mixture.below(limits[j]).value() == Approx(double(below[j]) / draws).margin(0.0020));
    }
    // And against a normal law laid out on the grid and given back its rest: the sum of two normals.
    const NormalGrid grid = normal_grid(0.3);
    const NormalMixture sum(0.25, grid.z, grid.weights);
    for (const double t : {-2.0, 0.3, 1.5})
        CHECK(sum.below(t).value() == Approx(standard_normal_cdf(t / std::hypot(1.0, 0.25))).margin(1e-5));
}

TEST_CASE("a normal grid has the moments of the normal law", "[identity]") {
    for (const double step : {0.05, 0.3, 0.5}) {
        const auto grid = normal_grid(step);
        double whole = 0.0, mean = 0.0, second = 0.0, fourth = 0.0;
        for (std::size_t i = 0; i < grid.z.size(); ++i) {
            const double z = grid.z[i], w = grid.weights[i];
            whole += w, mean += w * z, second += w * z * z, fourth += w * z * z * z * z;
        }
        CHECK(whole == Approx(1.0).epsilon(1e-14));
        CHECK(mean == Approx(0.0).margin(1e-14));
        CHECK(second == Approx(1.0).margin(2e-5));
        CHECK(fourth == Approx(3.0).margin(5e-4));
    }
}

TEST_CASE("a mixture refuses what has no meaning", "[errors]") {
    CHECK_THROWS_AS(NormalMixture(-0.1), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1, {}, {}), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1, {NAN}, {1.0}), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1).quantile(0.0), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1).narrowed(-1.0), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1, {0.0}, {}), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1, {0.0}, {-1.0}), DomainError);
    CHECK_THROWS_AS(NormalMixture(0.1, {0.0, 1.0}, {0.0, 0.0}), DomainError);
    CHECK_THROWS_AS(NormalMixture(std::vector<NormalPart>{}), DomainError);
    CHECK_THROWS_AS(NormalMixture({{1.0, 0.0, -0.1}}), DomainError);
    CHECK_THROWS_AS(NormalMixture({{-1.0, 0.0, 0.1}, {2.0, 0.0, 0.1}}), DomainError);
    CHECK_THROWS_AS(NormalMixture({{1.0, 0.0, INFINITY}}), DomainError);
    CHECK_THROWS_AS(normal_grid(0.0), DomainError);
    CHECK_THROWS_AS(normal_grid(1.5), DomainError);
}

TEST_CASE("a part of no weight and a step within a mixture count as they are", "[unit]") {
    const NormalMixture with_none({{0.0, 5.0, 1.0}, {2.0, 1.0, 0.5}});
    CHECK(with_none.mean() == Approx(1.0).epsilon(1e-14));
    CHECK(with_none.below(1.0).value() == Approx(0.5).epsilon(1e-14));
    const NormalMixture tiny({{1e-4, 0.0, 1.0}}); // weights are relative
    CHECK(tiny.below(1.0).value() == Approx(standard_normal_cdf(1.0)).epsilon(1e-14));
    CHECK(NormalMixture({{1.0, 2.0, 0.0}}).below(2.0).value() == Approx(0.5));
    CHECK(NormalMixture({{1.0, 2.0, 1e-6}}).below(2.0 + 1e-6).value() == Approx(standard_normal_cdf(1.0)).epsilon(1e-6));
    // Far out, each side to its own digits.
    const NormalMixture one(1.0, {0.0}, {1.0});
    CHECK(one.below(-20.0).value() == Approx(2.753624118606234e-89).epsilon(1e-10)); // scipy.stats.norm.cdf(-20)
    CHECK(one.above(20.0).value() == Approx(2.753624118606234e-89).epsilon(1e-10));
    CHECK(one.below(8.0).value() == Approx(1.0 - 6.22096057427174e-16).epsilon(1e-15));
    CHECK(one.between(-8.25, 8.25).value() == Approx(1.0).epsilon(1e-14));
    CHECK(one.between(8.0, 9.0).value() == Approx(6.220960574271784e-16).epsilon(0.2));
    const auto moved = NormalMixture({{1.0, -1.0, 0.5}, {1.0, 1.0, 2.0}}).shifted(0.25);
    CHECK(moved.mean() == Approx(0.25).epsilon(1e-12));
    CHECK(moved.standard_deviation() == Approx(std::sqrt(3.125)).epsilon(1e-12));
    const auto wide = NormalMixture({{1.0, -1.0, 0.6}, {1.0, 1.0, 0.0}}).widened(0.8);
    CHECK(wide.standard_deviation() == Approx(std::sqrt(1.0 + (1.0 + 0.64) / 2.0)).epsilon(1e-12));
    CHECK_THROWS_AS(one.widened(-1e-9), DomainError);
    CHECK_NOTHROW(one.widened(0.0));
    CHECK_THROWS_AS(one.quantile(1.0), DomainError);
    CHECK(one.quantile(1e-4) == Approx(-3.719016485455709).epsilon(1e-12)); // scipy.stats.norm.ppf
    CHECK(normal_grid(0.01).z.size() == 1001);
    CHECK(normal_grid(1.0).z.size() == 11);
    CHECK_THROWS_AS(normal_grid(0.0099), DomainError);
    CHECK_THROWS_AS(normal_grid(1.01), DomainError);
}
