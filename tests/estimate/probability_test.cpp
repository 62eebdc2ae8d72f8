#include "lakebound/estimate/probability.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/input.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/ratio.hpp"

using namespace lakebound;

TEST_CASE("normal distribution function and quantile", "[reference]") {
    // scipy 1.10.1 (stats.norm), an independent library; 16 digits, margin of a few last digits.
    CHECK(standard_normal_cdf(-1) == Approx(0.15865525393145707).epsilon(1e-14));
    CHECK(standard_normal_cdf(-8) == Approx(6.22096057427174e-16).epsilon(1e-12));
    CHECK(standard_normal_quantile(0.975) == Approx(1.959963984540054).epsilon(1e-14));
    CHECK(standard_normal_quantile(0.05) == Approx(-1.6448536269514729).epsilon(1e-14));
    CHECK(standard_normal_quantile(1e-10) == Approx(-6.361340902404056).epsilon(1e-14));
    CHECK(lognormal_probability_below(65, 0.3, 60) == Approx(0.3948081023448417).epsilon(1e-13));
    CHECK(probability_below({Shape::arc_sine, 0, 1}, 0.3) == Approx(0.5969866840206783).epsilon(1e-13));
}

TEST_CASE("the quick normal distribution function keeps to its 5e-9 everywhere", "[identity]") {
    double worst = 0.0, before = 0.0;
    for (int i = -90000; i <= 90000; ++i) {
        const double z = 1e-4 * i, quick = quick_normal_cdf(z);
        worst = std::max(worst, std::abs(quick - standard_normal_cdf(z)));
        REQUIRE(quick >= before - 1e-15);
        before = quick;
    }
    CHECK(worst < 5e-9);
    CHECK(worst > 1e-9); // else the table is larger than it need be
    CHECK(quick_normal_cdf(0.0) == Approx(0.5).epsilon(1e-15));
    CHECK(quick_normal_cdf(-HUGE_VAL) == 0.0);
    CHECK(quick_normal_cdf(HUGE_VAL) == 1.0);
}

TEST_CASE("chance of being underbound in closed form", "[reference]") {
    // Check vectors T22 of the theory of k: printed to two or three digits, hence 1e-2 relative.
    CHECK(lognormal_probability_below(1.30314, 0.3227, 1) == Approx(0.206).epsilon(1e-2));
    CHECK(lognormal_probability_below(1.30314, 0.1554, 1) == Approx(0.0442).epsilon(1e-2));
    CHECK(lognormal_probability_below(1.30314, 0.1012, 1) == Approx(0.0044).epsilon(1e-2));
    // k needed for a risk of 5 % and 10 %: 1.70/1.29/1.25/1.18 and 1.51/1.22/1.19/1.14 at the four
    // states of knowledge; printed to 0.01.
    const double sigma[] = {0.323, 0.155, 0.133, 0.101};
    const double five[] = {1.70, 1.29, 1.25, 1.18}, ten[] = {1.51, 1.22, 1.19, 1.14};
    for (int i = 0; i < 4; ++i) {
        CHECK(lognormal_median_for_risk(1, sigma[i], 0.05) == Approx(five[i]).margin(0.0055).epsilon(0));
        CHECK(lognormal_median_for_risk(1, sigma[i], 0.10) == Approx(ten[i]).margin(0.0055).epsilon(0));
    }
}

TEST_CASE("quantile and distribution function are inverse for every shape", "[identity]") {
    for (const auto shape : {Shape::normal, Shape::lognormal, Shape::rectangular, Shape::arc_sine})
        for (const double p : {1e-6, 0.01, 0.3, 0.5, 0.77, 0.999}) {
            const Distribution d{shape, 2.0, 0.25};
            // The arc sine density is infinite at its ends, where x holds few digits of p.
            CHECK(probability_below(d, quantile(d, p)) == Approx(p).epsilon(1e-9).margin(1e-9));
        }
    CHECK(probability_below({Shape::exact, 2, 0}, 2) == 0.5);
    CHECK(probability_below({Shape::exact, 2, 0}, 2.1) == 1);
    CHECK(quantile({Shape::exact, 2, 0}, 0.1) == 2);
    CHECK(probability_below({Shape::lognormal, 2, 0.3}, -1) == 0);
    CHECK(probability_below({Shape::rectangular, 2, 0.3}, 3) == 1);
    CHECK(lognormal_probability_below(1.2, 0, 1) == 0);
}

TEST_CASE("draws have the mean and the spread that the distribution states", "[identity]") {
    for (const auto shape :
         {Shape::exact, Shape::normal, Shape::lognormal, Shape::rectangular, Shape::arc_sine}) {
        const Distribution d{shape, 3.0, shape == Shape::exact ? 0.0 : 0.2};
        RandomEngine engine(3);
        const int n = 200000;
        double sum = 0, squares = 0;
        for (int i = 0; i < n; ++i) {
            const double x = draw(d, engine) - 3.0;
            sum += x / n;
            squares += x * x / n;
        }
        const double u = d.standard_uncertainty();
        const double mean = shape == Shape::lognormal ? 3 * std::expm1(0.02) : 0; // m (exp(s^2/2) - 1)
        CHECK(sum == Approx(mean).margin(4 * u / std::sqrt(n) + 1e-12).epsilon(0));
        CHECK(std::sqrt(squares - sum * sum) == Approx(u).epsilon(0.01).margin(1e-7));
    }
}

