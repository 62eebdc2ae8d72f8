#pragma once
// Names of materials and vessels as they stand in a sentence.

#include <string>
#include <string_view>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The name up to its first comma or bracket: "Gum arabic, powder" -> "Gum arabic".
[[nodiscard]] std::string short_name(std::string_view name);
/// The short name inside a sentence, its first letter small: "gum arabic". Not for pigments and
/// jars, whose names may be proper names.
[[nodiscard]] std::string name_in_sentence(std::string_view name);
/// "5 half pans", "1 tube of 15 mL": a count of vessels; what follows the comma of the name is its size.
[[nodiscard]] std::string counted_name(int count, std::string_view name);

} // namespace lakebound
