#pragma once
// The exponential through three readings that are equally spaced in time.

#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

struct ExponentialApproach {
    double end, tau; ///< same units as the readings and the interval
};

/// end = (x1 x3 - x2^2) / (x1 + x3 - 2 x2), written as x3 - (x2-x3)^2 / ((x1-x2) - (x2-x3)), which loses
/// fewer digits. Needs x1 > x2 > x3 and x1 - x2 > x2 - x3.
inline ExponentialApproach exponential_approach(const char* name, double x1, double x2, double x3,
                                                double interval, const char* unit) {
    if (!(interval > 0.0)) throw_out_of_range("interval between readings", interval, "s", "above 0");
    if (!(x1 > x2)) throw_out_of_range(name, x2, unit, "below the first reading");
    if (!(x2 > x3)) throw_out_of_range(name, x3, unit, "below the second reading");
    const double a = x1 - x2, b = x2 - x3;
    // A straight line of decimals, 60 50 40, differs by rounding only.
    if (!(a > b * (1.0 + 1e-9)))
        throw_out_of_range(name, x3, unit,
                           "falling by less in the second interval than in the first: read again later");
    return {x3 - b * b / (a - b), interval / std::log(a / b)};
}

} // namespace lakebound
