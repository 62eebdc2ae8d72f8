#include "lakebound/estimate/monte_carlo.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

#include "lakebound/estimate/probability.hpp"
#include "support/every_drawing.hpp"

using namespace lakebound;
using namespace lakebound::testing;

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
    for (const auto drawing : every_drawing) {
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
    for (const auto drawing : every_drawing) {
        MonteCarloOptions options;
        options.draws = 65536;
        options.drawing = drawing;
        const auto p = probability_below(monte_carlo(k, inputs, options), 1.0);
        CHECK(p.standard_error > 0);
        CHECK(p.standard_error < 0.002);
        CHECK(std::abs(p.value - exact) < 4 * p.standard_error);
    }
}

TEST_CASE("mass calibration of JCGM 101, 9.3", "[reference]") {
    const std::vector<UncertainInput> inputs{{"conventional mass", {Shape::normal, 100000, 0.050}, {}},
                                             {"difference", {Shape::normal, 1.234, 0.020}, {}},
                                             {"air", {Shape::rectangular, 1.20, 0.10}, {}},
                                             {"weight", {Shape::rectangular, 8000, 1000}, {}},
                                             {"reference", {Shape::rectangular, 8000, 50}, {}}};
    const auto model = [](std::span<const double> x) {
        return (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100000;
    };
    MonteCarloOptions options;
    options.draws = 1'000'000;
    const auto s = summarise(monte_carlo(model, inputs, options));
    // Inputs read; published 1.2341, u 0.0754, shortest 95 % [1.0834, 1.3825] (values from memory,
    // jcgm-101, table 5). Margins: the mean's standard error is 8e-5, that of u 5e-5. The ends of a
    // shortest interval wander together, for the width is flat about its minimum: their error falls
    // with the cube root of the draws only (an independent run of 4e5 draws gave [1.0833, 1.3830]).
    // The width itself is firm.
    CHECK(s.mean == Approx(1.2341).margin(4e-4).epsilon(0));
    CHECK(s.standard_deviation == Approx(0.0754).margin(2e-4).epsilon(0));
    CHECK(s.shortest.low == Approx(1.0834).margin(5e-3).epsilon(0));
    CHECK(s.shortest.high == Approx(1.3825).margin(5e-3).epsilon(0));
    CHECK(s.shortest.width() == Approx(0.2991).margin(1e-3).epsilon(0));
    CHECK(s.symmetric.low == Approx(1.0838).margin(1e-3).epsilon(0));
    CHECK(s.symmetric.high == Approx(1.3836).margin(1e-3).epsilon(0));
}

TEST_CASE("comparison loss of JCGM 101, 9.4", "[reference]") {
    const std::vector<UncertainInput> inputs{{"real", {Shape::normal, 0.050, 0.005}, {}},
                                             {"imaginary", {Shape::normal, 0, 0.005}, {}}};
    const auto loss = [](std::span<const double> x) { return x[0] * x[0] + x[1] * x[1]; };
    MonteCarloOptions options;
    options.draws = 1'000'000;
    SECTION("independent: u^2 times a non-central chi-square with 2 degrees of freedom") {
        const auto s = summarise(monte_carlo(loss, inputs, options));
        const double u2 = 2.5e-5, noncentrality = 100, mean = u2 * (2 + noncentrality);
        const double sd = u2 * std::sqrt(2 * (2 + 2 * noncentrality));
        CHECK(s.mean == Approx(mean).margin(4 * sd / 1e3).epsilon(0));
        CHECK(s.standard_deviation == Approx(sd).epsilon(4 / std::sqrt(2e6)));
    }
    SECTION("correlated by 0.9: the mean stays, var = 4 x^2 u^2 + 4 u^4 (1 + r^2)") {
        options.correlation = CorrelationMatrix(2);
        options.correlation.set(0, 1, 0.9);
        for (const auto drawing : every_drawing) {
            options.drawing = drawing;
            const auto s = summarise(monte_carlo(loss, inputs, options));
            const double sd = std::sqrt(4 * 0.0025 * 2.5e-5 + 4 * 6.25e-10 * (1 + 0.81));
            CHECK(s.mean == Approx(0.0025 + 5e-5).margin(4 * sd / 1e3).epsilon(0));
            CHECK(s.standard_deviation == Approx(sd).epsilon(4 / std::sqrt(2e6)));
        }
    }
}

TEST_CASE("falling-ball viscometer of NIST TN 1900, example E3", "[reference]") {
    // nist-tn-1900. Results read: 5.82, u 1.11, 95 % [4.05, 8.39] mPa s. Inputs: values from memory; that the
    // results follow from them supports them. Published to 0.01; margins allow for the ends' own scatter.
    const std::vector<UncertainInput> inputs{{"calibration liquid", {Shape::normal, 4.63, 0.01 * 4.63}, {}},
                                             {"ball", {Shape::normal, 2217, 0.5}, {}},
                                             {"measured liquid", {Shape::normal, 1180, 0.5}, {}},
                                             {"calibration density", {Shape::normal, 810, 0.5}, {}},
                                             {"time", {Shape::normal, 61, 0.10 * 61}, {}},
                                             {"calibration time", {Shape::normal, 36.6, 0.15 * 36.6}, {}}};
    const auto viscosity = [](std::span<const double> x) {
        return x[0] * (x[1] - x[2]) / (x[1] - x[3]) * x[4] / x[5];
    };
    MonteCarloOptions options;
    options.draws = 1'000'000;
    const auto s = summarise(monte_carlo(viscosity, inputs, options));
    CHECK(s.mean == Approx(5.82).margin(0.01).epsilon(0));
    CHECK(s.standard_deviation == Approx(1.11).margin(0.02).epsilon(0));
    CHECK(s.symmetric.low == Approx(4.05).margin(0.02).epsilon(0));
    CHECK(s.symmetric.high == Approx(8.39).margin(0.04).epsilon(0));
}

TEST_CASE("the stated standard error of a chance is the one seen", "[identity]") {
    // 400 seeds: the spread of the deviations in units of the stated error is 1 +- 0.1 for a normal
    // law, a little more with 15 degrees of freedom (sqrt(15/13) = 1.07).
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}},
                                             {"b", {Shape::normal, 0, 1}, {}}};
    const auto f = [](std::span<const double> x) { return x[0] + x[1]; };
    const double exact = standard_normal_cdf(-1.0);
    for (const auto drawing : every_drawing) {
        double squares = 0;
        for (std::uint64_t seed = 0; seed < 400; ++seed) {
            MonteCarloOptions options;
            options.draws = 2048;
            options.seed = seed;
            options.drawing = drawing;
            const auto p = probability_below(monte_carlo(f, inputs, options), -std::sqrt(2.0));
            squares += std::pow((p.value - exact) / p.standard_error, 2) / 400;
        }
        CHECK(std::sqrt(squares) > 0.85);
        CHECK(std::sqrt(squares) < 1.25);
    }
}

