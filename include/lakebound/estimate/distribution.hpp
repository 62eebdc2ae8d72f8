#pragma once
// Distribution: what is known of one number, as a probability density.
//
// Source of the shapes: JCGM 101:2008, clause 6.4 (rectangular 6.4.2, normal 6.4.7, arc sine
// 6.4.6); the lognormal is the shape of a positive factor that is "65, times or divided by 1.35".

#include <cmath>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Shape {
    exact,       ///< no uncertainty
    normal,      ///< location = mean, scale = standard deviation
    lognormal,   ///< location = median, scale = standard deviation of the logarithm
    rectangular, ///< location = midpoint, scale = half-width
    arc_sine,    ///< location = midpoint, scale = half-width
};

/// Numbers are in the canonical (SI base) unit of the quantity described.
struct Distribution {
    Shape shape = Shape::exact;
    double location = 0.0; ///< best estimate: the mean or, for lognormal, the median
    double scale = 0.0;    ///< 0 or more; meaning by shape

    /// Standard deviation of the density. Exact for every shape.
    double standard_uncertainty() const noexcept {
        switch (shape) {
        case Shape::exact:
            return 0.0;
        case Shape::normal:
            return scale;
        case Shape::lognormal: {
            const double s2 = scale * scale;
            return location * std::exp(0.5 * s2) * std::sqrt(std::expm1(s2));
        }
        case Shape::rectangular:
            return scale / std::sqrt(3.0);
        case Shape::arc_sine:
            return scale / std::sqrt(2.0);
        }
        return 0.0;
    }
};

/// Standard deviation of the logarithm of a lognormal of that median and standard uncertainty u:
/// s^2 = ln y, y (y - 1) = (u/median)^2. The inverse of standard_uncertainty() for Shape::lognormal.
[[nodiscard]] inline double lognormal_scale(double median, double standard_uncertainty) noexcept {
    const double relative = standard_uncertainty / median;
    // y - 1 in a form that keeps its digits for small relative uncertainties.
    const double excess = 2.0 * relative * relative / (1.0 + std::sqrt(1.0 + 4.0 * relative * relative));
    return std::sqrt(std::log1p(excess));
}

} // namespace lakebound
