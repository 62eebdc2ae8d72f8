#pragma once
// A grinding plan and the readings of the muller, as a page, as text and as JSON.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/grind_answer.hpp"
#include "lakebound/particle/mull_answer.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] page::Page grind_page(const GrindAnswer& answer);
[[nodiscard]] std::string grind_text(const GrindAnswer& answer, const TextOptions& options = {});

inline constexpr int grind_json_version = 2;
/// One document of kind "grinding_plan"; docs/json.md.
[[nodiscard]] std::string grind_json(const GrindAnswer& answer);

[[nodiscard]] page::Page mull_page(const MullAnswer& answer);
[[nodiscard]] std::string mull_text(const MullAnswer& answer, const TextOptions& options = {});
/// One document of kind "mulling".
[[nodiscard]] std::string mull_json(const MullAnswer& answer);

} // namespace lakebound
