// Whether the fit of a mortar lies at the bottom of what it minimises: by brute force, and by small steps each way.

#include "lakebound/particle/breakage_fit.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <vector>

#include "support/mortar_of_six_screens.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// The least sum of squares for these exponents and this rate over all feeds, which enter linearly: by elimination.
double least_over_feeds(const std::vector<GrindingTest>& tests, double log_rate, double log_alpha, double log_gamma) {
    const PopulationBalance balance({classes(), {BreakageRate::from_value(std::exp(log_rate)), std::exp(log_alpha)}, {1.0, std::exp(log_gamma), 5.8}});
    // Of each test, what a grain of class j more and one of the last class less adds; the last class alone stays there.
    std::vector<std::vector<double>> rows; // five slopes, then what is to be met
    for (const auto& test : tests) {
        std::vector<std::vector<double>> columns;
        for (std::size_t j = 0; j < 5; ++j) {
            std::vector<double> grain(6, 0.0);
            grain[j] = 1.0;
            balance.grind(grain, test.time - tests.front().time);
            columns.push_back(grain);
        }
        for (std::size_t i = 0; i < 6; ++i) {
            std::vector<double> row;
            for (std::size_t j = 0; j < 5; ++j)
                row.push_back(columns[j][i] - (i == 5 ? 1.0 : 0.0));
            row.push_back(test.fractions[i] - (i == 5 ? 1.0 : 0.0));
            rows.push_back(row);
        }
    }
    double normal[5][6] = {};
    for (const auto& row : rows)
        for (std::size_t i = 0; i < 5; ++i)
            for (std::size_t j = 0; j < 6; ++j)
                normal[i][j] += row[i] * row[j];
    for (std::size_t k = 0; k < 5; ++k)
        for (std::size_t i = 0; i < 5; ++i) {
            if (i == k) continue;
            const double times = normal[i][k] / normal[k][k];
            for (std::size_t j = k; j < 6; ++j)
                normal[i][j] -= times * normal[k][j];
        }
    double sum = 0.0;
    for (const auto& row : rows) {
        double left = row[5];
        for (std::size_t j = 0; j < 5; ++j)
            left -= row[j] * normal[j][5] / normal[j][j];
        sum += left * left;
    }
    return sum;
}

} // namespace

TEST_CASE("nothing near a fit misses less, whatever its feed", "[reference]") {
    // The feed of the last set holds a class below nothing: what was seen first had none of it, and later too little.
    std::vector<GrindingTest> lacking{{minutes(3), {.49, .28, 0.0, .11, .07, .05}}};
    for (const double t : {7.5, 8.5, 10.0, 12.0}) {
        std::vector<double> w{.50, .29, 0.0, .12, .07, .06}, owed{0, 0, .04, 0, 0, 0};
        const PopulationBalance balance({classes(), {per_minute(0.09), 0.8}, {}});
        balance.grind(w, minutes(t - 3)), balance.grind(owed, minutes(t - 3));
        for (std::size_t i = 0; i < 6; ++i)
            w[i] -= owed[i];
        lacking.push_back({minutes(t), w});
    }
    for (const auto& tests : {tests_at({3, 12, 30}, 0.003), tests_at({2, 20}, 0.002), lacking}) {
        const auto fit = fit_breakage(classes(), tests, without_draws(false));
        const double at[] = {std::log(fit.model.selection.top.value()), std::log(fit.model.selection.exponent), std::log(fit.model.breakage.gamma)};
        const double least = least_over_feeds(tests, at[0], at[1], at[2]);
        CHECK(fit.misfit == Approx(least).epsilon(1e-6));
        if (tests[0].fractions[2] == 0.0) CHECK(fit.feed[2] == 0.0); // told as nothing
        CHECK(fit.fraction_deviation == Approx(std::sqrt(least / fit.degrees_of_freedom)).epsilon(1e-6));
        for (int k = 0; k < 3; ++k)
            for (const double step : {-0.01, 0.01}) {
                double moved[] = {at[0], at[1], at[2]};
                moved[k] += step;
                CHECK(least_over_feeds(tests, moved[0], moved[1], moved[2]) > least);
                // At the bottom both sides rise alike, but for the bend of the third order.
                moved[k] = at[k] - step;
                const double other = least_over_feeds(tests, moved[0], moved[1], moved[2]);
                moved[k] = at[k] + step;
                CHECK(least_over_feeds(tests, moved[0], moved[1], moved[2]) - least == Approx(other - least).epsilon(0.15));
            }
    }
}

