#include "lakebound/estimate/budget.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

UncertainInput input(const char* name, Shape shape, double location, double scale,
                     double degrees_of_freedom = std::numeric_limits<double>::infinity()) {
    return {name, {scale == 0.0 ? Shape::exact : shape, location, scale}, {}, degrees_of_freedom};
}

// jcgm-100, H.1: calibration of an end gauge, lengths in nm, temperatures in degrees.
std::vector<UncertainInput> end_gauge() {
    return {input("standard", Shape::normal, 50000623, 25, 18),
            input("difference, repeatability", Shape::normal, 215, 5.8, 24),
            input("difference, comparator random", Shape::normal, 0, 3.9, 5),
            input("difference, comparator systematic", Shape::normal, 0, 6.7, 8),
            input("expansion of the standard", Shape::rectangular, 11.5e-6, 2e-6),
            input("mean temperature", Shape::normal, -0.1, 0.2),
            input("cyclic temperature", Shape::arc_sine, 0, 0.5),
            input("difference of expansion", Shape::rectangular, 0, 1e-6, 50),
            input("difference of temperature", Shape::rectangular, 0, 0.05, 2)};
}
double end_gauge_length(std::span<const double> x) {
    const double theta = x[5] + x[6];
    return x[0] + x[1] + x[2] + x[3] - x[0] * (x[7] * theta + x[4] * x[8]);
}

} // namespace

TEST_CASE("the end gauge of the GUM, H.1", "[reference]") {
    const auto b = budget(end_gauge_length, end_gauge(), {.correlation = {}, .second_order = true});
    // jcgm-100, H.1.3 to H.1.7, published rounded to whole nanometres.
    CHECK(b.value == Approx(50000838).margin(0.5).epsilon(0));
    CHECK(b.standard_uncertainty == Approx(32).margin(0.5).epsilon(0));
    CHECK(b.second_order_uncertainty.value() == Approx(34).margin(0.5).epsilon(0));
    // Computed without the rounding of intermediate results: 31.664, 33.807, nu 16.75.
    CHECK(b.standard_uncertainty == Approx(31.664).margin(0.0005).epsilon(0));
    CHECK(b.second_order_uncertainty.value() == Approx(33.807).margin(0.001).epsilon(0));
    CHECK(b.effective_degrees_of_freedom.value() == Approx(16.75).margin(0.005).epsilon(0));
    CHECK(std::floor(b.effective_degrees_of_freedom.value()) == 16); // as H.1.6 truncates
    // Contributions published in Table H.1: 25, 5.8, 3.9, 6.7, 0, 0, 0, 2.9, 16.6 nm.
    const double expected[] = {25, 5.8, 3.9, 6.7, 0, 0, 0, 2.88679, 16.599};
    for (std::size_t i = 0; i < 9; ++i) {
        INFO(b.lines[i].name);
        CHECK(std::abs(b.lines[i].contribution) == Approx(expected[i]).margin(1e-3).epsilon(0));
    }
}

TEST_CASE("correlated readings of the GUM, H.2", "[reference]") {
    const std::vector<UncertainInput> inputs{input("V", Shape::normal, 4.999, 3.2e-3),
                                             input("I", Shape::normal, 19.661e-3, 9.5e-6),
                                             input("phi", Shape::normal, 1.04446, 7.5e-4)};
    BudgetOptions options{CorrelationMatrix(3), false};
    options.correlation.set(0, 1, -0.36);
    options.correlation.set(0, 2, 0.86);
    options.correlation.set(1, 2, -0.65);
    const auto model = [](std::span<const double> x, std::span<double> y) {
        y[0] = x[0] / x[1] * std::cos(x[2]);
        y[1] = x[0] / x[1] * std::sin(x[2]);
        y[2] = x[0] / x[1];
    };
    const auto j = joint_budget(model, 3, inputs, options);
    // jcgm-100, Table H.4: value and uncertainty to the digits printed there.
    CHECK(j.outputs[0].value == Approx(127.732).margin(5e-4).epsilon(0));
    CHECK(j.outputs[1].value == Approx(219.85).margin(5e-3).epsilon(0));
    CHECK(j.outputs[2].value == Approx(254.26).margin(5e-3).epsilon(0));
    // R 0.070 (0.071 with the unrounded inputs); X 0.30; Z 0.24.
    CHECK(j.outputs[0].standard_uncertainty == Approx(0.070).margin(5e-4).epsilon(0));
    CHECK(j.outputs[1].standard_uncertainty == Approx(0.30).margin(5e-3).epsilon(0));
    CHECK(j.outputs[2].standard_uncertainty == Approx(0.24).margin(5e-3).epsilon(0));
    // Recomputed with more digits from the same inputs: 0.06998, 0.2957, 0.2366.
    CHECK(j.outputs[0].standard_uncertainty == Approx(0.06998).margin(1e-5).epsilon(0));
    CHECK(j.outputs[1].standard_uncertainty == Approx(0.2957).margin(5e-5).epsilon(0));
    CHECK(j.outputs[2].standard_uncertainty == Approx(0.2366).margin(5e-5).epsilon(0));
    // r(R,X) -0.59, r(R,Z) -0.49, r(X,Z) 0.99, printed to two digits.
    CHECK(j.correlation(0, 1) == Approx(-0.59).margin(5e-3).epsilon(0));
    CHECK(j.correlation(0, 2) == Approx(-0.49).margin(5e-3).epsilon(0));
    CHECK(j.correlation(1, 2) == Approx(0.99).margin(5e-3).epsilon(0));
    for (const auto& b : j.outputs) {
        double sum = 0;
        for (const auto& line : b.lines)
            sum += line.share;
        CHECK(sum == Approx(1).margin(1e-12));
    }
}
