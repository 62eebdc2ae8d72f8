#pragma once
// A recipe from its file (kind: recipe; docs/file-formats.md), what it names from the library.

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The recipe of a parsed file. jar: stands for `pigment: jar`; nullptr when none was named, which is
/// a fault if the recipe wants one. The shares must sum to 1 within 0.1 % and are then scaled to do
/// so exactly. Throws InputError with all that is wrong in it.
[[nodiscard]] Recipe read_recipe(Document document, std::string id, Library& library, const Jar* jar);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Recipe read_recipe_file(const std::string& path, Library& library, const Jar* jar);

/// The ingredients of the shelf that the stock solutions of a recipe may be made with, each once; the oil of
/// its own medium left out. Throws InputError id-unknown for one that the shelf does not have.
[[nodiscard]] std::vector<Ingredient> stock_carriers(const Recipe& recipe, Library& library);

} // namespace lakebound
