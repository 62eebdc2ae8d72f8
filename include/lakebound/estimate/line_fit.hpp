#pragma once
// Straight line by least squares: y = a + b (x - x0), equal unknown uncertainty in every y.
//
// Source: jcgm-100, H.3.2, equations H.13 (with the sums taken about the mean of x, against
// cancellation). Valid when x is known far better than y. At least 3 points.

#include <cstddef>
#include <span>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ValueWithUncertainty {
    double value = 0.0;
    double standard_uncertainty = 0.0;
};

struct LineFit {
    double origin = 0.0;            ///< x0
    ValueWithUncertainty intercept; ///< a: y at x = x0
    ValueWithUncertainty slope;     ///< b
    double covariance = 0.0;        ///< of a and b
    double residual_sum_of_squares = 0.0;
    std::size_t degrees_of_freedom = 0; ///< n - 2

    /// s: square root of the residual sum of squares over the degrees of freedom.
    double residual_standard_deviation() const;
    /// r(a, b); 0 when the points lie exactly on the line.
    double correlation() const;
    /// a + b (x - x0) with u^2 = u_a^2 + (x-x0)^2 u_b^2 + 2 (x-x0) cov; jcgm-100, equation H.15.
    ValueWithUncertainty at(double x) const;
};

/// DomainError: spans of different length, fewer than 3 points, all x equal, a number not finite.
[[nodiscard]] LineFit fit_line(std::span<const double> x, std::span<const double> y, double origin = 0.0);

} // namespace lakebound
