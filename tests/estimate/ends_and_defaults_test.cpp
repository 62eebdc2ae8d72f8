// Where the estimate room's answers begin, end and stand if nothing is said, each against a value worked by hand.
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/correlation.hpp"
#include "lakebound/estimate/input.hpp"
#include "lakebound/estimate/joint_normal.hpp"
#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/estimate/normal_mixture.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/estimate/sampling_law.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "lakebound/estimate/threshold_update.hpp"
#include "lakebound/estimate/tilted_grid.hpp"
#include "support/told.hpp"

using namespace lakebound;

TEST_CASE("what is known exactly has a second-order uncertainty of nothing", "[unit]") {
    const std::vector<UncertainInput> inputs{{"x", {Shape::exact, 3, 0}, {}}};
    const auto found = budget([](std::span<const double> x) { return x[0] * x[0]; }, inputs, {.correlation = {}, .second_order = true});
    REQUIRE(found.second_order_uncertainty);
    CHECK(*found.second_order_uncertainty == 0.0);
    CHECK(std::isinf(found.effective_degrees_of_freedom.value()));
}

TEST_CASE("thousands of degrees of freedom are told as they are", "[reference]") {
    // jcgm-100, G.2b: of y = x + z with u 3 and 4, nu 20 000 and 50 000: 1 / (0.36^2 / 20 000 + 0.64^2 / 50 000).
    std::vector<UncertainInput> inputs{{"x", {Shape::normal, 0, 3}, {}}, {"z", {Shape::normal, 0, 4}, {}}};
    inputs[0].degrees_of_freedom = 20000, inputs[1].degrees_of_freedom = 50000;
    const auto found = budget([](std::span<const double> x) { return x[0] + x[1]; }, inputs);
    CHECK(found.effective_degrees_of_freedom.value() == Approx(1 / (0.36 * 0.36 / 20000 + 0.64 * 0.64 / 50000)).epsilon(1e-6));
}

TEST_CASE("coefficients may reach the edge of what can be, and not a hundred-thousandth beyond", "[errors]") {
    // r12 = r13 = 1/2: r23 from -1/2 to 1, for the determinant 1 + 2 r12 r13 r23 - r12^2 - r13^2 - r23^2 is 0 there.
    const auto factored = [](double r23) {
        CorrelationMatrix m(3);
        m.set(0, 1, 0.5), m.set(0, 2, 0.5), m.set(1, 2, r23);
        return told([&] { (void)m.factor(); });
    };
    CHECK(factored(-0.5) == "taken");
    CHECK(factored(-0.5 + 1e-5) == "taken");
    CHECK(factored(-0.5 - 1e-5).rfind("correlation matrix: ", 0) == 0);
}

TEST_CASE("intervals that hold less than half, and ranks beside a whole one", "[reference]") {
    // Squares of 0 to 9: the narrowest four steps begin at the least; the middle four at the third of the ten, jcgm-101, 7.7.1.
    std::vector<double> squares(10);
    for (std::size_t i = 0; i < 10; ++i) squares[9 - i] = static_cast<double>(i * i);
    const auto s = summarise(squares, 0.4);
    CHECK(s.shortest.low == 0.0);
    CHECK(s.shortest.high == 16.0);
    CHECK(s.symmetric.low == 4.0);
    CHECK(s.symmetric.high == 36.0);
    std::vector<double> hundred(100);
    std::iota(hundred.begin(), hundred.end(), 1.0);
    CHECK(sample_quantile(hundred, 0.95) == 95.0);
    CHECK(sample_quantile(hundred, 0.95 + 1e-10) == 96.0);
    CHECK(sample_quantile(hundred, 0.95 - 1e-10) == 95.0);
}

