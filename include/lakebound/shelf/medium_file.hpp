#pragma once
// A medium from its file (kind: medium; docs/file-formats.md), its ingredients from the library.

#include "lakebound/material/medium.hpp"
#include "lakebound/shelf/library.hpp"

namespace lakebound {

/// The medium of a parsed file. Throws InputError with all that is wrong in it, an ingredient that is
/// not on the shelf or whose own file is faulty among it.
Medium read_medium(Document document, std::string id, Library& library);
/// The same from a path ("-": standard input); the id is the file's stem.
Medium read_medium_file(const std::string& path, Library& library);

} // namespace lakebound
