#pragma once
// Text of a person, made safe to show: names, notes, paths and arguments pass through here before they
// stand in a line of ours.
//
// What a person typed must not end our line, move the cursor, change the terminal or hide something from
// the eye: a name with a line end in it could print a verdict of its own. One character becomes one
// character, so that columns still count.
//
// Source of the lists: Unicode Character Database 15.0, General_Category Cc, Cf, Zl, Zp and the property
// Default_Ignorable_Code_Point (key unicode-ucd).

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Character {
    std::uint32_t code = 0;
    std::size_t length = 0; ///< bytes; 0 when the bytes are not UTF-8
};

/// The character at byte `at` of UTF-8 text. Strict: no overlong forms, no surrogates, nothing above
/// U+10FFFF.
[[nodiscard]] Character decode_character(std::string_view text, std::size_t at);

/// Moves the cursor or changes the terminal (category Cc); line end and tab are judged by the caller.
[[nodiscard]] bool is_control(std::uint32_t c);

/// A person cannot see it, or it makes a line read otherwise than it is: directions, joiners, fillers,
/// line and paragraph separators, tags, variation selectors, the blank Braille pattern, non-characters.
/// Marks that are drawn, such as the Arabic number signs, are not among them.
[[nodiscard]] bool is_invisible(std::uint32_t c);

/// The text in one line: a tab or line end becomes a space, whatever else is a control, invisible or no
/// UTF-8 becomes '?'.
[[nodiscard]] std::string shown(std::string_view text);

/// "a, b and c", as a person writes a list.
[[nodiscard]] std::string name_list(const std::vector<std::string>& names);

} // namespace lakebound
