#pragma once
// Exponential approach: the end that three readings, equally spaced in time, are on the way to.
//
//   x(t) = end + (x1 - end) exp(-t / tau);  end = (x1 x3 - x2^2) / (x1 + x3 - 2 x2), tau = interval / ln((x1-x2)/(x2-x3))
// Definition. For a blanket that settles, a cake that dries, grit that is ground away. Rests on small differences.

#include <cmath>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ExponentialApproach {
    double end, tau; ///< same units as the readings and the interval
};

/// The end is written as x3 - (x2-x3)^2 / ((x1-x2) - (x2-x3)), which loses fewer digits. name and unit of the readings
/// are for the messages; interval in s. Range: x1 > x2 > x3 and x1 - x2 > x2 - x3, interval above 0. Errors: DomainError.
[[nodiscard]] inline ExponentialApproach exponential_approach(const char* name, double x1, double x2, double x3,
                                                              double interval, const char* unit) {
    // Three decimals, so that 75 um does not read 74.99999999999999 um.
    const auto with_unit = [&](double x) { return number_text(std::round(x * 1e3) / 1e3) + " " + unit; };
    const char* in_order = "list the readings in the order in which they were taken";
    if (!(interval > 0.0)) throw_out_of_range("interval between readings", interval, "s", "above 0");
    if (!(x1 > x2))
        throw DomainError(name, with_unit(x2), "below the reading before it, " + with_unit(x1), in_order);
    if (!(x2 > x3))
        throw DomainError(name, with_unit(x3), "below the reading before it, " + with_unit(x2), in_order);
    const double a = x1 - x2, b = x2 - x3;
    // A straight line of decimals, 60 50 40, differs by rounding only.
    if (!(a > b * (1.0 + 1e-9)))
        throw DomainError(name, with_unit(x3),
                          "above " + with_unit(x2 - a) + ", so that the second fall is the smaller",
                          "it has not begun to slow: go on, and read again later");
    return {x3 - b * b / (a - b), interval / std::log(a / b)};
}

} // namespace lakebound
