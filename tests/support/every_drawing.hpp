#pragma once
// Every way of drawing, and the plainest model to draw from.

#include <span>

#include "lakebound/estimate/monte_carlo.hpp"

namespace lakebound::testing {

inline constexpr Drawing every_drawing[] = {Drawing::independent, Drawing::stratified, Drawing::sobol,
                                            Drawing::directed};

inline double sum(std::span<const double> x) {
    double s = 0;
    for (const double v : x)
        s += v;
    return s;
}

} // namespace lakebound::testing
