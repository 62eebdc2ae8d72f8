#pragma once
// The page of a sweep: its curve, with the window where there is one, and its table.

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/sweep_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of more than 25 rows every so many are shown; the curve takes 200 at most.
[[nodiscard]] page::Page sweep_page(const SweepTable& table);

} // namespace lakebound
