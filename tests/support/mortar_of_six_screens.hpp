#pragma once
// One mortar of six screens for the tests of its fit: its powder, what is believed of it before, and tests put off by a little.

#include <cmath>
#include <vector>

#include "lakebound/particle/breakage_fit.hpp"

namespace lakebound::testing {

inline std::vector<Length> classes() {
    std::vector<Length> out;
    for (const double um : {425., 250., 150., 106., 75., 45.})
        out.push_back(micrometres(um));
    return out;
}
inline const std::vector<double> powder{.45, .22, .12, .09, .07, .05};
inline const BreakagePrior before{std::log(0.9), 0.33, std::log(0.9), 0.33, 0.01, 2.0};

/// Exact sieve tests of one mortar, each class then put off by a few thousandths of its own, sums kept.
inline std::vector<GrindingTest> tests_at(const std::vector<double>& minutes_of, double off, double c = 0.0, double per_min = 0.09,
                                          const std::vector<double>& feed = powder) {
    BreakageModel model{classes(), {per_minute(per_min), 0.8}, {}};
    model.cushioning = c;
    std::vector<GrindingTest> tests;
    for (std::size_t k = 0; k < minutes_of.size(); ++k) {
        auto w = feed;
        PopulationBalance(model).grind(w, minutes(minutes_of[k]));
        const double pattern[] = {1.0, -2.0, 1.5, -0.5, 1.0, -1.0};
        for (std::size_t i = 0; i < w.size(); ++i)
            w[i] += off * pattern[(i + 2 * k) % 6];
        tests.push_back({minutes(minutes_of[k]), w});
    }
    return tests;
}

inline BreakageFitOptions without_draws(bool prior, bool cushioning = false) {
    BreakageFitOptions options;
    options.resamples = 0;
    if (prior) options.prior = before;
    if (cushioning) options.cushioning = CushioningPrior{0.5, 2.6};
    return options;
}

/// Sum of squares of what the fit foretells of its own tests less what was seen.
inline double missed(const BreakageFit& fit, const std::vector<GrindingTest>& tests) {
    double sum = 0.0;
    for (const auto& test : tests) {
        const auto foretold = predicted_fractions(fit, test.time);
        for (std::size_t i = 0; i < foretold.size(); ++i)
            sum += std::pow(foretold[i] - test.fractions[i], 2);
    }
    return sum;
}

} // namespace lakebound::testing
