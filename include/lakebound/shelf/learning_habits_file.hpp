#pragma once
// Reads learning habits: what is taken to be true of jars, hands and binders before a record says more, and what the
// steps of learning cost.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/record/learning_habits.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Throws InputError with every fault of the file.
[[nodiscard]] LearningHabits read_learning_habits(Document document);
[[nodiscard]] LearningHabits read_learning_habits_file(const std::string& path);

} // namespace lakebound
