#include "lakebound/estimate/lognormal_sum.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/normal_mixture.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("one lognormal, alone or beside a constant, is met exactly", "[identity]") {
    for (const double share : {1.0, 0.3}) {
        const LognormalTerm term{share, 0.3};
        const auto law = matched_sum({&term, 1});
        CHECK(law.shift == Approx(1.0 - share).margin(1e-9));
        CHECK(law.log_scale == Approx(std::log(share)).margin(1e-9));
        CHECK(law.log_standard_deviation == Approx(0.3).epsilon(1e-9));
    }
    // Terms that are one and the same doubt are one term.
    CorrelationMatrix together(2);
    together.set(0, 1, 1.0);
    const LognormalTerm halves[] = {{0.4, 0.3}, {0.6, 0.3}};
    CHECK(matched_sum(halves, together).log_standard_deviation == Approx(0.3).epsilon(1e-9));
    // exp(.3 z) and .7 + .3 exp(.3 z): what lies z standard deviations out.
    const LognormalTerm all{1.0, 0.3}, part{0.3, 0.3};
    for (const double z : {-2.0, 0.0, 1.5}) {
        CHECK(matched_sum({&all, 1}).at(z) == Approx(std::exp(0.3 * z)).epsilon(1e-8));
        CHECK(matched_sum({&part, 1}).at(z) == Approx(0.7 + 0.3 * std::exp(0.3 * z)).epsilon(1e-8));
    }
    const LognormalTerm exact{1.0, 0.0};
    CHECK(matched_sum({&exact, 1}).at(2.0) == Approx(1.0).epsilon(1e-12));
}

TEST_CASE("the first three moments are those of the sum", "[reference]") {
    // By hand, moments of the lognormal exp(s z): mean exp(s^2/2), variance mean^2 (exp(s^2) - 1), third
    // central moment mean^3 (w - 1)^2 (w + 2), w = exp(s^2); of independent terms they add.
    const LognormalTerm terms[] = {{0.5, 0.3}, {0.2, 0.45}};
    double mean = 0.3, variance = 0.0, third = 0.0;
    for (const auto& t : terms) {
        const double w = std::exp(t.log_standard_deviation * t.log_standard_deviation), m = t.share * std::sqrt(w);
        mean += m, variance += m * m * (w - 1), third += m * m * m * (w - 1) * (w - 1) * (w + 2);
    }
    const auto law = matched_sum(terms);
    const double w = std::exp(law.log_standard_deviation * law.log_standard_deviation);
    const double m = std::exp(law.log_scale) * std::sqrt(w);
    CHECK(law.shift + m == Approx(mean).epsilon(1e-12));
    CHECK(m * m * (w - 1) == Approx(variance).epsilon(1e-10));
    CHECK(m * m * m * (w - 1) * (w - 1) * (w + 2) == Approx(third).epsilon(1e-9));
}

TEST_CASE("chances of a matched sum are those of its draws", "[reference]") {
    // Half a million draws by the random engine, with a normal rest of .13 as paints have; standard error .07
    // points at most, asked for are .3. Shares, spreads and what they share.
    struct Row {
        std::vector<LognormalTerm> terms;
        double common;
    };
    const Row rows[] = {{{{0.5, 0.30}, {0.5, 0.336}}, 0.0}, {{{0.5, 0.30}, {0.5, 0.107}}, 0.0},
                        {{{0.3, 0.40}, {0.7, 0.02}}, 0.0},  {{{0.5, 0.30}, {0.5, 0.336}}, 0.18},
                        {{{0.2, 0.45}, {0.3, 0.1}, {0.5, 0.3}}, 0.05}};
    for (const Row& row : rows) {
        const std::size_t n = row.terms.size();
        CorrelationMatrix correlation(n);
        for (std::size_t i = 0; i < n; ++i)
            for (std::size_t j = i + 1; j < n; ++j)
                if (row.common > 0.0)
                    correlation.set(i, j, row.common * row.common /
                                              (row.terms[i].log_standard_deviation *
                                               row.terms[j].log_standard_deviation));
        const auto law = matched_sum(row.terms, correlation);
        const NormalGrid grid = normal_grid(0.3);
        std::vector<double> centres;
        for (const double z : grid.z)
            centres.push_back(-std::log(law.at(z)));
        const NormalMixture said(0.13, centres, grid.weights);
        RandomEngine engine(11);
        constexpr int draws = 500'000;
        const double limits[] = {-0.4, -0.2, 0.0, 0.2, 0.4};
        int below[5] = {};
        for (int i = 0; i < draws; ++i) {
            const double common = row.common * standard_normal(engine);
            double sum = 0.0;
            for (const auto& t : row.terms)
                sum += t.share *
                       std::exp(common + std::sqrt(std::pow(t.log_standard_deviation, 2) - row.common * row.common) *
                                             standard_normal(engine));
            const double x = -std::log(sum) + 0.13 * standard_normal(engine);
            for (int j = 0; j < 5; ++j)
                below[j] += x < limits[j];
        }
        for (int j = 0; j < 5; ++j) {
            CAPTURE(row.terms[0].share, row.terms[1].log_standard_deviation, row.common, limits[j]);
            CHECK(said.below(limits[j]).value() == Approx(double(below[j]) / draws).margin(0.003));
        }
    }
}

