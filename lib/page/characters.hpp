#pragma once
// Characters of UTF-8 text: what may stand on a page, how wide it is, and its nearest in ASCII.

#include <cstddef>
#include <string>
#include <string_view>

namespace lakebound::page {

/// The character at `at`, which moves behind it; bytes that are no UTF-8 give U+FFFD, one byte at a time.
char32_t next_character(std::string_view text, std::size_t& at);
void append(std::string& text, char32_t character);

/// Columns on a terminal: 0 for marks laid over a letter, 2 for wide letters, else 1.
int columns_of(char32_t character);

/// What a page may show: control characters, ends of lines and odd spaces as a space, without invisible
/// characters and those that turn the direction of text; U+FFFD for bytes that are no UTF-8.
std::string clean(std::string_view text);

/// For a C locale: "±" as "+-", letters without their accents, "?" for what has no likeness.
std::string in_ascii(std::string_view text);

/// Words written from right to left set apart, so that they cannot turn the words about them.
std::string isolated(std::string text);

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// ASCII letters as capitals.
std::string capitals(std::string text);

} // namespace lakebound::page
