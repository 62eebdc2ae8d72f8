#include "lakebound/estimate/budget.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
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

TEST_CASE("what drives ln k, ln PVC and ln reduced PVC", "[reference]") {
    // Independent ln-sd and results of the table in the theory of k, computed by hand there; printed
    // to whole percent and two or three digits, hence the margins.
    const double density = 1880, oil = 930, oil_absorption = 0.6878, k0 = 1.303;
    const auto factor = [](const char* name, double s) { return input(name, Shape::lognormal, 1, s); };
    const std::vector<UncertainInput> inputs{factor("oil absorption", 0.10),   factor("method transfer", 0.10),
                                             factor("binder solids", 0.04),    factor("binder density", 0.04),
                                             factor("pigment moisture", 0.03), factor("weighing", 0.006),
                                             factor("pigment density", 0.106)};
    const auto model = [&](std::span<const double> x, std::span<double> y) {
        const double demand = oil_absorption / oil * x[0] * x[1];           // m3 of binder per kg
        const double binder = k0 * oil_absorption / oil * x[2] / x[3];      // m3
        const double mass = x[4] * x[5], pigment = mass / (density * x[6]); // kg, m3
        const double pvc = pigment / (pigment + binder);
        const double critical = 1.0 / (1.0 + demand * density * x[6]);
        y[0] = std::log(binder / (mass * demand));
        y[1] = std::log(pvc);
        y[2] = std::log(pvc / critical);
    };
    const auto j = joint_budget(model, 3, inputs);
    const auto share = [&](std::size_t output, std::size_t line) {
        return 100 * j.outputs[output].lines[line].share;
    };
    // One rub-out: sd of ln k .155; density cancels out of k altogether.
    CHECK(j.outputs[0].standard_uncertainty == Approx(0.155).margin(5e-4).epsilon(0));
    CHECK(std::abs(share(0, 6)) < 1e-10);
    CHECK(j.outputs[1].standard_uncertainty == Approx(0.080).margin(5e-4).epsilon(0));
    CHECK(share(1, 6) == Approx(73).margin(0.5).epsilon(0));
    CHECK(share(1, 2) == Approx(10).margin(0.5).epsilon(0));
    CHECK(share(1, 3) == Approx(10).margin(0.5).epsilon(0));
    CHECK(share(1, 4) == Approx(6).margin(0.5).epsilon(0));
    CHECK(share(1, 5) == Approx(0.2).margin(0.05).epsilon(0));
    CHECK(share(1, 0) == Approx(0).margin(1e-10));
    CHECK(j.outputs[2].standard_uncertainty == Approx(0.092).margin(5e-4).epsilon(0));
    CHECK(share(2, 0) == Approx(40).margin(1).epsilon(0));
    CHECK(share(2, 1) == Approx(40).margin(1).epsilon(0));
    CHECK(share(2, 2) == Approx(8).margin(1.5).epsilon(0));
    CHECK(share(2, 4) == Approx(4).margin(0.5).epsilon(0));
    CHECK(share(2, 6) == Approx(0.5).margin(0.05).epsilon(0));
}

TEST_CASE("effective degrees of freedom of two components", "[reference]") {
    // u 0.57 with 9 degrees of freedom and 0.25 with infinitely many give 12.8: a course of a
    // national laboratory on uncertainty, read in a copy (metrology-course); printed to one decimal.
    const std::vector<UncertainInput> inputs{input("repeatability", Shape::normal, 1, 0.57, 9),
                                             input("resolution", Shape::normal, 1, 0.25)};
    const auto b = budget([](std::span<const double> x) { return x[0] + x[1]; }, inputs);
    CHECK(b.effective_degrees_of_freedom.value() == Approx(12.8).margin(0.05).epsilon(0));
}