TEST_CASE("laws of samples take the least that can be", "[errors]") {
    CHECK(student_quantile(0.5, 5e-4) == Approx(0.0).margin(1e-12));
    CHECK(told([] { (void)student_quantile(0.5, 0.0); }) == "degrees of freedom: 0");
    CHECK(told([] { (void)chi_squared_quantile(0.5, 0.0); }) == "degrees of freedom: 0");
    CHECK(told([] { (void)chi_squared_quantile(0.5, 5e-4); }) == "taken");
    CHECK(variance_ratio_exceeds(0.0, 3, 4) == 1.0);
    // Of two and two degrees of freedom a ratio above x has the chance 1 / (1 + x).
    CHECK(variance_ratio_exceeds(5e-4, 2, 2) == Approx(1 / 1.0005).epsilon(1e-12));
    CHECK(told([] { (void)variance_ratio_exceeds(-0.5, 2, 2); }) == "ratio of variances: -0.5");
}

TEST_CASE("a hundredth of all draws may be refused unless more is said, and the first refusal is told", "[errors]") {
    const std::vector<UncertainInput> inputs{{"x", {Shape::normal, 0, 1}, {}}};
    MonteCarloOptions options;
    options.draws = 1000;
    const auto refusing = [&](int first, int count) {
        int at = 0;
        return monte_carlo([&](std::span<const double> x) {
            const int now = at++;
            if (now >= first && now < first + count) throw DomainError("draw", std::to_string(now), "another");
            return x[0];
        }, inputs, options);
    };
    const auto ten = refusing(7, 10);
    CHECK(ten.refused == 10);
    CHECK(ten.count() == 990);
    CHECK(ten.first_refusal.find("draw") != std::string::npos);
    CHECK(ten.first_refusal.find("7") != std::string::npos);
    CHECK(ten.first_refusal.find("16") == std::string::npos);
    CHECK(told([&] { (void)refusing(7, 11); }) == "draws that the model refuses: 11 of 1000");
    const auto endless = [&](int first) {
        int at = 0;
        return monte_carlo([&](std::span<const double> x) {
            const int now = at++;
            if (now == first + 1) throw DomainError("draw", "the second", "another");
            return now == first ? HUGE_VAL : x[0];
        }, inputs, options).first_refusal;
    };
    CHECK(endless(3) == "the result is not finite");
}

TEST_CASE("the error of a chance between parts, by hand, an empty part left out", "[reference]") {
    MonteCarloDraws draws;
    draws.outputs = {{1, 0, 0, 1, 1, 0, 0, 0, 0}};
    draws.parts = {3, 3, 5, 9}; // shares above 1/2: 1/3, none to tell, 2/2, 0/4
    draws.drawing = Drawing::stratified;
    const auto above = probability_above(draws, 0.5);
    CHECK(above.value == Approx(3.0 / 9));
    const double m = (1.0 / 3 + 1) / 3, a = 1.0 / 3 - m, b = 1 - m, c = m;
    CHECK(above.standard_error == Approx(std::sqrt((a * a + b * b + c * c) / 2) / std::sqrt(3.0)));
}

TEST_CASE("normal draws fill every part of the bell as they should", "[reference]") {
    // Chi squared of 100 parts of equal chance has the mean 99 and the variance 198: six deviations are 84.
    RandomEngine engine(11);
    constexpr int parts = 100, draws = 2000000;
    std::array<double, parts - 1> borders{};
    for (int i = 1; i < parts; ++i)
        borders[static_cast<std::size_t>(i - 1)] = standard_normal_quantile(static_cast<double>(i) / parts);
    std::array<int, parts> counts{};
    for (int i = 0; i < draws; ++i)
        ++counts[static_cast<std::size_t>(std::lower_bound(borders.begin(), borders.end(), standard_normal(engine)) - borders.begin())];
    double squares = 0.0;
    for (const int n : counts) squares += (n - draws / parts) * static_cast<double>(n - draws / parts) / (draws / parts);
    CHECK(squares < 99 + 84);
}

