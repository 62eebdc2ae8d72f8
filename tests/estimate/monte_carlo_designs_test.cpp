// How the draws are laid out: evenly (stratified, Sobol), or along the slope of the model (directed).
#include "lakebound/estimate/monte_carlo.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/estimate/probability.hpp"
#include "support/every_drawing.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("stratified and Sobol draws fill every stratum once in each part", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0.5, 0.5}, {}},
                                             {"b", {Shape::rectangular, 0.5, 0.5}, {}},
                                             {"c", {Shape::rectangular, 0.5, 0.5}, {}}};
    const auto pass = [](std::span<const double> x, std::span<double> y) {
        std::copy(x.begin(), x.end(), y.begin());
    };
    for (const auto drawing : {Drawing::stratified, Drawing::sobol}) {
        MonteCarloOptions options;
        options.draws = 16 * 512;
        options.drawing = drawing;
        const auto draws = joint_monte_carlo(pass, 3, inputs, options);
        REQUIRE(draws.parts.size() == 16);
        REQUIRE(draws.count() == options.draws);
        for (std::size_t output = 0; output < 3; ++output)
            for (std::size_t part = 0; part < 16; ++part) {
                std::vector<int> hits(512);
                for (std::size_t i = 512 * part; i < 512 * (part + 1); ++i)
                    ++hits[static_cast<std::size_t>(512 * draws.outputs[output][i])];
                REQUIRE(std::all_of(hits.begin(), hits.end(), [](int n) { return n == 1; }));
            }
    }
}

TEST_CASE("designed draws need far fewer for the same standard error", "[identity]") {
    const std::vector<UncertainInput> inputs{{"binder", {Shape::lognormal, 1.30314, 0.04}, {}},
                                             {"oil absorption", {Shape::lognormal, 1, 0.3}, {}},
                                             {"transfer", {Shape::lognormal, 1, 0.1}, {}}};
    const auto k = [](std::span<const double> x) { return x[0] / (x[1] * x[2]); };
    const auto error = [&](Drawing drawing) {
        MonteCarloOptions options;
        options.draws = 16 * 1024;
        options.drawing = drawing;
        return probability_below(monte_carlo(k, inputs, options), 1.0).standard_error;
    };
    CHECK(error(Drawing::stratified) < 0.7 * error(Drawing::independent));
    CHECK(error(Drawing::sobol) < 0.3 * error(Drawing::independent));
    CHECK(error(Drawing::directed) < 0.03 * error(Drawing::independent));
}

TEST_CASE("directed draws keep every input's own distribution", "[identity]") {
    const std::vector<UncertainInput> inputs{{"exact", {Shape::exact, 3, 0}, {}},
                                             {"rectangular", {Shape::rectangular, 1, 0.5}, {}},
                                             {"arc sine", {Shape::arc_sine, 0, 0.4}, {}},
                                             {"lognormal", {Shape::lognormal, 2, 0.2}, {}},
                                             {"normal", {Shape::normal, 0, 0.3}, {}}};
    const auto model = [](std::span<const double> x, std::span<double> y) {
        y[0] = x[1] * x[3] + x[2] - x[4];
        std::copy(x.begin(), x.end(), y.begin() + 1);
    };
    MonteCarloOptions options;
    options.draws = 16 * 4096;
    options.drawing = Drawing::directed;
    const auto draws = joint_monte_carlo(model, 6, inputs, options);
    for (std::size_t i = 1; i < inputs.size(); ++i) {
        const auto& d = inputs[i].distribution;
        for (const double p : {0.05, 0.3, 0.8}) {
            const auto seen = probability_below(draws, quantile(d, p), i + 1);
            CHECK(std::abs(seen.value - p) < 4.5 * seen.standard_error + 1e-9);
        }
        CHECK(summarise(draws, 0.95, i + 1).standard_deviation ==
              Approx(d.standard_uncertainty()).epsilon(2e-3));
    }
    // And leave them as independent as they were.
    double product = 0;
    for (std::size_t i = 0; i < draws.count(); ++i)
        product += (draws.outputs[2][i] - 1) * draws.outputs[5][i] / static_cast<double>(draws.count());
    CHECK(std::abs(product) < 4 * 0.5 / std::sqrt(3.0) * 0.3 / std::sqrt(65536.0));
}

TEST_CASE("directed draws of a flat or refusing model fall back without harm", "[unit]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}},
                                             {"b", {Shape::normal, 0, 1}, {}}};
    MonteCarloOptions options;
    options.draws = 16 * 256;
    options.drawing = Drawing::directed;
    const auto even = [](std::span<const double> x) { return x[0] * x[0] + x[1] * x[1]; };
    const auto p = probability_below(monte_carlo(even, inputs, options), 2.0);
    CHECK(std::abs(p.value - (1 - std::exp(-1.0))) < 4 * p.standard_error);
}

