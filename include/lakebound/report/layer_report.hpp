#pragma once
// Fat over lean in words: several oil paints with the volume of oil in them, and a faulty order flagged.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/layer_answer.hpp"
#include "lakebound/page/page.hpp"
#include "lakebound/report/text_options.hpp"

namespace LAKEBOUND_EXPORT lakebound {

[[nodiscard]] page::Page layer_page(const LayerAnswer& answer);
[[nodiscard]] std::string layer_text(const LayerAnswer& answer, const TextOptions& options = {});
[[nodiscard]] std::string layer_json(const LayerAnswer& answer);

} // namespace lakebound
