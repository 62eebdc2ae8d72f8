#include "lakebound/estimate/logistic_fit.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("beetles in carbon disulphide", "[reference]") {
    // bliss-1935 (data and the textbooks' -60.72, 34.27 from memory); more digits by SciPy,
    // tests/reference/learning_check.py: -60.7175, 34.2703 (2.912), x50 1.77172.
    const double x[] = {1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839};
    const double n[] = {59, 60, 62, 56, 63, 59, 62, 60}, dead[] = {6, 13, 18, 28, 52, 53, 61, 60};
    std::vector<TrialGroup> groups;
    for (int i = 0; i < 8; ++i)
        groups.push_back({x[i], n[i], dead[i]});
    const auto fit = fit_logistic(groups);
    CHECK(fit.intercept.value == Approx(-60.7175).margin(5e-4).epsilon(0));
    CHECK(fit.slope.value == Approx(34.2703).margin(5e-4).epsilon(0));
    CHECK(fit.slope.standard_uncertainty == Approx(2.912).margin(1e-3).epsilon(0));
    CHECK(fit.threshold.value == Approx(1.77172).margin(1e-5).epsilon(0));
}

TEST_CASE("age at menarche", "[reference]") {
    // menarche-data (data read; the published -21.226, 1.632 from memory); more digits by SciPy,
    // tests/reference/learning_check.py: -21.2264, 1.63197 (.05895), x50 13.0066 years.
    const double rows[][3] = {{9.21, 376, 0},    {10.21, 200, 0},   {10.58, 93, 0},    {10.83, 120, 2},  {11.08, 90, 2},
                              {11.33, 88, 5},    {11.58, 105, 10},  {11.83, 111, 17},  {12.08, 100, 16}, {12.33, 93, 29},
                              {12.58, 100, 39},  {12.83, 108, 51},  {13.08, 99, 47},   {13.33, 106, 67}, {13.58, 105, 81},
                              {13.83, 117, 88},  {14.08, 98, 79},   {14.33, 97, 90},   {14.58, 120, 113}, {14.83, 102, 95},
                              {15.08, 122, 117}, {15.33, 111, 107}, {15.58, 94, 92},   {15.83, 114, 112}, {17.58, 1049, 1049}};
    std::vector<TrialGroup> groups;
    for (const auto& r : rows)
        groups.push_back({r[0], r[1], r[2]});
    const auto fit = fit_logistic(groups);
    CHECK(fit.intercept.value == Approx(-21.2264).margin(5e-5).epsilon(0));
    CHECK(fit.slope.value == Approx(1.63197).margin(5e-6).epsilon(0));
    CHECK(fit.slope.standard_uncertainty == Approx(.05895).margin(5e-6).epsilon(0));
    CHECK(fit.threshold.value == Approx(13.0066).margin(5e-5).epsilon(0));
}

TEST_CASE("the Racine bioassay", "[reference]") {
    // racine-1986 (data and the textbook's .8, 7.7 from memory); more digits by SciPy, tests/reference/learning_check.py:
    // .84658 (1.019), 7.74882 (4.873), x50 -.1093.
    const std::vector<TrialGroup> groups{{-.86, 5, 0}, {-.30, 5, 1}, {-.05, 5, 3}, {.73, 5, 5}};
    const auto fit = fit_logistic(groups);
    CHECK(fit.intercept.value == Approx(.84658).margin(1e-5).epsilon(0));
    CHECK(fit.intercept.standard_uncertainty == Approx(1.019).margin(5e-4).epsilon(0));
    CHECK(fit.slope.value == Approx(7.74882).margin(1e-5).epsilon(0));
    CHECK(fit.slope.standard_uncertainty == Approx(4.873).margin(5e-4).epsilon(0));
    CHECK(fit.threshold.value == Approx(-.1093).margin(5e-5).epsilon(0));
    // The lesson for swatches: the slope is known to 63 % of itself.
    CHECK(fit.width.standard_uncertainty / fit.width.value == Approx(.63).margin(.005).epsilon(0));
}

TEST_CASE("a fit moves and turns with its places", "[identity]") {
    const std::vector<TrialGroup> groups{{0, 10, 2}, {1, 10, 5}, {2, 10, 7}}, moved{{5, 10, 8}, {3, 10, 5}, {1, 10, 3}};
    const auto a = fit_logistic(groups), b = fit_logistic(moved); // x' = 5 - 2x, kinds changed about
    CHECK(b.slope.value == Approx(a.slope.value / 2).epsilon(1e-9));
    CHECK(b.threshold.value == Approx(5 - 2 * a.threshold.value).epsilon(1e-9));
    CHECK(b.threshold.standard_uncertainty == Approx(2 * a.threshold.standard_uncertainty).epsilon(1e-9));
    CHECK(b.width.value == Approx(2 * a.width.value).epsilon(1e-9));
    CHECK(b.log_likelihood == Approx(a.log_likelihood).epsilon(1e-12));
    CHECK(a.intercept.value == Approx(-a.slope.value * a.threshold.value).epsilon(1e-12));
}