TEST_CASE("lognormal draws are the exponential of normal ones to the last digits", "[identity]") {
    // Complete correlation gives both inputs the same z, up to the rounding of the factor.
    for (const double spread : {1e-3, 0.3, 5.0, 59.0, 70.0}) {
        const std::vector<UncertainInput> inputs{{"z", {Shape::normal, 0, 1}, {}},
                                                 {"x", {Shape::lognormal, 2, spread}, {}}};
        MonteCarloOptions options;
        options.draws = 20000;
        options.correlation = CorrelationMatrix(2);
        options.correlation.set(0, 1, 1.0);
        const auto model = [&](std::span<const double> x) { return x[1] / (2 * std::exp(spread * x[0])) - 1; };
        const auto draws = monte_carlo(model, inputs, options);
        double worst = 0;
        for (const double e : draws.outputs[0])
            worst = std::max(worst, std::abs(e));
        CHECK(worst < 2e-15 + spread * 4e-15); // an error of one last digit in z is worth s z of them
    }
}

TEST_CASE("inputs without a correlation keep their draws among those that have one", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0.5, 0.5}, {}},
                                             {"b", {Shape::normal, 0, 1}, {}},
                                             {"c", {Shape::normal, 0, 1}, {}}};
    const auto pass = [](std::span<const double> x, std::span<double> y) { std::copy(x.begin(), x.end(), y.begin()); };
    for (const auto drawing : every_drawing) {
        MonteCarloOptions options;
        options.draws = 16 * 1024;
        options.drawing = drawing;
        options.correlation = CorrelationMatrix(3);
        options.correlation.set(1, 2, -0.8);
        const auto d = joint_monte_carlo(pass, 3, inputs, options);
        double bc = 0, b = 0, c = 0, ab = 0;
        for (std::size_t i = 0; i < d.count(); ++i) {
            const double n = static_cast<double>(d.count());
            bc += d.outputs[1][i] * d.outputs[2][i] / n;
            b += d.outputs[1][i] * d.outputs[1][i] / n;
            c += d.outputs[2][i] * d.outputs[2][i] / n;
            ab += (d.outputs[0][i] - 0.5) * d.outputs[1][i] / n;
        }
        CHECK(bc / std::sqrt(b * c) == Approx(-0.8).margin(0.02));
        CHECK(ab == Approx(0.0).margin(4 * 0.2887 / 128));
        CHECK(b == Approx(1.0).margin(0.05));
        const auto [low, high] = std::minmax_element(d.outputs[0].begin(), d.outputs[0].end());
        CHECK(*low > 0.0);
        CHECK(*high < 1.0);
        CHECK(summarise(d, 0.95, 0).standard_deviation == Approx(1 / std::sqrt(12.0)).epsilon(0.03));
    }
}

TEST_CASE("directed draws look along the slope, wherever it points, and not into what the model refuses", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}}, {"b", {Shape::normal, 0, 1}, {}}};
    MonteCarloOptions options;
    options.draws = 16 * 256;
    options.drawing = Drawing::directed;
    for (const double side : {1.0, -1.0}) {
        const auto f = [side](std::span<const double> x) { return side * x[0] + 0.5 * x[1]; };
        const auto p = probability_below(monte_carlo(f, inputs, options), std::sqrt(1.25));
        CHECK(p.value == Approx(standard_normal_cdf(1.0)).margin(1e-3).epsilon(0)); // one axis carries all of it
        CHECK(p.standard_error < 1e-3); // plain draws: .0057
    }
    // A slope that is no number counts for none; the draws still stand.
    options.greatest_refused_share = 0.6;
    const auto half = [](std::span<const double> x) { return x[0] < 0.05 ? std::nan("") : x[0] + x[1]; };
    CHECK(monte_carlo(half, inputs, options).refused > 0);
    // Exact inputs have no axis.
    const std::vector<UncertainInput> all_exact{{"a", {Shape::exact, 2, 0}, {}}};
    CHECK(summarise(monte_carlo(sum, all_exact, options)).mean == Approx(2.0));
}

TEST_CASE("the mean of designed draws has the error that its parts show", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 1, 1}, {}}, {"b", {Shape::lognormal, 1, 0.5}, {}}};
    const auto f = [](std::span<const double> x) { return x[0] * x[1]; };
    double squares = 0;
    const double exact = std::exp(0.125);
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        MonteCarloOptions options;
        options.draws = 16 * 64;
        options.seed = seed;
        options.drawing = Drawing::stratified;
        const auto mean = monte_carlo_mean(monte_carlo(f, inputs, options));
        CHECK(mean.standard_error < 1.2 * std::exp(0.125) / 32); // plain draws: sd 1.5, over sqrt(1024)
        squares += std::pow((mean.value - exact) / mean.standard_error, 2) / 60;
    }
    // 60 of them: the root mean square of t with 15 degrees (1.07) is within a fifth or so.
    CHECK(std::sqrt(squares) > 0.8);
    CHECK(std::sqrt(squares) < 1.4);
    CHECK(MonteCarloDraws{}.count() == 0);
}

TEST_CASE("directed draws look along a slope however small its unit makes it", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}}, {"b", {Shape::lognormal, 1, 0.3}, {}}};
    MonteCarloOptions options;
    options.draws = 1024;
    options.drawing = Drawing::directed;
    const auto in_unit = [&](double unit) {
        return monte_carlo([unit](std::span<const double> x) { return unit * (x[0] + 2.0 * x[1]); }, inputs, options).outputs[0];
    };
    const auto plain = in_unit(1.0), small = in_unit(0x1p-40);
    REQUIRE(small.size() == plain.size());
    for (std::size_t i = 0; i < plain.size(); i += 7)
        CHECK(small[i] * 0x1p40 == Approx(plain[i]).epsilon(1e-9));
}
