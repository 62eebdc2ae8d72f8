#pragma once
// The swatch test: how to paint, dry and rub a swatch, and what counts, so that two people judge alike.

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/record/learning_habits.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// For one process; its drying time is that of the habits.
[[nodiscard]] page::Page swatch_test_page(Process process, const LearningHabits& habits);

} // namespace lakebound
