#pragma once
// The swatch test: how to paint, dry and rub a swatch, and what counts, so that two people judge alike.

#include <span>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/paint/caution.hpp"
#include "lakebound/record/learning_habits.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// For one family; its drying time is that of the habits. materials: that ask for care.
[[nodiscard]] page::Page swatch_test_page(const Family& family, const LearningHabits& habits,
                                          std::span<const HazardousMaterial> materials);

} // namespace lakebound
