#pragma once
// Dates as ISO 8601 has them: year-month-day.

#include <chrono>
#include <optional>
#include <string_view>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The day of "2026-03-02"; nothing for another form or no day of the calendar.
[[nodiscard]] std::optional<std::chrono::sys_days> day_of_iso(std::string_view text);

} // namespace lakebound