TEST_CASE("Monte Carlo agrees with the first-order budget where the model is straight", "[identity]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 10, 0.2}, {}},
                                             {"b", {Shape::arc_sine, 1, 0.3}, {}},
                                             {"c", {Shape::rectangular, 0, 0.4}, {}},
                                             {"d", {Shape::exact, 2, 0}, {}}};
    const auto f = [](std::span<const double> x) { return 3 * x[0] - 2 * x[1] + x[2] + x[3]; };
    const auto s = summarise(monte_carlo(f, inputs));
    const auto b = budget(f, inputs);
    CHECK(s.mean == Approx(b.value).margin(4 * b.standard_uncertainty / std::sqrt(1e5)).epsilon(0));
    CHECK(s.standard_deviation == Approx(b.standard_uncertainty).epsilon(4 / std::sqrt(2e5)));
    const auto mean = monte_carlo_mean(monte_carlo(f, inputs));
    CHECK(mean.standard_error == Approx(b.standard_uncertainty / std::sqrt(1e5)).epsilon(0.01));
}

TEST_CASE("draws the model refuses are counted, and too many refuse the answer", "[errors]") {
    const std::vector<UncertainInput> inputs{{"moisture", {Shape::normal, 0.1, 0.04}, {}}};
    const auto dry = [](std::span<const double> x) {
        if (x[0] < 0) throw_out_of_range("mass fraction", x[0], "", "0 to 1");
        return 1 - x[0];
    };
    const auto draws = monte_carlo(dry, inputs); // Phi(-2.5) = 0.62 %
    CHECK(draws.refused == Approx(621).margin(100));
    CHECK(draws.count() == 100000 - draws.refused);
    CHECK(draws.parts.back() == draws.count());
    CHECK(draws.first_refusal.find("mass fraction") != std::string::npos);
    MonteCarloOptions strict;
    strict.greatest_refused_share = 0.001;
    CHECK_THROWS_AS(monte_carlo(dry, inputs, strict), DomainError);
    const auto logarithm = [](std::span<const double> x) { return std::log(x[0]); }; // NaN below 0
    CHECK(monte_carlo(logarithm, inputs).refused == draws.refused);
    // Faults of the program are not refusals; they come out of any thread.
    const auto broken = [](std::span<const double>) -> double { throw std::logic_error("fault"); };
    MonteCarloOptions two;
    two.threads = 2;
    CHECK_THROWS_AS(monte_carlo(broken, inputs, two), std::logic_error);
}

