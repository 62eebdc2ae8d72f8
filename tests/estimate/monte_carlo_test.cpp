#include "lakebound/estimate/monte_carlo.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/probability.hpp"

using namespace lakebound;

namespace {

double sum(std::span<const double> x) {
    double s = 0;
    for (const double v : x)
        s += v;
    return s;
}

} // namespace

TEST_CASE("the additive models of JCGM 101, 9.2", "[reference]") {
    MonteCarloOptions options;
    options.draws = 1'000'000;
    options.seed = 101;
    SECTION("four normals: u 2.00, 95 % at +-3.92 (jcgm-101, 9.2.2, table 2)") {
        const std::vector<UncertainInput> inputs(4, {"x", {Shape::normal, 0, 1}, {}});
        const auto s = summarise(monte_carlo(sum, inputs, options));
        // Standard error of u: 2/sqrt(2e6) = 0.0014; of an end point: 0.011. Margins of four of them.
        CHECK(s.mean == Approx(0).margin(0.008));
        CHECK(s.standard_deviation == Approx(2.00).margin(0.006).epsilon(0));
        CHECK(s.symmetric.high == Approx(3.92).margin(0.02).epsilon(0));
        CHECK(s.symmetric.low == Approx(-3.92).margin(0.02).epsilon(0));
        CHECK(s.shortest.width() == Approx(7.84).margin(0.04).epsilon(0));
    }
    SECTION("four rectangular: u 2.0, 95 % at +-3.88 (jcgm-101, 9.2.3, table 3)") {
        const std::vector<UncertainInput> inputs(4, {"x", {Shape::rectangular, 0, std::sqrt(3.0)}, {}});
        const auto s = summarise(monte_carlo(sum, inputs, options));
        CHECK(s.standard_deviation == Approx(2.0).margin(0.006).epsilon(0));
        CHECK(s.symmetric.high == Approx(3.88).margin(0.012).epsilon(0));
        CHECK(s.symmetric.low == Approx(-3.88).margin(0.012).epsilon(0));
    }
}

TEST_CASE("the same seed gives the same answer, whatever the threads", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 1, 0.1}, {}},
                                             {"b", {Shape::lognormal, 2, 0.3}, {}},
                                             {"c", {Shape::arc_sine, 0, 0.5}, {}}};
    const auto model = [](std::span<const double> x) { return x[0] * x[1] + x[2]; };
    for (const auto drawing : {Drawing::independent, Drawing::stratified, Drawing::sobol}) {
        MonteCarloOptions options;
        options.draws = 70000;
        options.drawing = drawing;
        const auto one = monte_carlo(model, inputs, options);
        options.threads = 3;
        const auto three = monte_carlo(model, inputs, options);
        CHECK(one.outputs == three.outputs);
        options.seed = 2;
        CHECK(one.outputs != monte_carlo(model, inputs, options).outputs);
    }
}

TEST_CASE("closed form and every way of drawing agree on the chance of failure", "[identity]") {
    // ln k of a paint: a lognormal oil absorption against a lognormal binder volume.
    const std::vector<UncertainInput> inputs{{"binder", {Shape::lognormal, 1.30314, 0.1}, {}},
                                             {"oil absorption", {Shape::lognormal, 1, 0.3}, {}}};
    const auto k = [](std::span<const double> x) { return x[0] / x[1]; };
    const double exact = lognormal_probability_below(1.30314, std::hypot(0.1, 0.3), 1.0);
    for (const auto drawing : {Drawing::independent, Drawing::stratified, Drawing::sobol}) {
        MonteCarloOptions options;
        options.draws = 65536;
        options.drawing = drawing;
        const auto p = probability_below(monte_carlo(k, inputs, options), 1.0);
        CHECK(p.standard_error > 0);
        CHECK(p.standard_error < 0.002);
        CHECK(std::abs(p.value - exact) < 4 * p.standard_error);
    }
}
