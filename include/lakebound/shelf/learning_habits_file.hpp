#pragma once
// Reads learning habits: what is taken to be true of jars, hands and binders before a record says more, and what the
// steps of learning cost.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/record/learning_habits.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// practice: has how rub-outs scatter and how powders take up damp. Throws InputError with every fault of the file.
[[nodiscard]] LearningHabits read_learning_habits(Document document, const BenchPractice& practice);
[[nodiscard]] LearningHabits read_learning_habits_file(const std::string& path, const BenchPractice& practice);

} // namespace lakebound
