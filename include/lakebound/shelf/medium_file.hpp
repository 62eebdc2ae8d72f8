#pragma once
// A medium from its file (kind: medium; docs/file-formats.md), its ingredients from the library.

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The medium of a parsed file. Throws InputError with all that is wrong in it, an ingredient that is
/// not on the shelf or whose own file is faulty among it.
[[nodiscard]] Medium read_medium(Document document, std::string id, Library& library);
/// Why a medium does not fit a family, and which media of the shelf do, in words. The medium must be a misfit
/// (paint/medium_fit.hpp).
struct MisfitWords {
    std::string message, hint;
};
[[nodiscard]] MisfitWords misfit_words(const Medium& medium, const Family& family, Library& library);

/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Medium read_medium_file(const std::string& path, Library& library);

} // namespace lakebound
