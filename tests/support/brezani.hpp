#pragma once
// The ten published points of a Rosin-Rammler fit.

#include "lakebound/particle/size_distribution.hpp"

namespace lakebound::testing {

/// brezani-2011: sizes in mm, percent retained.
inline PassingCurve brezani() {
    const double mm[] = {.08, .50, 1.25, 2, 4, 6.3, 8, 12.5, 16, 40};
    const double retained[] = {95.61, 87.71, 82.45, 79.78, 73.28, 66.98, 63.21, 55.40, 49.91, 23.95};
    PassingCurve curve;
    for (int i = 0; i < 10; ++i)
        curve.points.push_back({millimetres(mm[i]), MassFraction::of(1 - retained[i] / 100)});
    return curve;
}

} // namespace lakebound::testing
