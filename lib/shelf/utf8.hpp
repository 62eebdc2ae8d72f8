#pragma once
// Unicode characters in UTF-8 bytes. Internal.

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace lakebound {

struct Character {
    std::uint32_t code = 0;
    std::size_t length = 0; ///< bytes; 0 when the bytes are not UTF-8
};

/// The character at byte `at`. Strict: no overlong forms, no surrogates, nothing above U+10FFFF.
inline Character decode_character(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) -> std::uint32_t {
        return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0u;
    };
    const auto tail = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
    const std::uint32_t a = byte(0);
    if (a < 0x80u) return {a, 1};
    if (a >= 0xC2u && a <= 0xDFu && tail(1)) return {(a & 0x1Fu) << 6 | (byte(1) & 0x3Fu), 2};
    if (a >= 0xE0u && a <= 0xEFu && tail(1) && tail(2)) {
        const std::uint32_t code = (a & 0x0Fu) << 12 | (byte(1) & 0x3Fu) << 6 | (byte(2) & 0x3Fu);
        if (code >= 0x800u && !(code >= 0xD800u && code <= 0xDFFFu)) return {code, 3};
    }
    if (a >= 0xF0u && a <= 0xF4u && tail(1) && tail(2) && tail(3)) {
        const std::uint32_t code =
            (a & 0x07u) << 18 | (byte(1) & 0x3Fu) << 12 | (byte(2) & 0x3Fu) << 6 | (byte(3) & 0x3Fu);
        if (code >= 0x10000u && code <= 0x10FFFFu) return {code, 4};
    }
    return {};
}

/// Moves the cursor or changes the terminal; line ends and tabs are judged elsewhere.
inline bool is_control(std::uint32_t c) {
    return (c < 0x20 && c != '\n' && c != '\t') || (c >= 0x7F && c < 0xA0);
}

/// Characters that a person cannot see and that make a line read otherwise than it is.
inline bool is_invisible(std::uint32_t c) {
    return c == 0xAD || (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
           (c >= 0x2060 && c <= 0x2069) || c == 0xFEFF;
}

} // namespace lakebound
