#pragma once
// A recipe from its file (kind: recipe; docs/file-formats.md), what it names from the library.

#include "lakebound/material/jar.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/shelf/library.hpp"

namespace lakebound {

/// The recipe of a parsed file. jar: stands for `pigment: jar`; nullptr when none was named, which is
/// a fault if the recipe wants one. The shares must sum to 1 within 0.1 % and are then scaled to do
/// so exactly. Throws InputError with all that is wrong in it.
Recipe read_recipe(Document document, std::string id, Library& library, const Jar* jar);
/// The same from a path ("-": standard input); the id is the file's stem.
Recipe read_recipe_file(const std::string& path, Library& library, const Jar* jar);

} // namespace lakebound
