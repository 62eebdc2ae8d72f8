#pragma once
// An ingredient from its file (kind: ingredient; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The ingredient of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] Ingredient read_ingredient(Document document, std::string id);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Ingredient read_ingredient_file(const std::string& path);

} // namespace lakebound
