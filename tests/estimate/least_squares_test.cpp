#include "lakebound/estimate/least_squares.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

// nist-strd, Misra1a: y = b1 (1 - exp(-b2 x)), lower level of difficulty.
constexpr std::array misra_y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                             44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
constexpr std::array misra_x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                             378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
void misra(std::span<const double> b, std::span<double> r) {
    for (std::size_t i = 0; i < misra_x.size(); ++i)
        r[i] = misra_y[i] - b[0] * -std::expm1(-b[1] * misra_x[i]);
}

// nist-strd, MGH17: y = b1 + b2 exp(-x b4) + b3 exp(-x b5), x = 0, 10 .. 320, average difficulty.
// Observations: values from memory. The certified residual sum of squares proves them, for one
// wrong digit would change it; see the check below.
constexpr std::array mgh17_y{0.844, 0.908, 0.932, 0.936, 0.925, 0.908, 0.881, 0.850, 0.818, 0.784, 0.751,
                             0.718, 0.685, 0.658, 0.628, 0.603, 0.580, 0.558, 0.538, 0.522, 0.506, 0.490,
                             0.478, 0.467, 0.457, 0.448, 0.438, 0.431, 0.424, 0.420, 0.414, 0.411, 0.406};
void mgh17(std::span<const double> b, std::span<double> r) {
    for (std::size_t i = 0; i < mgh17_y.size(); ++i) {
        const double x = 10.0 * static_cast<double>(i);
        r[i] = mgh17_y[i] - (b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]));
    }
}
void mgh17_jacobian(std::span<const double> b, std::span<double> j) {
    for (std::size_t i = 0; i < mgh17_y.size(); ++i) {
        const double x = 10.0 * static_cast<double>(i), e = std::exp(-x * b[3]), f = std::exp(-x * b[4]);
        const std::array row{-1.0, -e, -f, b[1] * x * e, b[2] * x * f};
        std::copy(row.begin(), row.end(), j.begin() + static_cast<std::ptrdiff_t>(5 * i));
    }
}

} // namespace

TEST_CASE("NIST StRD Misra1a from both published starts", "[reference]") {
    // Certified to 11 digits. Differences leave the parameters good to about 1e-9; the standard
    // deviations depend on J itself, good to about 1e-8.
    const auto start = GENERATE(std::vector{500.0, 1e-4}, std::vector{250.0, 5e-4});
    const auto fit = least_squares(misra, misra_x.size(), start);
    REQUIRE(fit.converged());
    CHECK(fit.parameters[0] == Approx(2.3894212918E+02).epsilon(1e-8));
    CHECK(fit.parameters[1] == Approx(5.5015643181E-04).epsilon(1e-8));
    CHECK(fit.standard_uncertainty(0) == Approx(2.7070075241E+00).epsilon(1e-7));
    CHECK(fit.standard_uncertainty(1) == Approx(7.2668688436E-06).epsilon(1e-7));
    CHECK(fit.residual_sum_of_squares == Approx(1.2455138894E-01).epsilon(1e-9));
    CHECK(fit.residual_standard_deviation() == Approx(1.0187876330E-01).epsilon(1e-9));
    CHECK(fit.degrees_of_freedom == 12);
}

TEST_CASE("NIST StRD MGH17 from both published starts", "[reference]") {
    const auto start =
        GENERATE(std::vector{50.0, 150.0, -100.0, 1.0, 2.0}, std::vector{0.5, 1.5, -1.0, 0.01, 0.02});
    const bool derivatives = GENERATE(false, true);
    const auto fit = derivatives ? least_squares(mgh17, mgh17_jacobian, mgh17_y.size(), start)
                                 : least_squares(mgh17, mgh17_y.size(), start);
    INFO("iterations " << fit.iterations << ", sum of squares " << fit.residual_sum_of_squares << ", p "
                       << fit.parameters[0] << ' ' << fit.parameters[1] << ' ' << fit.parameters[2] << ' '
                       << fit.parameters[3] << ' ' << fit.parameters[4]);
    REQUIRE(fit.converged());
    CHECK(fit.residual_sum_of_squares == Approx(5.4648946975E-05).epsilon(1e-9));
    CHECK(fit.residual_standard_deviation() == Approx(1.3970497866E-03).epsilon(1e-9));
    const std::array certified{3.7541005211E-01, 1.9358469127E+00, -1.4646871366E+00, 1.2867534640E-02,
                               2.2122699662E-02};
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(fit.parameters[i] == Approx(certified[i]).epsilon(1e-6));
    CHECK(fit.degrees_of_freedom == 28);
}

