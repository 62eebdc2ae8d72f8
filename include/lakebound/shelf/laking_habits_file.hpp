#pragma once
// The habits of the dye pot from their file (kind: laking habits; docs/file-formats.md).

#include "lakebound/bath/laking_habits.hpp"
#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The habits of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] LakingHabits read_laking_habits(Document document);
[[nodiscard]] LakingHabits read_laking_habits_file(const std::string& path);

} // namespace lakebound