TEST_CASE("Monte Carlo that cannot be done is refused", "[errors]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0, 1}, {}},
                                             {"b", {Shape::normal, 0, 1}, {}}};
    MonteCarloOptions options;
    options.draws = 1;
    CHECK_THROWS_AS(monte_carlo(sum, inputs, options), DomainError);
    options.draws = 1000;
    CHECK_THROWS_AS(monte_carlo(sum, std::vector<UncertainInput>{}, options), DomainError);
    options.correlation = CorrelationMatrix(2);
    CHECK_NOTHROW(monte_carlo(sum, inputs, options));
    options.correlation.set(0, 1, 0.5); // a rectangular input has no agreed joint law
    CHECK_THROWS_AS(monte_carlo(sum, inputs, options), DomainError);
    options.correlation = CorrelationMatrix(3);
    CHECK_THROWS_AS(monte_carlo(sum, inputs, options), DomainError);
    CHECK_THROWS_AS(probability_below(monte_carlo(sum, inputs), 0.0, 1), DomainError);
}

TEST_CASE("no crossing in the draws is not certainty", "[unit]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0, 1}, {}}};
    MonteCarloOptions options;
    options.draws = 1000;
    const auto p = probability_below(monte_carlo(sum, inputs, options), -10.0);
    CHECK(p.value == 0);
    CHECK(p.standard_error == Approx(std::sqrt(0.5) / 1000).epsilon(0.01));
    CHECK(probability_above(monte_carlo(sum, inputs, options), -10.0).value == 1);
    options.drawing = Drawing::directed; // 16 parts that all count the same
    CHECK(probability_below(monte_carlo(sum, inputs, options), -10.0).standard_error > 1e-4);
}

TEST_CASE("the error of a drawn chance allows for half a crossing more", "[unit]") {
    // (k + 1/2)/(n + 1), by hand from the count itself.
    const std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0.5, 0.5}, {}}};
    MonteCarloOptions options;
    options.draws = 1000;
    const auto draws = monte_carlo([](std::span<const double> x) { return x[0]; }, inputs, options);
    for (const double limit : {0.003, 0.4}) {
        const auto chance = probability_below(draws, limit);
        const double k = std::round(chance.value * 1000.0), p = (k + 0.5) / 1001.0;
        CHECK(chance.standard_error == Approx(std::sqrt(p * (1.0 - p) / 1000.0)).epsilon(1e-12));
    }
}

TEST_CASE("two draws are enough and one is not", "[errors]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::normal, 0.0, 1.0}, {}}};
    const auto f = [](std::span<const double> x) { return x[0]; };
    for (const auto drawing : every_drawing) {
        MonteCarloOptions options;
        options.drawing = drawing;
        options.draws = 1;
        CHECK_THROWS_AS(monte_carlo(f, inputs, options), DomainError);
        options.draws = 100'000'001;
        CHECK_THROWS_AS(monte_carlo(f, inputs, options), DomainError);
        options.draws = 2;
        CHECK(monte_carlo(f, inputs, options).count() >= 2);
    }
}

