#pragma once
// A sieve test and its verdict, as a page, as text and as JSON.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/particle/sieve_answer.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] page::Page sieve_page(const SieveAnswer& answer);
[[nodiscard]] std::string sieve_text(const SieveAnswer& answer, const TextOptions& options = {});

inline constexpr int sieve_json_version = 2;
/// One document of kind "sieve_test"; docs/json.md.
[[nodiscard]] std::string sieve_json(const SieveAnswer& answer);

} // namespace lakebound
