#pragma once
// Passing curves and sieve tests from pairs of numbers.

#include <utility>
#include <vector>

#include "lakebound/particle/sieve_test.hpp"
#include "lakebound/particle/size_distribution.hpp"

namespace lakebound::testing {

/// um, share that passes.
inline PassingCurve curve_of(const std::vector<std::pair<double, double>>& points) {
    PassingCurve curve;
    for (const auto& [um, passing] : points)
        curve.points.push_back({micrometres(um), MassFraction::of(passing)});
    return curve;
}

/// um, grams kept; grams in the pan.
inline SieveTest test_of(const std::vector<std::pair<double, double>>& um_and_grams, double pan) {
    SieveTest test;
    for (const auto& [um, g] : um_and_grams)
        test.screens.push_back({micrometres(um), grams(g)});
    test.pan = grams(pan);
    return test;
}

} // namespace lakebound::testing
