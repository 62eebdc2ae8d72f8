#pragma once
// Entry remark: what is said of an entry that was just typed and may be a slip, though nothing is wrong with it.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/shelf/studio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of a bottle of medium that no entry of the studio names yet, where others are named: it is known by its swatches, and
/// a name that slipped is another bottle. Empty where it is known, or is the first.
[[nodiscard]] std::string new_bottle_remark(const Studio& studio, const std::string& bottle);

/// Of a batch or a rub-out, the last entry of the studio, that an entry of the same day and jar tells already, mass by
/// mass. Empty where it is the only one.
[[nodiscard]] std::string told_twice_remark(const Studio& studio, const std::string& asked_shelf = {});

} // namespace lakebound