TEST_CASE("nonsense is never a success", "[identity]") {
    // From far starts a fit may fail, but it may not claim a minimum that is none.
    RandomEngine engine(17);
    int converged = 0, right = 0;
    for (int i = 0; i < 500; ++i) {
        std::vector<double> start(5);
        for (double& p : start)
            p = std::pow(10.0, 6 * uniform(engine) - 3) * (uniform(engine) < 0.5 ? -1 : 1);
        start[3] = std::abs(start[3]);
        start[4] = std::abs(start[4]);
        LeastSquaresFit fit;
        try {
            fit = least_squares(mgh17, mgh17_jacobian, mgh17_y.size(), start);
        } catch (const DomainError&) {
            continue; // a start with residuals that overflow
        }
        if (!fit.converged()) continue;
        ++converged;
        right += fit.residual_sum_of_squares < 5.4649e-5;
        std::array<double, 33> r{};
        std::array<double, 165> j{};
        mgh17(fit.parameters, r);
        mgh17_jacobian(fit.parameters, j);
        for (std::size_t k = 0; k < 5; ++k) {
            double dot = 0, length = 0;
            for (std::size_t row = 0; row < 33; ++row) {
                dot += j[5 * row + k] * r[row];
                length += j[5 * row + k] * j[5 * row + k];
            }
            INFO("start " << i << ", column " << k << ", sum of squares " << fit.residual_sum_of_squares);
            CHECK(std::abs(dot) <= 1e-4 * std::sqrt(length * fit.residual_sum_of_squares));
        }
    }
    INFO(converged << " converged, " << right << " at the certified minimum");
    // Starts spread over six decades, most of them hopeless. Measured once: 59 converged, all 59 at the
    // minimum. MINPACK (scipy 1.10.1, leastsq) reports success on 490 such starts and is right on 58.
    CHECK(converged == right);
    CHECK(right > 30);
}

TEST_CASE("a linear model is solved in a step or two, with the covariance of the line", "[identity]") {
    // y = a + b x through 1, 2, 4, 8; closed form: b = 2.0714.., by the normal equations.
    const std::array<double, 4> x{1, 2, 4, 8}, y{5.5, 6.5, 11, 19.5};
    const auto line = [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < 4; ++i)
            r[i] = y[i] - p[0] - p[1] * x[i];
    };
    const auto fit = least_squares(line, 4, std::vector{0.0, 0.0});
    REQUIRE(fit.converged());
    const double n = 4, sx = 15, sxx = 85, sy = 42.5, sxy = 5.5 + 13 + 44 + 156, d = n * sxx - sx * sx;
    CHECK(fit.parameters[1] == Approx((n * sxy - sx * sy) / d).epsilon(1e-10));
    CHECK(fit.parameters[0] == Approx((sxx * sy - sx * sxy) / d).epsilon(1e-10));
    const double s2 = fit.residual_sum_of_squares / 2;
    CHECK(fit.covariance[0] == Approx(s2 * sxx / d).epsilon(1e-8));
    CHECK(fit.covariance[1] == Approx(-s2 * sx / d).epsilon(1e-8));
    CHECK(fit.covariance[1] == Approx(fit.covariance[2]).epsilon(1e-14));
    CHECK(fit.covariance[3] == Approx(s2 * n / d).epsilon(1e-8));
    LeastSquaresOptions known;
    known.residual_standard_deviation = 0.5;
    CHECK(least_squares(line, 4, std::vector{0.0, 0.0}, known).covariance[3] ==
          Approx(0.25 * n / d).epsilon(1e-8));
}