TEST_CASE("trials that leave the fit open are refused", "[errors]") {
    CHECK_THROWS_AS(fit_logistic({}), DomainError);
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{0, 5, 0}, {1, 5, 5}}), DomainError); // parted
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{0, 5, 5}, {1, 5, 0}}), DomainError);
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{0, 5, 5}, {1, 5, 5}}), DomainError); // one kind
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{1, 5, 2}, {1, 5, 3}}), DomainError); // one place
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{0, 5, 6}, {1, 5, 2}}), DomainError);
    CHECK_THROWS_AS(fit_logistic(std::vector<TrialGroup>{{NAN, 5, 1}, {1, 5, 2}}), DomainError);
}

TEST_CASE("numbers of trials that are none are refused, and small ones are not", "[errors]") {
    CHECK_THROWS_WITH(fit_logistic(std::vector<TrialGroup>{{0, INFINITY, 1}, {1, 5, 2}}), Catch::Contains("number of trials"));
    CHECK_THROWS_WITH(fit_logistic(std::vector<TrialGroup>{{0, 0, 0}, {1, 5, 2}}), Catch::Contains("number of trials"));
    CHECK_THROWS_WITH(fit_logistic(std::vector<TrialGroup>{{0, 5, -1e-9}, {1, 5, 2}}), Catch::Contains("number of positives"));
    // Weights: a tenth of every trial says the same, and less surely.
    const std::vector<TrialGroup> whole{{0, 10, 2}, {1, 10, 5}, {2, 10, 7}}, thousandth{{0, .01, .002}, {1, .01, .005}, {2, .01, .007}};
    const auto a = fit_logistic(whole), b = fit_logistic(thousandth);
    CHECK(b.slope.value == Approx(a.slope.value).epsilon(1e-9));
    CHECK(b.threshold.standard_uncertainty == Approx(std::sqrt(1000.0) * a.threshold.standard_uncertainty).epsilon(1e-9));
    CHECK(b.covariance == Approx(1000 * a.covariance).epsilon(1e-9));
    // One positive below one negative is the least that leaves a fit: a saddle where nothing is known of the slope's sign.
    CHECK_NOTHROW(fit_logistic(std::vector<TrialGroup>{{0, 2, 1}, {1, 2, 1}, {2, 1, 1}}));
}

TEST_CASE("the doubt of slope, intercept and threshold is that of the curvature of the likelihood", "[reference]") {
    // By hand: information sum n p (1 - p) (1, x; x, x^2), inverted; x50 = -intercept / slope by the delta method.
    const double x[] = {1.0, 2.0, 3.0, 4.0, 5.5}, n[] = {20, 30, 25, 30, 20}, positive[] = {1, 6, 11, 22, 19};
    std::vector<TrialGroup> groups;
    for (int i = 0; i < 5; ++i)
        groups.push_back({x[i], n[i], positive[i]});
    const auto fit = fit_logistic(groups);
    const double a = fit.intercept.value, b = fit.slope.value;
    double aa = 0, ab = 0, bb = 0, score_a = 0, score_b = 0;
    for (int i = 0; i < 5; ++i) {
        const double p = 1.0 / (1.0 + std::exp(-a - b * x[i])), w = n[i] * p * (1 - p);
        aa += w, ab += w * x[i], bb += w * x[i] * x[i];
        score_a += positive[i] - n[i] * p, score_b += (positive[i] - n[i] * p) * x[i];
    }
    CHECK(score_a == Approx(0.0).margin(1e-7)); // at the greatest likelihood both slopes are nothing
    CHECK(score_b == Approx(0.0).margin(1e-7));
    const double d = aa * bb - ab * ab, va = bb / d, vb = aa / d, vab = -ab / d, x50 = -a / b;
    CHECK(fit.intercept.standard_uncertainty == Approx(std::sqrt(va)).epsilon(1e-7));
    CHECK(fit.slope.standard_uncertainty == Approx(std::sqrt(vb)).epsilon(1e-7));
    CHECK(fit.covariance == Approx(vab).epsilon(1e-7));
    CHECK(fit.threshold.value == Approx(x50).epsilon(1e-9));
    CHECK(fit.threshold.standard_uncertainty == Approx(std::sqrt(va + 2 * x50 * vab + x50 * x50 * vb) / b).epsilon(1e-7));
    CHECK(fit.width.value == Approx(1.0 / b).epsilon(1e-9));
    CHECK(fit.width.standard_uncertainty == Approx(std::sqrt(vb) / (b * b)).epsilon(1e-7));
}
