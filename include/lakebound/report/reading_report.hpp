#pragma once
// What a bench reading tells in words: the figure with its uncertainty, as a line ready for the jar's file.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/reading_answer.hpp"
#include "lakebound/page/page.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The schema_version written.
inline constexpr int reading_json_version = 2;

/// Lines of YAML: remarks as comments, then the figure ("oil_absorption: 68.8 x/ 1.11 g/100g").
[[nodiscard]] std::string reading_text(const ReadingAnswer& answer);
/// The same as one JSON document: figure, value with its unit in the key, uncertainty.
[[nodiscard]] std::string reading_json(const ReadingAnswer& answer);
/// The same as a page: the figure, what to know of it, and of several rub-outs a bar for each.
[[nodiscard]] page::Page reading_page(const ReadingAnswer& answer);

} // namespace lakebound
