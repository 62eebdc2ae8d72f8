#pragma once
// A drying cake on the scale, once a day.

#include <vector>

#include "lakebound/bath/drying.hpp"

namespace lakebound::testing {

/// Grams, a day apart from the first.
inline std::vector<DryingWeighing> weighed_daily(const std::vector<double>& masses) {
    std::vector<DryingWeighing> out;
    for (const double m : masses)
        out.push_back({hours(24.0 * static_cast<double>(out.size())), grams(m), false});
    return out;
}

} // namespace lakebound::testing
