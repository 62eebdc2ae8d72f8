#pragma once
// Small pieces of running text: first letters, columns.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/page/line_fill.hpp"

namespace lakebound::layout {

inline constexpr std::size_t page_width = 80;

using page::columns;
using page::padded;
using page::right_aligned;
using page::wrapped;

/// The first letter as a capital, where it is an ASCII letter.
std::string capitalised(std::string text);

} // namespace lakebound::layout
