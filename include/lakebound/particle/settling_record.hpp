#pragma once
// A settling test as a maker keeps it: grains of one size timed over a depth, or a blanket watched.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/zone_settling.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Grains of a known size that took `time` for `depth`.
struct TimedGrains {
    Length size;
    Length depth;
    Time time;
};

/// Exactly one of the two is there.
struct SettlingRecord {
    std::string id;   ///< file stem
    std::string path; ///< as typed, for messages
    std::string name;
    std::optional<Temperature> temperature; ///< of the water
    std::optional<TimedGrains> grains;
    std::optional<InterfaceHeights> blanket;
    std::string note;
};

} // namespace lakebound
