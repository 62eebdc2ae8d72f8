#include "lakebound/estimate/sample_statistics.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("mean, spread and quantiles of a small set", "[unit]") {
    std::vector<double> v{4, 1, 3, 2};
    CHECK(sample_mean(v) == Approx(2.5));
    CHECK(sample_standard_deviation(v) == Approx(std::sqrt(5.0 / 3.0)));
    CHECK(sample_quantile(v, 0.25) == 1);
    CHECK(sample_quantile(v, 0.26) == 2);
    CHECK(sample_quantile(v, 1.0) == 4);
    CHECK(sample_quantile(v, 1e-9) == 1);
    const auto two = summarise({1.0, 2.0});
    CHECK(two.symmetric.low == 1);
    CHECK(two.symmetric.high == 2);
}

TEST_CASE("coverage intervals take the ordered values that jcgm-101, 7.7 names", "[reference]") {
    // M = 1000, p = 0.95: q = 950, r = 25, so the symmetric interval runs from the 25th to the 975th.
    std::vector<double> v(1000);
    std::iota(v.begin(), v.end(), 1.0);
    std::reverse(v.begin(), v.end());
    const auto s = summarise(v);
    CHECK(s.symmetric.low == 25);
    CHECK(s.symmetric.high == 975);
    // Squares crowd at the low end: the shortest starts at the first.
    for (double& x : v)
        x *= x;
    const auto squares = summarise(v);
    CHECK(squares.shortest.low == 1);
    CHECK(squares.shortest.high == 951.0 * 951.0);
}

TEST_CASE("the shortest interval is never the longer one, and agrees with a full search", "[identity]") {
    RandomEngine engine(21);
    std::vector<double> v(5000);
    for (double& x : v)
        x = std::exp(0.7 * standard_normal(engine));
    for (const double coverage : {0.3, 0.5, 0.9, 0.95, 0.999}) {
        const auto s = summarise(v, coverage);
        CHECK(s.shortest.width() <= s.symmetric.width());
        auto sorted = v;
        std::sort(sorted.begin(), sorted.end());
        const auto q = static_cast<std::size_t>(std::lround(coverage * 5000));
        double best = sorted.back() - sorted.front();
        for (std::size_t r = 0; r + q < sorted.size(); ++r)
            best = std::min(best, sorted[r + q] - sorted[r]);
        CHECK(s.shortest.width() == Approx(best).epsilon(1e-14));
        CHECK(std::count_if(v.begin(), v.end(), [&](double x) { return x < s.symmetric.low; }) ==
              Approx((5000 - static_cast<double>(q)) / 2).margin(1));
    }
}

TEST_CASE("an empty set has no statistics", "[errors]") {
    std::vector<double> none, one{1};
    CHECK_THROWS_AS(sample_mean(none), DomainError);
    CHECK_THROWS_AS(sample_standard_deviation(one), DomainError);
    CHECK_THROWS_AS(sample_quantile(none, 0.5), DomainError);
    CHECK_THROWS_AS(sample_quantile(one, 0), DomainError);
    CHECK_THROWS_AS(summarise(std::vector<double>{1, 2}, 1.0), DomainError);
    // Putting NaN in order is undefined behaviour.
    std::vector<double> holed{1, std::nan(""), 2};
    CHECK_THROWS_AS(sample_quantile(holed, 0.5), DomainError);
    CHECK_THROWS_AS(summarise(holed), DomainError);
}

TEST_CASE("the edges of chances and of small sets", "[unit]") {
    std::vector<double> one{3.0};
    CHECK(sample_mean(one) == Approx(3.0));
    CHECK(sample_quantile(one, 1.0) == Approx(3.0));
    CHECK_THROWS_AS(sample_quantile(one, 1.0 + 1e-9), DomainError);
    std::vector<double> v(100);
    std::iota(v.begin(), v.end(), 1.0);
    CHECK(sample_quantile(v, 0.95) == Approx(95.0)); // .95 x 100 rounds to a hair over 95
    CHECK(sample_quantile(v, 0.951) == Approx(96.0));
    CHECK(sample_quantile(v, 1e-4) == Approx(1.0));
    CHECK_THROWS_AS(summarise(std::vector<double>{1, 2}, 0.0), DomainError);
    CHECK_NOTHROW(summarise(std::vector<double>{1, 2}, 1e-4));
    CHECK_THROWS_AS(summarise(std::vector<double>{1}), DomainError);
    const auto s = summarise(v, 0.5); // q 50, r 25 counted from one
    CHECK(s.count == 100);
    CHECK(s.median == Approx(50.0));
    CHECK(s.mean == Approx(50.5));
    CHECK(s.symmetric.low == Approx(25.0));
    CHECK(s.symmetric.high == Approx(75.0));
    CHECK(s.shortest.width() == Approx(50.0));
}
