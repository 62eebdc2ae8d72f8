#pragma once
// Parting grains in water and decanting a fresh lake, as a page, as text and as JSON.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/decant_answer.hpp"
#include "lakebound/particle/settle_answer.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] page::Page settle_page(const SettleAnswer& answer);
[[nodiscard]] std::string settle_text(const SettleAnswer& answer, const TextOptions& options = {});

inline constexpr int settle_json_version = 2;
/// One document of kind "levigation"; docs/json.md.
[[nodiscard]] std::string settle_json(const SettleAnswer& answer);

[[nodiscard]] page::Page decant_page(const DecantAnswer& answer);
[[nodiscard]] std::string decant_text(const DecantAnswer& answer, const TextOptions& options = {});
/// One document of kind "decanting".
[[nodiscard]] std::string decant_json(const DecantAnswer& answer);

} // namespace lakebound
