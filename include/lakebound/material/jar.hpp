#pragma once
// Jar: one container of one dried pigment, and what was measured on it.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/lake_remains.hpp"
#include "lakebound/material/pigment.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Jar {
    std::string id;
    std::string name;
    Pigment pigment;         ///< the library's figures with the jar's own measurements laid over them
    Estimate<Mass> net_mass; ///< what is in it now, as weighed
    /// What the library expects of its kind, whatever was measured on it: a record is kept by these.
    std::optional<OilAbsorption> reference_oil_absorption;
    MassDensity reference_test_oil{};
    LakeRemains remains;     ///< what its bath left in it
    ColourRecord colour;
    std::string plant; ///< what its lake was made from; jars of one plant teach each other. The jar's id when not said
    std::optional<std::string> since; ///< day of its net mass, ISO 8601
    std::vector<std::string> library_defaults; ///< names of the figures that the library filled in
    std::string note;
};

} // namespace lakebound
