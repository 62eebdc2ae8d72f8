#pragma once
// Threshold site: all that pass-or-fail trials say about one unknown, and that unknown's belief after them.
//
// A trial is likely to degree logistic(slope (s - location)): slope +1/w for one that failed below the threshold
// s, -1/w for one that held. The product over the trials has a concave logarithm, so with a normal belief
// before it (the cavity) there is one mode, and every variance after it is below the one before.
// Moments by the trapezoidal rule: 61 nodes at equal steps, from the mode out to where the density has fallen to
// exp(-24.5) of its greatest (7 sd of a normal) on either side; for a smooth function with vanishing tails the rule
// is exact to far below what is shown (davis-rabinowitz-1984, 2.9). Nodes laid about the cavity instead fail without
// a sign once many trials say the same (300 at one place: sd .027 for .0069). A trial much narrower than a step is
// seen to two hundredths of an sd.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// P(what was seen | s) = logistic(slope (s - location)), seen `count` times (0 or more, not only whole).
struct LogisticTrial {
    double location = 0.0;
    double slope = 0.0;
    double count = 1.0;
};
using LogisticTrials = std::vector<LogisticTrial>;

/// Logarithm of a likelihood, and its first two derivatives.
struct LogCurve {
    double value = 0.0, slope = 0.0, curvature = 0.0;
};
/// ln of the product of the trials' chances at s.
[[nodiscard]] double log_likelihood(std::span<const LogisticTrial> trials, double s);
/// The same at equal steps from `first` on, one for each of `values`: from step to step exp(slope s) changes by one factor,
/// so that a trial costs two exponentials for them all. Within 1e-12 of the one above.
void log_likelihoods(std::span<const LogisticTrial> trials, double first, double step, std::span<double> values);
[[nodiscard]] LogCurve log_likelihood_curve(std::span<const LogisticTrial> trials, double s);

/// Belief N(mean, variance) times the trials, as moments and as nodes.
struct TiltedMoments {
    double log_mass = 0.0; ///< ln of the integral of N(s) times the trials' chances
    double mean = 0.0;
    double variance = 0.0;
    double mode = 0.0;
};
/// DomainError: variance not above 0, anything not finite, a count below 0.
[[nodiscard]] TiltedMoments tilted_moments(double mean, double variance, std::span<const LogisticTrial> trials);

/// The same belief as `2 half + 1` weighted values at equal steps, rising; the weights add up to 1.
struct WeightedValue {
    double value = 0.0, weight = 0.0;
};
[[nodiscard]] std::vector<WeightedValue> tilted_nodes(double mean, double variance, std::span<const LogisticTrial> trials,
                                                      std::size_t half);

} // namespace lakebound