TEST_CASE("of two hollows the deeper is the fit, and one without a bottom is none", "[reference]") {
    // Invented shares; each has a hollow that the search falls into from some of its starts, and a deeper one, or one that
    // only deepens toward alpha 0. How deep both are is reckoned here; places by a search over many starts.
    struct Hollow {
        double log_rate, log_alpha, log_gamma;
    };
    struct Row {
        std::vector<double> minutes_of;
        std::vector<std::vector<double>> seen;
        Hollow fit, other;
        bool other_deepens;
    };
    const Row rows[] = {
        {{3, 10, 25}, {{.383, .215, .121, .098, .085, .098}, {.263, .217, .14, .123, .1, .157}, {.123, .171, .148, .134, .144, .28}}, {-7.05, -1.60, 0.72}, {-7.05, -0.24, 0.02}, false},
        {{3, 15}, {{.358, .244, .134, .116, .088, .06}, {.113, .222, .183, .164, .147, .171}}, {-6.43, 0.45, 0.05}, {-6.47, -1.27, 1.30}, false},
        {{3, 15}, {{.327, .227, .131, .086, .094, .135}, {.084, .194, .172, .136, .134, .28}}, {-6.27, 0.72, -0.38}, {-6.36, -2.62, 1.56}, false},
        {{3, 10, 25}, {{.404, .225, .122, .095, .08, .074}, {.315, .234, .141, .113, .099, .098}, {.184, .22, .148, .132, .125, .191}}, {-7.43, -3.95, 1.02}, {-7.43, 0.37, -0.26}, false},
        {{3, 15}, {{.35, .227, .134, .073, .098, .118}, {.156, .19, .125, .119, .126, .284}}, {-6.80, 0.17, -0.62}, {-6.80, -22.96, 0.66}, true},
        {{3, 15}, {{.388, .238, .117, .117, .086, .054}, {.171, .206, .191, .11, .13, .192}}, {-6.77, 0.59, -0.54}, {-6.73, -24.75, 1.18}, true},
    };
    for (const auto& row : rows) {
        std::vector<GrindingTest> tests;
        for (std::size_t k = 0; k < row.seen.size(); ++k)
            tests.push_back({minutes(row.minutes_of[k]), row.seen[k]});
        const auto depth = [&](const Hollow& h) { return least_over_feeds(tests, h.log_rate, h.log_alpha, h.log_gamma); };
        CHECK((depth(row.other) < depth(row.fit)) == row.other_deepens);
        const auto fit = fit_breakage(classes(), tests, without_draws(false));
        CHECK(fit.misfit <= depth(row.fit) * (1.0 + 1e-9));
        CHECK(fit.misfit == Approx(depth(row.fit)).epsilon(0.02));
        CHECK(std::log(fit.model.selection.exponent) == Approx(row.fit.log_alpha).margin(0.01));
    }
}

TEST_CASE("a fit has no unit of time of its own", "[identity]") {
    // A mill that does in a thousandth of a second what the mortar does in hours: all but the rate is the same.
    for (const bool cushioned : {false, true}) {
        const auto slow = tests_at({3, 9, 20, 40}, 0.002, cushioned ? 0.8 : 0.0);
        auto options = without_draws(true, cushioned);
        options.fraction_uncertainty = 0.002;
        const auto mortar = fit_breakage(classes(), slow, options);
        for (const double faster : {1e7, 1e-4}) {
            auto fast = slow;
            for (auto& test : fast)
                test.time = test.time / faster;
            const auto mill = fit_breakage(classes(), fast, options);
            CHECK(mill.model.selection.top.value() == Approx(faster * mortar.model.selection.top.value()).epsilon(1e-5));
            CHECK(mill.model.selection.exponent == Approx(mortar.model.selection.exponent).epsilon(1e-5));
            CHECK(mill.model.breakage.gamma == Approx(mortar.model.breakage.gamma).epsilon(1e-5));
            CHECK(mill.model.cushioning == Approx(mortar.model.cushioning).margin(1e-5));
            CHECK(mill.misfit == Approx(mortar.misfit).epsilon(1e-5));
            for (std::size_t i = 0; i < 9; ++i)
                CHECK(mill.covariance[i] == Approx(mortar.covariance[i]).epsilon(1e-4).margin(1e-9));
        }
    }
}

TEST_CASE("at a fit that weighs tests and prior, no small step of one figure gains", "[reference]") {
    // The sum of squares of all that is believed, each by its own deviation; shares move from one class to the last.
    for (const double c : {-0.2, 0.6, 2.5})
        for (const double stated : {0.001, 0.01}) {
            const auto tests = tests_at({3, 7, 12, 18}, 0.012, c); // that miss by much, so that each slope counts
            auto options = without_draws(true, true);
            options.fraction_uncertainty = stated;
            const auto fit = fit_breakage(classes(), tests, options);
            double latent = -2.0, high = 20.0;
            for (int i = 0; i < 100; ++i)
                (cushioning_of_latent(0.5 * (latent + high)) < fit.model.cushioning ? latent : high) = 0.5 * (latent + high);
            const auto believed = [&](BreakageFit moved, double moved_latent) {
                moved.model.cushioning = cushioning_of_latent(moved_latent);
                return missed(moved, tests) / (stated * stated) +
                       std::pow((std::log(moved.model.selection.exponent) - before.log_exponent) / before.log_exponent_deviation, 2) +
                       std::pow((std::log(moved.model.breakage.gamma) - before.log_gamma) / before.log_gamma_deviation, 2) +
                       std::pow((moved_latent - 0.5) / 2.6, 2);
            };
            const auto level = [&](const std::function<void(BreakageFit&, double&, double)>& move) {
                const auto at = [&](double step) {
                    BreakageFit moved = fit;
                    double moved_latent = latent;
                    move(moved, moved_latent, step);
                    return believed(moved, moved_latent);
                };
                const double up = at(0.002), down = at(-0.002), bend = up + down - 2.0 * at(0.0);
                CHECK(bend > 0.0);
                CHECK(std::abs(up - down) < 0.02 * bend);
            };
            level([](BreakageFit& f, double&, double step) { f.model.selection.top = f.model.selection.top * std::exp(step); });
            level([](BreakageFit& f, double&, double step) { f.model.selection.exponent *= std::exp(step); });
            level([](BreakageFit& f, double&, double step) { f.model.breakage.gamma *= std::exp(step); });
            level([](BreakageFit&, double& y, double step) { y += step; });
            for (std::size_t j = 0; j < 5; ++j)
                level([j](BreakageFit& f, double&, double step) { f.feed[j] += 0.1 * step, f.feed[5] -= 0.1 * step; });
        }
}
