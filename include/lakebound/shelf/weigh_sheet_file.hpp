#pragma once
// A weigh sheet's JSON, as lakebound-batch writes it, read back as the paint that was weighed.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/shelf/document.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The schema_version that lakebound-batch writes; of 3, all that is read here stood under the same keys.
inline constexpr int weigh_sheet_version = 4;
inline constexpr int oldest_weigh_sheet_version = 3;

struct WeighedPaint {
    Recipe recipe; ///< pigments with the figures of the sheet, shares and doses as rounded for the scale
    Mass pigment;  ///< total, as rounded for the scale
    MediumPerPigment medium_per_pigment;
    std::optional<double> learned_spread; ///< of a sheet that was judged by the record of its jar
};

/// The paint of a parsed sheet; JSON is read as the YAML that it also is. Family, medium and additives
/// come from the library. Throws InputError with the places of all that is wrong: schema-version for
/// another version, kind-wrong for other JSON, sheet-empty for a sheet of which nothing can be made.
[[nodiscard]] WeighedPaint read_weighed_paint(Document document, Library& library);

} // namespace lakebound