TEST_CASE("the quick normal is as good at its ends", "[reference]") {
    for (const double z : {-5.999, -5.99, -5.98, -5.95, -5.9})
        CHECK(quick_normal_cdf(z) == Approx(standard_normal_cdf(z)).epsilon(1e-4));
}

TEST_CASE("a trial counts once unless more is said, and a grid has its bounds", "[unit]") {
    CHECK(LogisticTrial{}.count == 1.0);
    CHECK(LogisticTrial{}.location == 0.0);
    CHECK(LogisticTrial{}.slope == 0.0);
    const LogisticTrial trial{0.2, 2.0};
    const auto nodes = [&](std::size_t half) { return told([&] { (void)tilted_nodes(0.0, 1.0, {&trial, 1}, half); }); };
    CHECK(nodes(0) == "half the steps of a grid: 0");
    CHECK(nodes(1) == "taken");
    CHECK(nodes(100000) == "taken");
    CHECK(nodes(100001) == "half the steps of a grid: 100001");
    const std::vector<LogisticTrials> each{{trial}, {trial}, {trial}};
    const JointNormal one{{0}, {1}}, two{{0, 0}, {1, 0, 0, 1}}, three{{0, 0, 0}, {1, 0, 0, 0, 1, 0, 0, 0, 1}};
    const auto grid = [&](const JointNormal& of, std::size_t count) {
        return told([&] { (void)tilted_grid(of, std::span(each).first(count), of); });
    };
    CHECK(grid({}, 0) == "quantities of a grid: 0");
    CHECK(grid(one, 1) == "taken");
    CHECK(grid(two, 2) == "taken");
    CHECK(grid(two, 1) == "quantities of a grid: 2");
    CHECK(grid(three, 3) == "quantities of a grid: 3");
}

TEST_CASE("quantities all but tied to one another still tell apart", "[reference]") {
    // y = a - b of a and b of variance 1 that differ by a variance of 2e-8: its slopes on both are 1 and -1.
    const double r = 1 - 1e-8, apart = 2 * (1 - r);
    const JointNormal joint{{0, 0, 0}, {1, r, 1 - r, r, 1, r - 1, 1 - r, r - 1, apart}};
    const auto line = regression_on_first(joint, 2);
    CHECK(line.slope[0] == Approx(1).epsilon(1e-6));
    CHECK(line.slope[1] == Approx(-1).epsilon(1e-6));
}

TEST_CASE("a threshold known to a hundredth is expected to be known no worse", "[unit]") {
    ThresholdPrior prior;
    prior.mean = 0.2, prior.standard_deviation = 0.01, prior.width = 0.06;
    const double positions[] = {0.2};
    const double expected = updated(prior, {}).expected_standard_deviation(positions);
    CHECK(expected < 0.01);
    CHECK(expected > 0.009);
}

TEST_CASE("parts that count the same leave the rounding of a whole draw", "[reference]") {
    MonteCarloDraws draws;
    draws.outputs = {{1, 0, 1, 0, 1, 0, 1, 0}};
    draws.parts = {2, 4, 6, 8};
    draws.drawing = Drawing::stratified;
    CHECK(probability_above(draws, 0.5).standard_error == Approx(std::sqrt(4.0 / 12) / 8)); // four uniform laws one draw wide
}

TEST_CASE("a normal mixture of one part lies about nothing", "[unit]") {
    CHECK(NormalMixture(0.2).mean() == 0.0);
    CHECK(NormalMixture(0.2).below(0.0).value() == Approx(0.5).epsilon(1e-15));
}

TEST_CASE("many trials that all but exclude a place leave it a likelihood that can be told", "[reference]") {
    // Each of twelve trials has exp(-280): 1e-1459 together, far below what a double holds.
    const std::vector<LogisticTrial> trials(12, {0.0, 1.0});
    std::vector<double> values(3);
    log_likelihoods(trials, -280.0, 1.0, values);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(values[i] == Approx(12 * (-280.0 + static_cast<double>(i))).epsilon(1e-12));
}
