#pragma once
// A jar from its file (kind: jar; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The jar of a parsed file. What was not measured is filled from the pigment on the shelf that stands
/// in for it, with provenance.library_default set and its name in library_defaults; what was drawn is
/// subtracted from net_mass, exactly (a log of drawings is not a new weighing). Throws InputError with
/// all that is wrong in it, jar-overdrawn (both places) when more was drawn than there was.
[[nodiscard]] Jar read_jar(Document document, std::string id, Library& library);
/// The same from a path ("-": standard input), following its includes; the id is the file's stem.
[[nodiscard]] Jar read_jar_file(const std::string& path, Library& library);

} // namespace lakebound
