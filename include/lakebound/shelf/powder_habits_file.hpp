#pragma once
// The habits of work with powder from their file (kind: powder habits; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The habits of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] PowderHabits read_powder_habits(Document document);
/// The same from a path ("-": standard input).
[[nodiscard]] PowderHabits read_powder_habits_file(const std::string& path);

} // namespace lakebound
