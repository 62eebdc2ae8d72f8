#include "lakebound/estimate/threshold_site.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/logistic.hpp"
#include "lakebound/estimate/threshold_update.hpp"
#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

LogisticTrials swatches(std::initializer_list<std::pair<double, bool>> list, double width = 0.06) {
    LogisticTrials trials;
    for (const auto& [k, chalked] : list)
        trials.push_back({std::log(k), (chalked ? 1 : -1) / width, 1});
    return trials;
}
LogisticTrials repeated(double k, bool chalked, int times, double width = 0.06) {
    return LogisticTrials(static_cast<std::size_t>(times), {std::log(k), (chalked ? 1 : -1) / width, 1});
}

/// Brute force: 400 000 midpoints over +-12 sd.
TiltedMoments brute(double mean, double variance, const LogisticTrials& trials) {
    const int n = 400000;
    const double sd = std::sqrt(variance);
    long double mass = 0, first = 0, second = 0;
    for (int i = 0; i < n; ++i) {
        const double z = 24.0 * ((i + 0.5) / n - 0.5), s = mean + z * sd;
        double l = -0.5 * z * z;
        for (const auto& t : trials)
            l += t.count * log_logistic(t.slope * (s - t.location));
        const long double w = std::exp(static_cast<long double>(l));
        mass += w;
        first += w * (s - mean);
        second += w * (s - mean) * (s - mean);
    }
    TiltedMoments m;
    const double mean_off = static_cast<double>(first / mass);
    m.log_mass = static_cast<double>(std::log(mass * 24 / n / std::sqrt(2 * M_PIl)));
    m.mean = mean + mean_off;
    m.variance = static_cast<double>(second / mass) - mean_off * mean_off;
    return m;
}

} // namespace

TEST_CASE("four swatches by nodes about the mode", "[reference]") {
    // The worked ladder of tests/estimate/learning_test.cpp: prior N(0, .12), width .06; 1.57 and 1.30 bound, 1.14 and .90 chalked: .11316, .07905.
    const auto m = tilted_moments(0, 0.0144, swatches({{1.57, false}, {1.30, false}, {1.14, true}, {.90, true}}));
    CHECK(m.mean == Approx(0.11316).margin(1e-5).epsilon(0));
    CHECK(std::sqrt(m.variance) == Approx(0.07905).margin(1e-5).epsilon(0));
    const auto grid = updated(ThresholdPrior{}, std::vector<ThresholdTrial>{{std::log(1.57), false},
                                                                            {std::log(1.30), false},
                                                                            {std::log(1.14), true},
                                                                            {std::log(0.90), true}});
    CHECK(m.mean == Approx(grid.mean()).margin(1e-8).epsilon(0));
    CHECK(std::sqrt(m.variance) == Approx(grid.standard_deviation()).margin(1e-8).epsilon(0));
}

TEST_CASE("moments hold where trials say much, little, all the same or the impossible", "[reference]") {
    // Against brute force of 400 000 points. Nodes about the belief before would say .033 for 30 at one place
    // (true .0222) and .027 for 300 (.0069).
    const double v = 0.33 * 0.33;
    std::vector<LogisticTrials> cases{
        swatches({{1.0, true}}),
        swatches({{1.0, true}, {1.3, false}}),
        swatches({{1.05, false}, {1.25, true}}), // contradict
        swatches({{3.0, true}}),
        swatches({{0.2, true}}), // says nothing
        swatches({{1.3, false}, {1.1, false}, {.9, false}, {.8, false}}),
        swatches({{1.0, true}}, 1e-3), // a step like an edge
    };
    auto half = repeated(1.1, true, 15);
    for (const auto& t : repeated(1.1, false, 15))
        half.push_back(t);
    cases.push_back(half);
    auto many = repeated(1.1, true, 150);
    for (const auto& t : repeated(1.1, false, 150))
        many.push_back(t);
    cases.push_back(many);
    cases.push_back(repeated(1.3, false, 200)); // 200 hold far above
    cases.push_back(repeated(1.3, true, 200));
    for (std::size_t i = 0; i < cases.size(); ++i) {
        INFO("case " << i);
        const auto m = tilted_moments(0, v, cases[i]);
        const auto b = brute(0, v, cases[i]);
        const double sd = std::sqrt(b.variance);
        // The edge of width .001 lies between two nodes: 61 of them see it to two hundredths.
        const double tolerance = i == 6 ? 2e-2 : 2e-6;
        CHECK(m.mean == Approx(b.mean).margin(tolerance * sd).epsilon(0));
        CHECK(m.variance == Approx(b.variance).epsilon(2 * tolerance));
        CHECK(m.log_mass == Approx(b.log_mass).margin(tolerance));
        CHECK(m.variance < v);
    }
    CHECK(std::sqrt(tilted_moments(0, v, half).variance) == Approx(.0222).margin(5e-5).epsilon(0));
    CHECK(std::sqrt(tilted_moments(0, v, many).variance) == Approx(.0069).margin(5e-5).epsilon(0));
}

