#pragma once
// The sheet of a batch that is begun lean and brought up in doses, as a page and as JSON.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/record/jar_story.hpp"
#include "lakebound/record/stepwise_mix.hpp"

namespace LAKEBOUND_EXPORT lakebound {

inline constexpr int stepwise_json_version = 1;

[[nodiscard]] page::Page stepwise_page(const JarStory& story, const StepwisePlan& plan);
[[nodiscard]] std::string stepwise_json(const JarStory& story, const StepwisePlan& plan);

} // namespace lakebound