TEST_CASE("an exact fit, and as many data as parameters", "[unit]") {
    const auto decay = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] =
                3 * std::exp(-0.5 * static_cast<double>(i)) - p[0] * std::exp(-p[1] * static_cast<double>(i));
    };
    const auto exact = least_squares(decay, 10, std::vector{1.0, 1.0});
    CHECK(exact.converged());
    CHECK(exact.parameters[0] == Approx(3).epsilon(1e-10));
    CHECK(exact.parameters[1] == Approx(0.5).epsilon(1e-10));
    const auto square = least_squares(decay, 2, std::vector{1.0, 1.0});
    CHECK(square.converged());
    CHECK(square.covariance.empty());
    CHECK(square.residual_standard_deviation() == 0);
    CHECK_THROWS_AS(square.standard_uncertainty(0), DomainError);
}

TEST_CASE("what the data cannot tell apart is not converged", "[unit]") {
    const auto twins = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = static_cast<double>(i * i) - (p[0] + p[1]) * static_cast<double>(i);
    };
    const auto fit = least_squares(twins, 6, std::vector{0.3, 0.1});
    CHECK_FALSE(fit.converged());
    CHECK(fit.covariance.empty());
    // A parameter the model does not use at all.
    const auto idle = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = static_cast<double>(i) - p[0];
    };
    CHECK_FALSE(least_squares(idle, 6, std::vector{0.3, 0.1}).converged());
    // Stopped on the way.
    LeastSquaresOptions short_of_breath;
    short_of_breath.most_iterations = 1;
    CHECK(least_squares(misra, misra_x.size(), std::vector{500.0, 1e-4}, short_of_breath).status ==
          FitStatus::iterations_used_up);
}

TEST_CASE("a step into what the model refuses is shortened", "[unit]") {
    const auto root = [](std::span<const double> p, std::span<double> r) {
        if (p[0] < 0) throw_out_of_range("p", p[0], "", "0 or more");
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = std::sqrt(p[0]) - 0.01 * static_cast<double>(i);
    };
    const auto fit = least_squares(root, 3, std::vector{100.0});
    CHECK(fit.converged());
    CHECK(fit.parameters[0] == Approx(1e-4).epsilon(1e-6));
}

TEST_CASE("fits that cannot begin are refused", "[errors]") {
    const auto f = [](std::span<const double> p, std::span<double> r) {
        for (double& x : r)
            x = std::log(p[0]);
    };
    CHECK_THROWS_AS(least_squares(f, 3, std::vector{-1.0}), DomainError); // NaN
    CHECK_THROWS_AS(least_squares(f, 1, std::vector{1.0, 2.0}), DomainError);
    CHECK_THROWS_AS(least_squares(f, 1, std::vector<double>{}), DomainError);
    LeastSquaresOptions options;
    options.residual_standard_deviation = 0.0;
    CHECK_THROWS_AS(least_squares(f, 3, std::vector{2.0}, options), DomainError);
}

TEST_CASE("where the model ends, slopes are taken inwards, and a fit may end there", "[unit]") {
    // (p - 2)^2 + 1 at five places, refused above and below: the parabola is straight in p, residual by residual.
    for (const double side : {1.0, -1.0}) {
        const auto bordered = [side](std::span<const double> p, std::span<double> r) {
            if (side * (p[0] - 1.0) < 0.0) throw DomainError("p", "outside", "on the other side of 1");
            for (std::size_t i = 0; i < r.size(); ++i)
                r[i] = p[0] - 1.0 - side * static_cast<double>(i);
        };
        // From the border itself: mean of 0 .. 4 is 2, to the side that is allowed.
        const auto fit = least_squares(bordered, 5, std::vector{1.0});
        CHECK(fit.converged());
        CHECK(fit.parameters[0] == Approx(1.0 + 2.0 * side).epsilon(1e-9));
        CHECK(fit.standard_uncertainty(0) == Approx(std::sqrt(10.0 / 4.0 / 5.0)).epsilon(1e-6)); // S 10, 4 left, n 5
    }
    const auto pinned = [](std::span<const double> p, std::span<double> r) {
        if (p[0] != 1.0) throw DomainError("p", "another", "1");
        for (double& x : r)
            x = 1.0;
    };
    const auto stuck = least_squares(pinned, 3, std::vector{1.0});
    CHECK(stuck.status == FitStatus::stalled);
    CHECK(stuck.covariance.empty());
    CHECK(stuck.parameters[0] == Approx(1.0));
}

