#pragma once
// Logistic fit: threshold and width of a gradual change, from replicates that passed or failed at several places.
//
//   P(x) = 1 / (1 + exp(-(intercept + slope x))),   threshold x50 = -intercept/slope,   width = 1/slope
// By greatest likelihood (Newton's rule on the exact second derivatives), uncertainties from the inverse of the
// information (finney-1971). The width of a maker's own step from holding to chalking is learned so, from swatches
// repeated on purpose; a ladder that works sits at the even bet and says nothing of it.
// Where every trial below some x failed and every one above passed the likelihood has no greatest value: told by a
// DomainError, as are places that do not differ. With few trials the slope's uncertainty is of the size of the slope
// itself, and the fit is no more than a guess.

#include <cstddef>
#include <span>

#include "lakebound/estimate/line_fit.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct TrialGroup {
    double position = 0.0; ///< x
    double trials = 0.0;   ///< above 0
    double positives = 0.0; ///< 0 to trials
};

struct LogisticFit {
    ValueWithUncertainty intercept, slope, threshold, width; ///< width = 1/|slope|; first order for the last two
    double covariance = 0.0;                                 ///< of intercept and slope
    double log_likelihood = 0.0; ///< without the binomial coefficients
    std::size_t iterations = 0;
};
[[nodiscard]] LogisticFit fit_logistic(std::span<const TrialGroup> groups);

} // namespace lakebound