TEST_CASE("mass calibration and comparison loss to first and second order", "[reference]") {
    SECTION("jcgm-101, 9.3: mass in air") {
        const std::vector<UncertainInput> inputs{
            input("conventional mass", Shape::normal, 100000, 0.050),
            input("difference", Shape::normal, 1.234, 0.020), input("air", Shape::rectangular, 1.20, 0.10),
            input("weight", Shape::rectangular, 8000, 1000), input("reference", Shape::rectangular, 8000, 50)};
        const auto model = [](std::span<const double> x) {
            return (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100000;
        };
        const auto b = budget(model, inputs, {.correlation = {}, .second_order = true});
        // Table 5: 1.2340, 0.0539; higher-order terms 0.0750; values from memory, printed to 1e-4.
        CHECK(b.value == Approx(1.2340).margin(5e-5).epsilon(0));
        CHECK(b.standard_uncertainty == Approx(0.0539).margin(5e-5).epsilon(0));
        CHECK(b.second_order_uncertainty.value() == Approx(0.0750).margin(5e-5).epsilon(0));
    }
    SECTION("jcgm-101, 9.4: sum of squares, where the second-order variance is exact") {
        const std::vector<UncertainInput> inputs{input("real", Shape::normal, 0.050, 0.005),
                                                 input("imaginary", Shape::normal, 0, 0.005)};
        const auto model = [](std::span<const double> x) { return x[0] * x[0] + x[1] * x[1]; };
        const auto b = budget(model, inputs, {.correlation = {}, .second_order = true});
        // First order 2 x u; with squares of normals, var = 4 x^2 u^2 + 4 u^4 (non-central chi-square).
        CHECK(b.standard_uncertainty == Approx(2 * 0.050 * 0.005).epsilon(1e-8));
        CHECK(b.second_order_uncertainty.value() ==
              Approx(std::sqrt(4 * 0.0025 * 2.5e-5 + 4 * 6.25e-10)).epsilon(1e-8));
        CHECK(std::abs(b.lines[1].contribution) < 1e-12); // flat at 0: the trap of first order
    }
}

TEST_CASE("properties of every budget", "[identity]") {
    const std::vector<UncertainInput> inputs{
        input("a", Shape::normal, 3, 0.1), input("b", Shape::lognormal, 2, 0.2),
        input("c", Shape::rectangular, 5, 0.3), input("d", Shape::exact, 7, 0)};
    const auto f = [](std::span<const double> x) { return x[0] * x[1] + x[2] / x[3]; };
    const auto b = budget(f, inputs);
    double sum = 0;
    for (const auto& line : b.lines)
        sum += line.share;
    CHECK(sum == Approx(1).margin(1e-12));
    CHECK(b.lines[3].contribution == 0);
    CHECK(b.lines[3].share == 0);
    CHECK(b.lines[3].sensitivity == Approx(-5.0 / 49).epsilon(1e-8)); // df/dd is still told
    CHECK(b.lines[1].sensitivity == Approx(3).epsilon(1e-6));
    CHECK(b.lines[1].standard_uncertainty == Approx(0.4).epsilon(1e-12));
    CHECK(std::isinf(b.effective_degrees_of_freedom.value()));
    CHECK(first_order_uncertainty(f, inputs) == Approx(b.standard_uncertainty).epsilon(1e-14));

    // Scaling: an output in another unit has its uncertainty in that unit and the same shares.
    const auto g = [&](std::span<const double> x) { return 1e6 * f(x); };
    const auto scaled = budget(g, inputs);
    CHECK(scaled.standard_uncertainty == Approx(1e6 * b.standard_uncertainty).epsilon(1e-9));
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(scaled.lines[i].share == Approx(b.lines[i].share).margin(1e-9));

    // ln of a product of powers of lognormal factors: sigma^2 = sum (a s)^2, exactly.
    const std::vector<UncertainInput> factors{input("p", Shape::lognormal, 0.02, 0.3),
                                              input("q", Shape::lognormal, 1900, 0.1)};
    const auto h = [](std::span<const double> x) { return std::log(x[0] * x[0] / x[1]); };
    CHECK(first_order_uncertainty(h, factors) == Approx(std::hypot(0.6, 0.1)).epsilon(1e-10));
}

TEST_CASE("complete correlation adds uncertainties, opposite correlation takes them away", "[identity]") {
    const std::vector<UncertainInput> inputs{input("a", Shape::normal, 1, 0.3),
                                             input("b", Shape::normal, 1, 0.3)};
    const auto f = [](std::span<const double> x) { return x[0] + x[1]; };
    BudgetOptions options{CorrelationMatrix(2), false};
    options.correlation.set(0, 1, 1.0);
    CHECK(budget(f, inputs, options).standard_uncertainty == Approx(0.6).epsilon(1e-9));
    options.correlation.set(1, 0, -1.0);
    CHECK(budget(f, inputs, options).standard_uncertainty == Approx(0).margin(1e-9));
}

TEST_CASE("at a border of the model the slope is taken inwards", "[unit]") {
    const auto f = [](std::span<const double> x) {
        if (x[0] < 0) throw_out_of_range("fraction", x[0], "", "0 or more");
        return 2 * x[0] + x[0] * x[0];
    };
    const std::vector<UncertainInput> inputs{input("moisture", Shape::normal, 0, 0.03)};
    CHECK(budget(f, inputs).standard_uncertainty == Approx(0.06).epsilon(1e-9));
    CHECK_FALSE(
        budget(f, inputs, {.correlation = {}, .second_order = true}).second_order_uncertainty.has_value());
    const auto only_one = [](std::span<const double> x) {
        if (x[0] != 0) throw_out_of_range("fraction", x[0], "", "0");
        return 1.0;
    };
    CHECK_THROWS_AS(budget(only_one, inputs), DomainError);
}

TEST_CASE("budgets that cannot be drawn up are refused", "[errors]") {
    const auto f = [](std::span<const double> x) { return x[0]; };
    const double infinity = std::numeric_limits<double>::infinity();
    const std::vector<UncertainInput> good{input("a", Shape::normal, 1, 0.1), input("b", Shape::normal, 1, 0.1),
                                           input("c", Shape::normal, 1, 0.1)};
    CHECK_THROWS_AS(budget(f, std::vector{input("a", Shape::normal, infinity, 0.1)}), DomainError);
    CHECK_THROWS_AS(budget(f, std::vector{input("a", Shape::normal, 1, -0.1)}), DomainError);
    CHECK_THROWS_AS(budget(f, std::vector{input("a", Shape::normal, 1, 0.1, 0)}), DomainError);
    CHECK_THROWS_AS(budget([](std::span<const double>) { return std::nan(""); }, good), DomainError);
    CHECK_THROWS_AS(joint_budget([](std::span<const double>, std::span<double>) {}, 0, good), DomainError);
    BudgetOptions options{CorrelationMatrix(2), false};
    CHECK_THROWS_AS(budget(f, good, options), DomainError); // size
    options.correlation = CorrelationMatrix(3);
    CHECK_THROWS_AS(options.correlation.set(0, 0, 0.5), DomainError);
    CHECK_THROWS_AS(options.correlation.set(0, 3, 0.5), DomainError);
    CHECK_THROWS_AS(options.correlation.set(0, 1, 1.01), DomainError);
    options.correlation.set(0, 1, 0.9); // a with b and b with c, but a against c: impossible
    options.correlation.set(1, 2, 0.9);
    options.correlation.set(0, 2, -0.9);
    CHECK_THROWS_AS(budget(f, good, options), DomainError);
}

TEST_CASE("the factor of a correlation matrix gives the matrix back", "[identity]") {
    CorrelationMatrix r(4);
    r.set(1, 2, 0.9);
    r.set(1, 3, -0.4);
    r.set(2, 3, -0.2);
    const auto f = r.factor();
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t j = 0; j < 4; ++j) {
            double sum = 0;
            for (std::size_t k = 0; k < 4; ++k)
                sum += f[4 * i + k] * f[4 * j + k];
            CHECK(sum == Approx(r(i, j)).margin(1e-14));
        }
    CHECK(f[0] == Approx(1)); // the independent input keeps its own variate
}

