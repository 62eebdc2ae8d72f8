#pragma once
// A fineness target from its file (kind: fineness target; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_target.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The target of a parsed file; its id is that of the family. Throws InputError with all that is wrong.
[[nodiscard]] FinenessTarget read_fineness_target(Document document, std::string id);
/// The same from a path ("-": standard input).
[[nodiscard]] FinenessTarget read_fineness_target_file(const std::string& path);

} // namespace lakebound
