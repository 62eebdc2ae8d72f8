#pragma once
// What a maker types of a batch: the vessels to fill, and what is at hand of a part.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "10 half-pan". Throws InputError fill-form, and those of a vessel that is not on the shelf.
[[nodiscard]] VesselCount fill_option(const std::string& option, const std::string& text, Library& library);

/// "gum-arabic: 40 g", of something that is in the paint. Throws InputError stock-form, stock-not-used, and those of a
/// mass.
[[nodiscard]] Stock stock_option(const std::string& option, const std::string& text, const Recipe& recipe, const Bench& bench);

} // namespace lakebound
