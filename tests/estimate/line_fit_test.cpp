#include "lakebound/estimate/line_fit.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
// jcgm-100, Table H.6: thermometer readings in degrees C, and corrections.
constexpr std::array t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
constexpr std::array b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160};
} // namespace

TEST_CASE("the thermometer line of the GUM, H.3", "[reference]") {
    const auto fit = fit_line(t, b, 20.0);
    // As printed in H.3.3 and H.3.4: half a last digit.
    CHECK(fit.intercept.value == Approx(-0.1712).margin(5e-5).epsilon(0));
    CHECK(fit.intercept.standard_uncertainty == Approx(0.0029).margin(5e-5).epsilon(0));
    CHECK(fit.slope.value == Approx(0.00218).margin(5e-6).epsilon(0));
    CHECK(fit.slope.standard_uncertainty == Approx(0.00067).margin(5e-6).epsilon(0));
    CHECK(fit.correlation() == Approx(-0.93).margin(5e-3).epsilon(0));
    CHECK(fit.at(30).value == Approx(-0.1494).margin(5e-5).epsilon(0));
    CHECK(fit.at(30).standard_uncertainty == Approx(0.0041).margin(5e-5).epsilon(0));
    // Full precision of an independent uncertainty library, read in its examples (metrology-course).
    CHECK(fit.intercept.value == Approx(-0.17120379013135004).epsilon(1e-12));
    CHECK(fit.slope.value == Approx(0.0021826977398872894).epsilon(1e-11));
    CHECK(fit.slope.standard_uncertainty == Approx(0.0006679387732278323).epsilon(1e-11));
    CHECK(fit.residual_sum_of_squares == Approx(0.000110096583109).epsilon(1e-11));
    CHECK(fit.residual_standard_deviation() == Approx(0.00349756).epsilon(2e-6));
    CHECK(fit.degrees_of_freedom == 9);
}

TEST_CASE("a line through exact points, and its freedom of origin and scale", "[identity]") {
    const std::vector<double> x{1, 2, 4, 8}, y{5, 7, 11, 19};
    const auto exact = fit_line(x, y);
    CHECK(exact.intercept.value == Approx(3).epsilon(1e-14));
    CHECK(exact.slope.value == Approx(2).epsilon(1e-14));
    CHECK(exact.residual_sum_of_squares == Approx(0).margin(1e-25));
    // The same line told from another origin gives the same prediction and uncertainty.
    const auto here = fit_line(t, b, 20.0), there = fit_line(t, b, -300.0);
    CHECK(here.at(27).value == Approx(there.at(27).value).epsilon(1e-12));
    CHECK(here.at(27).standard_uncertainty == Approx(there.at(27).standard_uncertainty).epsilon(1e-9));
    // The best known point is the mean of x: s / sqrt n.
    CHECK(here.at(24.0084545454545).standard_uncertainty ==
          Approx(here.residual_standard_deviation() / std::sqrt(11.0)).epsilon(1e-9));
}

TEST_CASE("points that make no line are refused", "[errors]") {
    CHECK_THROWS_AS(fit_line(std::vector{1.0, 2.0}, std::vector{1.0, 2.0}), DomainError);
    CHECK_THROWS_AS(fit_line(std::vector{1.0, 2.0, 3.0}, std::vector{1.0, 2.0}), DomainError);
    CHECK_THROWS_AS(fit_line(std::vector{2.1, 2.1, 2.1}, std::vector{1.0, 2.0, 3.0}), DomainError);
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(fit_line(std::vector{1.0, 2.0, infinity}, std::vector{1.0, 2.0, 3.0}), DomainError);
}

TEST_CASE("three points leave one degree of freedom, and small figures are figures", "[identity]") {
    // 0, 1, 2 with 0, 1, 0 by hand: slope 0, mean 1/3, S 2/3, s sqrt(2/3).
    for (const double unit : {1.0, 1e-9}) {
        const std::vector<double> x{0, 1, 2}, y{0, unit, 0};
        const auto fit = fit_line(x, y, 1.0);
        CHECK(fit.degrees_of_freedom == 1);
        CHECK(fit.residual_standard_deviation() == Approx(unit * std::sqrt(2.0 / 3.0)).epsilon(1e-12));
        CHECK(fit.slope.standard_uncertainty == Approx(unit * std::sqrt(1.0 / 3.0)).epsilon(1e-12));
        CHECK(fit.intercept.standard_uncertainty == Approx(unit * std::sqrt(2.0) / 3.0).epsilon(1e-12));
        CHECK(fit.correlation() == Approx(0.0).margin(1e-12));
        const auto left = fit_line(x, y, 0.0); // cov = -s^2 mean/sxx; r = -mean/sqrt(sxx/n + mean^2) = -sqrt(3/5)
        CHECK(left.correlation() == Approx(-std::sqrt(0.6)).epsilon(1e-12));
        CHECK(left.at(2.0).standard_uncertainty == Approx(unit * std::sqrt(2.0 / 3.0 * 5.0 / 6.0)).epsilon(1e-12));
    }
    CHECK(fit_line(std::vector{1.0, 2.0, 3.0}, std::vector{2.0, 4.0, 6.0}).correlation() == Approx(0.0).margin(1e-300));
    CHECK(fit_line(std::vector{1.0, 1.0, 1.0 + 1e-9}, std::vector{0.0, 0.0, 1e-9}).slope.value == Approx(1.0).epsilon(1e-6));
    const LineFit empty;
    CHECK(empty.residual_standard_deviation() == Approx(0.0).margin(1e-300));
    CHECK_THROWS_WITH(fit_line(std::vector{1.0, 2.0, 3.0}, std::vector{1.0, std::nan(""), 3.0}), Catch::Contains("y of a point"));
}