TEST_CASE("a model that moves with nothing, and derivatives that are refused, stall", "[unit]") {
    const auto flat = [](std::span<const double>, std::span<double> r) {
        for (double& x : r)
            x = 2.0;
    };
    const auto fit = least_squares(flat, 3, std::vector{1.0, 0.0});
    CHECK(fit.status == FitStatus::stalled);
    CHECK(fit.covariance.empty());
    CHECK(fit.residual_sum_of_squares == Approx(12.0));
    const auto line = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = p[0] - static_cast<double>(i);
    };
    const auto refused = [](std::span<const double>, std::span<double>) { throw DomainError("slope", "none", "one"); };
    CHECK(least_squares(line, refused, 3, std::vector{5.0}).status == FitStatus::stalled);
    const auto endless = [](std::span<const double>, std::span<double> j) {
        for (double& x : j)
            x = std::numeric_limits<double>::infinity();
    };
    CHECK(least_squares(line, endless, 3, std::vector{5.0}).status == FitStatus::stalled);
    const auto good = [](std::span<const double>, std::span<double> j) {
        for (double& x : j)
            x = 1.0;
    };
    const auto done = least_squares(line, good, 3, std::vector{5.0});
    CHECK(done.converged());
    CHECK(done.parameters[0] == Approx(1.0).epsilon(1e-8));
    CHECK_THROWS_AS(done.standard_uncertainty(1), DomainError);
    CHECK(done.standard_uncertainty(0) == Approx(std::sqrt(2.0 / 2.0 / 3.0)).epsilon(1e-9));
    CHECK(done.residual_standard_deviation() == Approx(1.0).epsilon(1e-12));
    CHECK(done.degrees_of_freedom == 2);
    // A start at an exact fit is the fit.
    const auto zero = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i)
            r[i] = (p[0] - 3.0) * static_cast<double>(i + 1);
    };
    const auto at_once = least_squares(zero, 4, std::vector{3.0});
    CHECK(at_once.converged());
    CHECK(at_once.iterations == 0);
    CHECK(at_once.residual_sum_of_squares == Approx(0.0).margin(1e-300));
}

TEST_CASE("the condition of a fit is that of its scaled columns", "[reference]") {
    // y = a + b x at 1, 2, 4, 8. Columns scaled to length 1 have the product c = 15/sqrt(4 x 85) = .81349; condition
    // sqrt((1 + c)/(1 - c)) = 3.118; the pivoted triangle says 1/sqrt(1 - c^2) = 1.7192, by hand.
    const std::array<double, 4> x{1, 2, 4, 8}, y{5.5, 6.5, 11, 19.5};
    for (const double unit : {1.0, 1e6}) { // and does not change with the unit of a parameter
        const auto line = [&](std::span<const double> p, std::span<double> r) {
            for (std::size_t i = 0; i < 4; ++i)
                r[i] = y[i] - p[0] - p[1] / unit * x[i];
        };
        const auto fit = least_squares(line, 4, std::vector{1.0, unit});
        CHECK(fit.condition == Approx(1.7192).epsilon(1e-3));
        CHECK(fit.parameters[1] == Approx(unit * 236.5 / 115).epsilon(1e-8)); // 4 x 218.5 - 15 x 42.5
    }
}