TEST_CASE("a count is as many trials", "[identity]") {
    LogisticTrials once = swatches({{1.1, true}}), counted = once;
    counted[0].count = 7;
    const auto a = tilted_moments(0.1, 0.04, counted), b = tilted_moments(0.1, 0.04, repeated(1.1, true, 7));
    CHECK(a.mean == Approx(b.mean).margin(1e-12));
    CHECK(a.variance == Approx(b.variance).epsilon(1e-10));
    CHECK(a.log_mass == Approx(b.log_mass).epsilon(1e-12));
    const auto none = tilted_moments(0.1, 0.04, {});
    CHECK(none.mean == Approx(0.1).margin(1e-12));
    CHECK(none.variance == Approx(0.04).epsilon(1e-9));
    CHECK(none.log_mass == Approx(0).margin(1e-9));
    double sum = 0, mean = 0;
    for (const auto& n : tilted_nodes(0.1, 0.04, once, 40)) {
        sum += n.weight;
        mean += n.weight * n.value;
    }
    CHECK(sum == Approx(1).epsilon(1e-12));
    CHECK(mean == Approx(tilted_moments(0.1, 0.04, once).mean).margin(1e-8));
    for (const double s : {-3.0, -0.2, 0.0, 0.1, 4.0}) {
        const auto c = log_likelihood_curve(once, s);
        CHECK(c.value == Approx(log_likelihood(once, s)).margin(1e-12));
        const double rise = log_likelihood(once, s + 1e-5) - log_likelihood(once, s - 1e-5);
        CHECK(c.slope == Approx(rise / 2e-5).margin(1e-6));
        CHECK(c.curvature <= 0);
    }
}

TEST_CASE("the logistic link keeps its small digits", "[identity]") {
    CHECK(logistic(0) == 0.5);
    CHECK(logistic(-40) == Approx(std::exp(-40)).epsilon(1e-14));
    CHECK(logistic(800) == 1.0);
    CHECK(logistic(-800) >= 0.0);
    CHECK(log_logistic(-800) == Approx(-800).epsilon(1e-14));
    CHECK(log_logistic(40) == Approx(-std::exp(-40)).epsilon(1e-14));
    for (double t = -5; t < 5; t += 0.7) {
        CHECK(logistic(t) + logistic(-t) == Approx(1).epsilon(1e-15));
        CHECK(log_logistic(t) == Approx(std::log(logistic(t))).epsilon(1e-13));
    }
}

TEST_CASE("likelihoods at equal steps are those at each place", "[identity]") {
    const LogisticTrials near = swatches({{1.1, true}, {1.3, false}, {1.2, true}, {0.9, false}});
    LogisticTrials counted = near;
    counted[1].count = 40.5;
    const LogisticTrials sharp{{0.2, 4000, 1}, {-0.3, -4000, 1}, {0.1, 300, 1}, {0.1, -300, 1}};
    const LogisticTrials flat{{0.2, 0, 1}};
    std::vector<LogisticTrials> all{{}, near, counted, sharp, flat};
    all.push_back(repeated(1.1, true, 1000));
    all.push_back(repeated(1.1, false, 1000));
    for (const auto& trials : all)
        for (const auto& [first, step] : {std::pair{-3.0, 0.1}, {-0.5, 0.017}, {3.0, -0.1}, {0.4, 0.0}, {-60.0, 2.0}}) {
            std::vector<double> values(61, 7.0);
            log_likelihoods(trials, first, step, values);
            for (std::size_t i = 0; i < values.size(); ++i) {
                const double expected = log_likelihood(trials, first + step * static_cast<double>(i));
                CAPTURE(trials.size(), first, step, i);
                REQUIRE(values[i] == Approx(expected).epsilon(1e-12).margin(1e-12));
            }
        }
}

TEST_CASE("trials that are none are refused", "[errors]") {
    CHECK_THROWS_AS(tilted_moments(0, 0, {}), DomainError);
    CHECK_THROWS_AS(tilted_moments(std::nan(""), 1, {}), DomainError);
    CHECK_THROWS_AS(tilted_moments(0, 1, LogisticTrials{{std::nan(""), 1, 1}}), DomainError);
    CHECK_THROWS_AS(tilted_moments(0, 1, LogisticTrials{{0, INFINITY, 1}}), DomainError);
    CHECK_THROWS_AS(tilted_moments(0, 1, LogisticTrials{{0, 1, -1}}), DomainError);
    CHECK_THROWS_AS(tilted_nodes(0, 1, {}, 0), DomainError);
}

TEST_CASE("a thousand trials at one place keep their digits", "[identity]") {
    // At the place itself each is ln 1/2; as one trial of count 1000 they are summed another way.
    const auto many = repeated(1.1, true, 1000);
    LogisticTrials counted = swatches({{1.1, true}});
    counted[0].count = 1000;
    for (const double s : {std::log(1.1), 0.0, 0.3})
        CHECK(log_likelihood(many, s) == Approx(log_likelihood(counted, s)).epsilon(1e-12));
    CHECK(log_likelihood(many, std::log(1.1)) == Approx(1000 * std::log(0.5)).epsilon(1e-12));
    CHECK(log_likelihood(swatches({{1.1, true}}), -5.0) == Approx((-5.0 - std::log(1.1)) / 0.06).epsilon(1e-12));
    CHECK_THROWS_AS(tilted_moments(0, INFINITY, {}), DomainError);
    CHECK_THROWS_AS(tilted_moments(0, 1, LogisticTrials{{0, 1, INFINITY}}), DomainError);
    CHECK_THROWS_AS(tilted_nodes(0, 1, {}, 100001), DomainError);
    CHECK(tilted_nodes(0, 1, {}, 1).size() == 3);
    CHECK(tilted_moments(0, 1e-6, {}).variance == Approx(1e-6).epsilon(1e-9));
    CHECK(tilted_moments(0, 1, LogisticTrials{{0, 1, 0}}).variance == Approx(1).epsilon(1e-9));
}
