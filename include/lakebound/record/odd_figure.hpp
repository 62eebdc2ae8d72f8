#pragma once
// Odd figure: a density that was measured, and is far from what its kind of powder has: mostly a slip of the pen.
//
//   odd where |ln(measured / expected)| > 3 hypot(s_m, s_e) and > ln 1.25,   s: relative standard uncertainties
// It is told, and used as it stands: the maker knows what is in the jar. Rule of this library (estimate).

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/record/entry.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class MeasuredDensity { density, tapped_density };

struct OddFigure {
    MeasuredDensity which{};
    MassDensity measured{}, expected{};
    double times = 0.0; ///< measured over expected
};

/// kind: the pigment as its jar's file and the library have it.
[[nodiscard]] std::vector<OddFigure> odd_figures(const MeasuredEntry& measured, const Pigment& kind);

} // namespace lakebound
