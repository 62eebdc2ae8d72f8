#pragma once
// Pictures of the weigh sheet: the vessel pour by pour, and the jar as a bar.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/page/picture.hpp"
#include "lakebound/paint/jar_shares.hpp"
#include "lakebound/paint/pour_levels.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Absent where the vessel is filled once, or is too small for any pour to be seen.
[[nodiscard]] std::optional<page::Picture> pour_picture(const Filling& filling);

/// Where the pigment of the jar goes: into vessels, left over, to the slab; what stays, and its reserve.
[[nodiscard]] page::Picture jar_picture(const JarShares& shares, const Batch& batch, const Bench& bench);

} // namespace lakebound
