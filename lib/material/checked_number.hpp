#pragma once
// The number itself, or a DomainError that names the quantity.

#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

inline double above_zero(double x, const char* quantity, const char* unit) {
    if (!(x > 0.0 && std::isfinite(x))) throw_out_of_range(quantity, x, unit, "above 0");
    return x;
}

inline double zero_or_more(double x, const char* quantity, const char* unit) {
    if (!(x >= 0.0 && std::isfinite(x))) throw_out_of_range(quantity, x, unit, "0 or more");
    return x;
}

} // namespace lakebound
