#pragma once
// Cautions: what to say to the person who does this work with these materials.
//
// Reminders in plain words. They defer to the safety data sheet of each product, to local codes and
// to licensed practice; docs/cautions.md gives their sources.

#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/caution.hpp"
#include "lakebound/paint/family.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Caution {
    std::string subject;                ///< one or two words: "Dust", "Oily rags"
    std::string text;                   ///< what to do
    std::vector<std::string> materials; ///< the names it is about; empty when it is about the work
};

/// Cautions for making up a paint of these materials, the gravest first; the last two always defer to
/// safety data sheets and say that the figures are estimates.
[[nodiscard]] std::vector<Caution> cautions(std::span<const HazardousMaterial> materials, const Family& family);

} // namespace lakebound
