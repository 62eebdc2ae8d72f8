#pragma once
// The closed vocabulary of units, for lists, schemas and tests. docs/file-formats.md explains it.

#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// All dimensions, in the order of the enumeration.
[[nodiscard]] std::vector<Dimension> all_dimensions();

/// What the trade calls it: "density", "pigment volume concentration".
[[nodiscard]] std::string_view dimension_name(Dimension dimension);

/// Every unit name a text of this dimension may bear, the usual ones first; empty for pure_number.
/// `tsp`, `teaspoon` and `drop` are among the volumes, but are read only with KitchenMeasures.
[[nodiscard]] std::vector<std::string_view> unit_names(Dimension dimension);

} // namespace lakebound