TEST_CASE("inputs that are none are refused before anything is drawn", "[errors]") {
    const auto with = [](Shape shape, double location, double scale) {
        return std::vector<UncertainInput>{{"odd", {shape, location, scale}, {}}};
    };
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK_THROWS_WITH(monte_carlo(sum, with(Shape::normal, infinity, 1)), Catch::Contains("odd"));
    CHECK_THROWS_WITH(monte_carlo(sum, with(Shape::normal, 0, -1e-9)), Catch::Contains("odd"));
    CHECK_THROWS_WITH(monte_carlo(sum, with(Shape::normal, 0, infinity)), Catch::Contains("odd"));
    CHECK_NOTHROW(monte_carlo(sum, with(Shape::normal, 0, 0)));
    CHECK_THROWS_WITH(joint_monte_carlo([](std::span<const double>, std::span<double>) {}, 0, with(Shape::normal, 0, 1)),
                      Catch::Contains("number of outputs"));
    MonteCarloOptions correlated; // exact inputs have no correlation; those that have none may be of any shape
    correlated.draws = 100;
    correlated.correlation = CorrelationMatrix(3);
    correlated.correlation.set(1, 2, 0.5);
    std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0, 1}, {}},
                                       {"b", {Shape::normal, 0, 1}, {}},
                                       {"c", {Shape::lognormal, 1, 0.1}, {}}};
    CHECK_NOTHROW(monte_carlo(sum, inputs, correlated));
    inputs[2].distribution = {Shape::exact, 1, 0};
    CHECK_THROWS_WITH(monte_carlo(sum, inputs, correlated), Catch::Contains("shape of the correlated input c"));
}

TEST_CASE("a model that refuses all, or all but one, has no answer", "[errors]") {
    const std::vector<UncertainInput> inputs{{"a", {Shape::rectangular, 0.5, 0.5}, {}}};
    MonteCarloOptions options;
    options.draws = 4;
    options.greatest_refused_share = 1.0;
    const auto none = [](std::span<const double>) -> double { throw DomainError("a", "any", "none at all"); };
    CHECK_THROWS_WITH(monte_carlo(none, inputs, options), Catch::Contains("4 of 4") && Catch::Contains("none at all"));
    int asked = 0; // one thread, and each draw asks once
    const auto one = [&asked](std::span<const double> x) {
        if (asked++ > 0) throw DomainError("a", "another", "the first");
        return x[0];
    };
    CHECK_THROWS_WITH(monte_carlo(one, inputs, options), Catch::Contains("3 of 4"));
    asked = 0;
    const auto two = [&asked](std::span<const double> x) {
        if (asked++ > 1) throw DomainError("a", "another", "the first two");
        return x[0];
    };
    CHECK(monte_carlo(two, inputs, options).count() == 2);
    options.greatest_refused_share = 0.5; // 2 of 4 is the share allowed
    asked = 0;
    CHECK(monte_carlo(two, inputs, options).count() == 2);
}

TEST_CASE("draws that lie on the limit are neither above nor below it", "[reference]") {
    // The whole part of a number drawn evenly from 0 to 3 is 0, 1 or 2, a third of the time each.
    const auto whole = [](std::span<const double> x) { return std::floor(x[0]); };
    const std::vector<UncertainInput> evenly{{"a", {Shape::rectangular, 1.5, 1.5}, {}}};
    MonteCarloOptions options;
    options.draws = 30'000;
    const auto draws = monte_carlo(whole, evenly, options);
    CHECK(probability_above(draws, 1.0).value == Approx(1.0 / 3.0).margin(0.015));
    CHECK(probability_below(draws, 1.0).value == Approx(1.0 / 3.0).margin(0.015));
    CHECK(probability_above(draws, 2.0).value == Approx(0.0).margin(1e-15));
    CHECK(probability_below(draws, 0.0).value == Approx(0.0).margin(1e-15));
}
