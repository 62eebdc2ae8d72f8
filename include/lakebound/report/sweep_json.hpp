#pragma once
// The JSON report of a sweep: a column of numbers for each quantity.

#include <string>

#include "lakebound/report/sweep_table.hpp"

namespace lakebound {

[[nodiscard]] std::string sweep_json(const SweepTable& table);

} // namespace lakebound