TEST_CASE("a one-sided slope is that of a parabola, from either side", "[identity]") {
    // 3 x^2 + 2 x at 1: slope 8 exactly, for a parabola through three points is the function itself.
    const std::vector<UncertainInput> inputs{{"x", {Shape::normal, 1.0, 0.1}, {}}};
    for (const double side : {1.0, -1.0}) {
        const auto f = [side](std::span<const double> x) {
            if (side * (x[0] - 1.0) < 0.0) throw DomainError("x", "outside", "on the other side");
            return 3.0 * x[0] * x[0] + 2.0 * x[0];
        };
        CHECK(budget(f, inputs).lines[0].sensitivity == Approx(8.0).epsilon(1e-6));
        CHECK(first_order_uncertainty(f, inputs) == Approx(0.8).epsilon(1e-6));
    }
}

TEST_CASE("the second-order variance has its mixed terms", "[reference]") {
    // jcgm-100, 5.1.2 note, by hand. x^3 at x with u: 9 x^4 u^2 + (36/2 + 18) x^2 u^4.
    const double x = 1.5, u = 0.2, y = 0.7, v = 0.1;
    const std::vector<UncertainInput> one{input("x", Shape::normal, x, u)};
    const auto cube = [](std::span<const double> a) { return a[0] * a[0] * a[0]; };
    CHECK(budget(cube, one, {.correlation = {}, .second_order = true}).second_order_uncertainty.value() ==
          Approx(std::sqrt(9 * std::pow(x, 4) * u * u + 36 * x * x * std::pow(u, 4))).epsilon(1e-6));
    // x y^2: first order y^4 u^2 + 4 x^2 y^2 v^2; f_xy = 2y twice, f_x f_xyy = 2 y^2, f_yy = 2x.
    const std::vector<UncertainInput> two{input("x", Shape::normal, x, u), input("y", Shape::normal, y, v),
                                          input("exact", Shape::exact, 1.0, 0.0)};
    const auto f = [](std::span<const double> a) { return a[0] * a[1] * a[1] * a[2]; };
    const auto b = budget(f, two, {.correlation = {}, .second_order = true});
    const double first = std::pow(y, 4) * u * u + 4 * x * x * y * y * v * v;
    CHECK(b.standard_uncertainty == Approx(std::sqrt(first)).epsilon(1e-8));
    CHECK(b.second_order_uncertainty.value() ==
          Approx(std::sqrt(first + 6 * y * y * u * u * v * v + 2 * x * x * std::pow(v, 4))).epsilon(1e-6));
    // Only of independent inputs.
    BudgetOptions correlated{CorrelationMatrix(3), true};
    CHECK(budget(f, two, correlated).second_order_uncertainty.has_value());
    correlated.correlation.set(0, 1, 0.1);
    CHECK_FALSE(budget(f, two, correlated).second_order_uncertainty.has_value());
    CHECK_FALSE(budget(f, two).second_order_uncertainty.has_value());
}

