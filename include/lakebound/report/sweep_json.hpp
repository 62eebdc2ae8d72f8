#pragma once
// The JSON report of a sweep: a column of numbers for each quantity.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/report/sweep_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] std::string sweep_json(const SweepTable& table);

} // namespace lakebound