TEST_CASE("sums that mean nothing are refused", "[errors]") {
    const LognormalTerm negative{-0.1, 0.3}, nan{0.5, NAN};
    const LognormalTerm too_much[] = {{0.6, 0.1}, {0.6, 0.1}};
    CHECK_THROWS_AS(matched_sum({&negative, 1}), DomainError);
    CHECK_THROWS_AS(matched_sum({&nan, 1}), DomainError);
    CHECK_THROWS_AS(matched_sum(too_much), DomainError);
    CHECK_THROWS_AS(matched_sum({too_much, 1}, CorrelationMatrix(2)), DomainError);
}

TEST_CASE("a term of no share, and shares that are one up to rounding, are sums", "[unit]") {
    const LognormalTerm terms[] = {{0.0, 0.4}, {1.0, 0.3}};
    CHECK(matched_sum(terms).log_standard_deviation == Approx(0.3).epsilon(1e-9));
    const LognormalTerm rounded[] = {{0.7, 0.3}, {0.3 + 5e-10, 0.3}};
    CHECK_NOTHROW(matched_sum(rounded));
    const LognormalTerm more[] = {{0.7, 0.3}, {0.3 + 5e-9, 0.3}};
    CHECK_THROWS_WITH(matched_sum(more), Catch::Contains("sum of the shares"));
    const LognormalTerm small{1e-4, 0.3}; // no doubt is too small to be one
    CHECK(matched_sum({&small, 1}).log_standard_deviation == Approx(0.3).epsilon(1e-5));
    // Two terms of correlation r: variance and third moment of the bivariate lognormal, by hand from E exp(a z1 + b z2).
    const double s = 0.3, t = 0.5, r = 0.4;
    const LognormalTerm pair[] = {{0.4, s}, {0.5, t}};
    CorrelationMatrix correlation(2);
    correlation.set(0, 1, r);
    const auto power = [&](int i, int j) { // E X^i Y^j
        return std::pow(0.4, i) * std::pow(0.5, j) *
               std::exp(0.5 * (i * i * s * s + j * j * t * t + 2 * i * j * r * s * t));
    };
    const double m1 = power(1, 0) + power(0, 1), m2 = power(2, 0) + 2 * power(1, 1) + power(0, 2);
    const double m3 = power(3, 0) + 3 * power(2, 1) + 3 * power(1, 2) + power(0, 3);
    const auto law = matched_sum(pair, correlation);
    const double w = std::exp(law.log_standard_deviation * law.log_standard_deviation);
    const double m = std::exp(law.log_scale) * std::sqrt(w);
    CHECK(law.shift + m == Approx(0.1 + m1).epsilon(1e-12));
    CHECK(m * m * (w - 1) == Approx(m2 - m1 * m1).epsilon(1e-9));
    CHECK(m * m * m * (w - 1) * (w - 1) * (w + 2) == Approx(m3 - 3 * m1 * m2 + 2 * m1 * m1 * m1).epsilon(1e-8));
}