TEST_CASE("an estimate becomes an input with its name and provenance", "[unit]") {
    const auto e = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), std::exp(0.3),
                                                      {Origin::estimate, "wide prior", true});
    const auto x = uncertain_input("oil absorption", e);
    CHECK(x.name == "oil absorption");
    CHECK(x.distribution.location == Approx(0.65));
    CHECK(x.provenance.library_default);
    CHECK(at_standard_deviations(x.distribution, 1) == Approx(0.65 * std::exp(0.3)));
    CHECK(at_standard_deviations({Shape::rectangular, 1, 0.3}, 1) == Approx(1 + 0.3 / std::sqrt(3.0)));
    CHECK(linear_uncertainty(x.distribution) == Approx(0.195));
}

TEST_CASE("probabilities outside (0, 1) and spreads that are none are refused", "[errors]") {
    CHECK_THROWS_AS(standard_normal_quantile(0), DomainError);
    CHECK_THROWS_AS(standard_normal_quantile(1), DomainError);
    CHECK_THROWS_AS(standard_normal_quantile(std::nan("")), DomainError);
    CHECK_THROWS_AS(quantile({Shape::rectangular, 0, 1}, 1.5), DomainError);
    CHECK_THROWS_AS(lognormal_probability_below(0, 0.3, 1), DomainError);
    CHECK_THROWS_AS(lognormal_probability_below(1, -0.3, 1), DomainError);
    CHECK_THROWS_AS(lognormal_probability_below(1, 0.3, 0), DomainError);
    CHECK_THROWS_AS(lognormal_median_for_risk(1, 0.3, 1), DomainError);
    CHECK_THROWS_AS(probability_below({Shape::normal, 0, 1}, std::nan("")), DomainError);
}

TEST_CASE("an arc sine and a lognormal at and beyond their ends", "[unit]") {
    CHECK(probability_below({Shape::arc_sine, 2, 0.5}, 2.5) == Approx(1.0));
    CHECK(probability_below({Shape::arc_sine, 2, 0.5}, 2.6) == Approx(1.0));
    CHECK(probability_below({Shape::arc_sine, 2, 0.5}, 1.4) == Approx(0.0).margin(1e-15));
    CHECK(probability_below({Shape::rectangular, 2, 0.5}, 1.4) == Approx(0.0).margin(1e-15));
    CHECK(probability_below({Shape::lognormal, 2e-4, 0.3}, 2e-4) == Approx(0.5));
    CHECK(probability_below({Shape::lognormal, 2, 0.3}, 0.0) == Approx(0.0).margin(1e-300));
    CHECK(probability_below({Shape::normal, 2, 0.0}, 2.0) == Approx(0.5));
    CHECK(probability_below({Shape::normal, 2, 0.0}, 1.9) == Approx(0.0).margin(1e-300));
    CHECK(lognormal_probability_below(1e-4, 0.3, 1e-4) == Approx(0.5));
    CHECK(lognormal_probability_below(1.0, 1e-4, 1.0001) == Approx(0.8413).margin(1e-4));
    CHECK(lognormal_median_for_risk(1e-4, 0.3, 0.5) == Approx(1e-4));
    CHECK(lognormal_median_for_risk(1.0, 0.0, 0.05) == Approx(1.0));
    CHECK(standard_normal_quantile(1e-4) == Approx(-3.719016485455709).epsilon(1e-13)); // scipy.stats.norm.ppf
    for (const double p : {0.0, 1.0})
        for (const Shape shape : {Shape::normal, Shape::rectangular, Shape::arc_sine, Shape::exact})
            CHECK_THROWS_AS(quantile({shape, 0, 1}, p), DomainError);
    CHECK(quantile({Shape::rectangular, 0, 1}, 1e-4) == Approx(-0.9998));
    CHECK(quantile({Shape::arc_sine, 1, 2}, 1.0 / 3.0) == Approx(0.0).margin(1e-12)); // 1 + 2 sin(-pi/6)
}

TEST_CASE("an estimate of a small quantity is one", "[unit]") {
    const auto small = Estimate<Mass>::lognormal(grams(1e-3), 1.3, {});
    CHECK(small.relative_uncertainty() == Approx(std::log(1.3)));
    const auto speck = Estimate<Mass>::normal(grams(1e-3), grams(1e-4), {});
    CHECK(speck.relative_uncertainty() == Approx(0.1).epsilon(1e-12));
    CHECK(Estimate<Share>::normal(Share::of(0.0), Share::Difference::of(0.1), {}).relative_uncertainty() ==
          Approx(0.0).margin(1e-300));
    CHECK(Estimate<Mass>::lognormal(grams(1), 1.0, {}).distribution().shape == Shape::exact);
    CHECK(measured(grams(2)).provenance().origin == Origin::measured);
}
