#include "lakebound/estimate/least_squares.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
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
