#pragma once
// Where a YAML scalar ends in the source, and what it may have swallowed on the way. Internal.
//
// yaml-cpp tells where a scalar begins, not where it ends, and closes an open quote at the end of the
// file without a word.

#include <cstddef>
#include <string_view>

namespace lakebound {

inline constexpr std::size_t not_closed = static_cast<std::size_t>(-1);

/// One past the closing quote of the quoted scalar that begins at `start`; not_closed when there is none.
std::size_t quoted_end(std::string_view text, std::size_t start);

/// One past the last byte of the plain scalar of `value` that begins at `start`, folded or not.
std::size_t plain_end(std::string_view text, std::size_t start, std::string_view value);

/// Byte offset in `text` of the first line after the first one of [start, end) that reads like a key
/// ("word:", after spaces or "- ") or, for list_items, like an item of a list; not_closed when none does.
/// spaced: the colon must be followed by a space or the end of the line, as a key's is.
std::size_t swallowed_line(std::string_view text, std::size_t start, std::size_t end, bool spaced,
                           bool list_items);

/// True when, behind a quoted scalar that ends at `end`, nothing follows that a closing quote may
/// not be followed by.
bool quote_ends_well(std::string_view text, std::size_t end);

} // namespace lakebound
