#pragma once
// The mass fractions of a powder by size class: their sum.

#include <cmath>
#include <span>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

inline double sum_of(std::span<const double> x) {
    double sum = 0.0;
    for (const double v : x)
        sum += v;
    return sum;
}

/// Throws DomainError unless they add up to 1 within 1e-6.
inline void check_sum(std::span<const double> fractions) {
    const double sum = sum_of(fractions);
    if (!(std::abs(sum - 1.0) <= 1e-6)) throw_out_of_range("sum of the class fractions", sum, "", "1 within 1e-6");
}

} // namespace lakebound