TEST_CASE("a budget does not depend on the unit of its output, however small", "[identity]") {
    const std::vector<UncertainInput> inputs{input("a", Shape::normal, 3, 0.1), input("b", Shape::lognormal, 0.4, 0.2),
                                             input("c", Shape::lognormal, -0.4, 0.2)};
    for (const double unit : {1.0, 1e-9}) {
        const auto f = [unit](std::span<const double> x, std::span<double> y) {
            y[0] = unit * (x[0] + 2 * x[1] + 3 * x[2]);
            y[1] = unit * (x[0] - 2 * x[1]);
            y[2] = unit * 7.0;
        };
        const auto j = joint_budget(f, 3, inputs);
        // By hand: u .1, .4 x .2 and .4 x .2 in the three; 2 and 3 times the last two.
        const double va = 0.01, vb = 4 * 0.0064, vc = 9 * 0.0064;
        CHECK(j.outputs[0].standard_uncertainty == Approx(unit * std::sqrt(va + vb + vc)).epsilon(1e-7));
        CHECK(j.correlation(0, 1) == Approx((va - vb) / std::sqrt((va + vb + vc) * (va + vb))).epsilon(1e-7));
        CHECK(j.covariance[1] == Approx(unit * unit * (va - vb)).epsilon(1e-7));
        CHECK(j.covariance[3] == Approx(unit * unit * (va - vb)).epsilon(1e-7));
        CHECK(j.outputs[0].lines[1].share == Approx(vb / (va + vb + vc)).epsilon(1e-7));
        // What is sensed of a lognormal is the slope itself, on either side of zero.
        CHECK(j.outputs[0].lines[1].sensitivity == Approx(2 * unit).epsilon(1e-6));
        CHECK(j.outputs[0].lines[2].sensitivity == Approx(3 * unit).epsilon(1e-6));
        // An output that moves with nothing has no shares and no correlation.
        CHECK(j.outputs[2].lines[0].share == Approx(0.0).margin(1e-300));
        CHECK(j.correlation(0, 2) == Approx(0.0).margin(1e-300));
    }
}

