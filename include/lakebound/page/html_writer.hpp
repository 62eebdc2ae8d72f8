#pragma once
// A page as one HTML file that needs nothing else: no network, no script, style and pictures inside.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

/// One document: A4 and Letter, a phone of 360 pixels, a desk, dark and light, forced colours. All text is
/// escaped, and what `write_text` leaves out is left out here.
[[nodiscard]] std::string write_html(const Page& page);

/// Several pages in one document, each on a side of its own; the first gives title and language.
[[nodiscard]] std::string write_html(const std::vector<Page>& pages);

} // namespace page
} // namespace lakebound
