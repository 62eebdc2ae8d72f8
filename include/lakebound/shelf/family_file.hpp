#pragma once
// A family from its file (kind: family; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The family of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] Family read_family(Document document, std::string id);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Family read_family_file(const std::string& path);

} // namespace lakebound
