#pragma once
// A vessel from its file (kind: vessel; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/paint/vessel.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The vessel of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] Vessel read_vessel(Document document, std::string id);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] Vessel read_vessel_file(const std::string& path);

} // namespace lakebound
