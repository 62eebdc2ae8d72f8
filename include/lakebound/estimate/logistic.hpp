#pragma once
// Logistic: the one link between where a trial stands and how likely it fails.
//
//   logistic(t) = 1 / (1 + exp(-t)),   1 - logistic(t) = logistic(-t)
// A threshold trial at x, of width w, fails with the chance logistic((threshold - x) / w). Source: the logistic
// response of finney-1971. Written so that a small chance keeps its digits and no exponential overflows.

#include <cmath>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Any t; 0 and 1 only where the true value lies beyond the range of a double.
[[nodiscard]] inline double logistic(double t) noexcept {
    if (t >= 0.0) return 1.0 / (1.0 + std::exp(-t));
    const double e = std::exp(t);
    return e / (1.0 + e);
}
/// ln logistic(t); any t.
[[nodiscard]] inline double log_logistic(double t) noexcept {
    return t >= 0.0 ? -std::log1p(std::exp(-t)) : t - std::log1p(std::exp(t));
}

} // namespace lakebound
