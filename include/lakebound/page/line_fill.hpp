#pragma once
// Filling lines of fixed-width text. Lines break at spaces, but never between a number and what follows
// it, nor around ± and x/. Widths are columns of a terminal: an accent laid over a letter takes none, a
// letter of Chinese, Japanese or Korean takes two.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

/// Columns that UTF-8 text takes on a terminal.
[[nodiscard]] std::size_t columns(std::string_view text);
/// Text followed by spaces up to `width` columns.
[[nodiscard]] std::string padded(std::string text, std::size_t width);
/// Spaces up to `width` columns followed by the text.
[[nodiscard]] std::string right_aligned(std::string text, std::size_t width);
/// Lines of at most `width` columns (1 at least), one at least; a word longer than a line is cut.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t width);

} // namespace page
} // namespace lakebound
