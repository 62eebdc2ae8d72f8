// Blanks, signs and bytes: the parts of the reader that know UTF-8.
#include "unit_table.hpp"

namespace lakebound {
namespace {

bool is_at(std::string_view text, std::size_t at, std::string_view wanted) {
    return text.substr(at, wanted.size()) == wanted;
}

unsigned byte_at(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U;
}

/// Bytes of the well-formed UTF-8 sequence at `at` (Unicode 15, table 3-7); 0 when it is ill formed.
std::size_t sequence_at(std::string_view text, std::size_t at) {
    const unsigned a = byte_at(text, at), b = byte_at(text, at + 1);
    const auto tail = [&](std::size_t i) { return (byte_at(text, at + i) & 0xC0U) == 0x80U; };
    if (a < 0x80) return 1;
    if (a >= 0xC2 && a <= 0xDF) return tail(1) ? 2 : 0;
    if (a >= 0xE0 && a <= 0xEF) {
        if ((a == 0xE0 && b < 0xA0) || (a == 0xED && b > 0x9F)) return 0;
        return tail(1) && tail(2) ? 3 : 0;
    }
    if (a >= 0xF0 && a <= 0xF4) {
        if ((a == 0xF0 && b < 0x90) || (a == 0xF4 && b > 0x8F)) return 0;
        return tail(1) && tail(2) && tail(3) ? 4 : 0;
    }
    return 0;
}

} // namespace

std::size_t blank_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return 0;
    switch (text[at]) {
    case ' ':
    case '\t':
    case '\n':
    case '\r':
        return 1;
    case '\xC2':
        return is_at(text, at, "\u00A0") ? 2 : 0; // no-break space
    case '\xE2':                                  // narrow no-break space, thin space
        return is_at(text, at, "\u202F") || is_at(text, at, "\u2009") ? 3 : 0;
    default:
        return 0;
    }
}

PlainUnit plain_unit(std::string_view typed) {
    PlainUnit out;
    bool blank_waits = false;
    const auto put = [&](char c) {
        if (out.size < out.bytes.size()) out.bytes[out.size] = c;
        ++out.size;
    };
    for (std::size_t at = 0; at < typed.size();) {
        if (const std::size_t bytes = blank_at(typed, at)) {
            blank_waits = out.size > 0;
            at += bytes;
            continue;
        }
        if (blank_waits && typed[at] != '/' && out.bytes[out.size < out.bytes.size() ? out.size - 1 : 0] != '/')
            put(' ');
        blank_waits = false;
        if (is_at(typed, at, "\u03BC")) { // Greek mu for the micro sign
            put('\xC2');
            put('\xB5');
            at += 2;
        } else if (is_at(typed, at, "\u00B2") || is_at(typed, at, "\u00B3")) { // superscript two, three
            put(is_at(typed, at, "\u00B2") ? '2' : '3');
            at += 2;
        } else if (is_at(typed, at, "\u22C5")) { // dot operator for the middle dot
            put('\xC2');
            put('\xB7');
            at += 3;
        } else {
            blank_waits = typed[at] == '%' && out.size == 0; // "%w/w" is "% w/w"
            put(typed[at]);
            ++at;
        }
        if (out.size > out.bytes.size()) return {};
    }
    return out;
}

std::string quoted(std::string_view text) {
    constexpr std::size_t most = 60;
    constexpr char hex[] = "0123456789ABCDEF";
    std::string out = "'";
    for (std::size_t at = 0; at < text.size();) {
        if (at >= most) return out + "...'";
        const std::size_t bytes = sequence_at(text, at);
        const unsigned byte = byte_at(text, at);
        if (bytes == 0 || byte < 0x20 || byte == 0x7F) {
            out += "\\x";
            out += hex[byte >> 4U];
            out += hex[byte & 15U];
            ++at;
        } else {
            out += text.substr(at, bytes);
            at += bytes;
        }
    }
    return out + "'";
}

} // namespace lakebound
