#pragma once
// The habits of washing and drying from their file (kind: wash habits; docs/file-formats.md).

#include "lakebound/bath/wash_habits.hpp"
#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The habits of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] WashHabits read_wash_habits(Document document);
[[nodiscard]] WashHabits read_wash_habits_file(const std::string& path);

} // namespace lakebound
