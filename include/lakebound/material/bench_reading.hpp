#pragma once
// Bench reading: what a maker read off while measuring one property of a powder or a medium.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/material/displacement.hpp"
#include "lakebound/material/medium_solids.hpp"
#include "lakebound/material/pyknometer.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/material/tapped_fill.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Rub-outs of one powder with one dropper: all in counted drops, or all with weighed oil.
struct RubOutSeries {
    std::vector<RubOut> rub_outs;           ///< one at least
    std::optional<DropCalibration> dropper; ///< present when drops were counted
};

struct TappedFillReading {
    JarFill fill;
    Mass powder;
    Instrument<Mass> scale;
};

/// A sample dried to constant mass.
struct MediumSolidsReading {
    DryingTest test;
};
struct MoistureReading {
    DryingTest test;
};

/// What readings are judged by where nobody has measured it; the shelf's.
struct ReadingHabits {
    RubOutPrior rub_out;
    Share constant_within; ///< two weighings a day apart of what has dried
};

struct BenchReading {
    std::string name; ///< as a person says it
    std::variant<RubOutSeries, Pyknometer, Displacement, TappedFillReading, MediumSolidsReading,
                 MoistureReading>
        test;
};

} // namespace lakebound