TEST_CASE("slopes of exact inputs, and of uncertainties near the last digit", "[unit]") {
    const auto f = [](std::span<const double> x) { return 5 + 2 * x[0] + 4 * x[1] * x[1]; };
    const std::vector<UncertainInput> exact{input("zero", Shape::exact, 0, 0), input("small", Shape::exact, 1e-4, 0)};
    const auto b = budget(f, exact);
    CHECK(b.lines[0].sensitivity == Approx(2).epsilon(1e-6));
    CHECK(b.lines[1].sensitivity == Approx(8e-4).epsilon(1e-3));
    CHECK(b.standard_uncertainty == Approx(0.0).margin(1e-300));
    // A step of a thousandth of 1e-7 is below the last digit of a million.
    const std::vector<UncertainInput> sharp{input("sharp", Shape::normal, 1e6, 1e-7)};
    CHECK(budget([](std::span<const double> x) { return 3 * x[0]; }, sharp).standard_uncertainty ==
          Approx(3e-7).epsilon(1e-2));
    // An input that the model takes at one value only, told by its name.
    const auto only = [](std::span<const double> x) {
        if (x[1] != 2.0) throw DomainError("second", "another", "2");
        return x[0];
    };
    const std::vector<UncertainInput> both{input("free", Shape::normal, 1, 0.1), input("bound", Shape::normal, 2, 0.1)};
    CHECK_THROWS_WITH(budget(only, both), Catch::Contains("bound"));
    const std::vector<UncertainInput> held{input("free", Shape::normal, 1, 0.1), input("bound", Shape::exact, 2, 0)};
    CHECK(budget(only, held).lines[1].sensitivity == Approx(0.0).margin(1e-300));
}

TEST_CASE("degrees of freedom come of what counts, and of nothing correlated", "[unit]") {
    const std::vector<UncertainInput> inputs{input("a", Shape::normal, 1, 0.3, 4), input("b", Shape::normal, 1, 0.4),
                                             input("flat", Shape::normal, 1, 0.5, 2)};
    const auto f = [](std::span<const double> x) { return x[0] + x[1] + 0.0 * x[2]; };
    // Welch and Satterthwaite, by hand: (.25)^2/(.09^2/4).
    CHECK(budget(f, inputs).effective_degrees_of_freedom.value() == Approx(0.25 * 0.25 / (0.09 * 0.09 / 4)).epsilon(1e-6));
    BudgetOptions options{CorrelationMatrix(3), false};
    options.correlation.set(1, 2, 0.5); // b has no finite number, and flat counts for nothing
    CHECK(budget(f, inputs, options).effective_degrees_of_freedom.value() ==
          Approx(0.25 * 0.25 / (0.09 * 0.09 / 4)).epsilon(1e-6));
    options.correlation.set(0, 1, 0.1);
    CHECK_FALSE(budget(f, inputs, options).effective_degrees_of_freedom.has_value());
}

TEST_CASE("the uncertainty alone is that of the whole budget", "[identity]") {
    const std::vector<UncertainInput> inputs{input("a", Shape::normal, 2, 0.1), input("b", Shape::lognormal, 3, 0.2),
                                             input("c", Shape::exact, 4, 0), input("d", Shape::rectangular, 1, 0.3)};
    const auto f = [](std::span<const double> x) { return x[0] * x[1] + x[2] * x[3]; };
    BudgetOptions options{CorrelationMatrix(4), false};
    CHECK(first_order_uncertainty(f, inputs, options) == Approx(budget(f, inputs).standard_uncertainty).epsilon(1e-14));
    options.correlation.set(0, 1, -0.7);
    const double u = first_order_uncertainty(f, inputs, options);
    CHECK(u == Approx(budget(f, inputs, options).standard_uncertainty).epsilon(1e-14));
    // By hand: .3, 1.2 and 4 x .3/sqrt 3; the first two -.7 correlated.
    CHECK(u == Approx(std::sqrt(0.09 + 1.44 + 0.48 - 2 * 0.7 * 0.3 * 1.2)).epsilon(1e-8));
    CHECK_THROWS_AS(first_order_uncertainty(f, std::vector(3, inputs[0]), options), DomainError);
}
