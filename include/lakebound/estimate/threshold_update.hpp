#pragma once
// Learning where a threshold lies from trials that held or failed (swatches that bound or chalked).
//
// P(fail | x) = 1 / (1 + exp((x - theta) / w)): trials well above theta hold, well below it fail.
// theta has a normal prior; the posterior is computed on a grid of 2001 points over the prior mean
// +- 8 ln-sd (Bayes' rule; logistic response, finney-1971). For paint x = ln k, k the binder sufficiency.
// Valid for w > 0 and a prior ln-sd > 0; beyond 8 ln-sd nothing is learned.
// DomainError: those not positive and finite, a position that is not finite.

#include <span>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ThresholdPrior {
    double mean = 0.0;
    double standard_deviation = 0.12;
    double width = 0.06; ///< w: how gradual the change from holding to failing is
};

struct ThresholdTrial {
    double position = 0.0; ///< x
    bool failed = false;
};

class ThresholdBelief {
public:
    explicit ThresholdBelief(const ThresholdPrior& prior);

    /// The belief after one more trial.
    void learn(const ThresholdTrial& trial);
    double mean() const;
    double standard_deviation() const;
    /// The theta below which the belief holds the share p, p in (0, 1).
    double quantile(double p) const;
    /// Chance that a trial at x would fail, theta and the width both allowed for.
    double failure_probability(double position) const;
    /// Root of the expected posterior variance after trials at these positions, outcomes unknown:
    /// what a ladder of swatches is worth before it is painted. At most 12 positions.
    double expected_standard_deviation(std::span<const double> positions) const;

private:
    double width_;
    std::vector<double> theta_, weight_; ///< weights add up to 1
};

[[nodiscard]] ThresholdBelief updated(const ThresholdPrior& prior, std::span<const ThresholdTrial> trials);

} // namespace lakebound
