// Blanks, signs and bytes: the parts of the reader that know UTF-8.
#include "lakebound/quantity/shown_text.hpp"
#include "unit_table.hpp"

namespace lakebound {
namespace {

bool is_at(std::string_view text, std::size_t at, std::string_view wanted) {
    return text.substr(at, wanted.size()) == wanted;
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
        const Character c = decode_character(text, at);
        const std::size_t bytes = c.length == 0 ? 1 : c.length;
        const bool plain = c.length != 0 && c.code != '\n' && c.code != '\t' && !is_control(c.code) &&
                           !is_invisible(c.code);
        if (plain) out += text.substr(at, bytes);
        for (std::size_t i = 0; i < bytes && !plain; ++i) {
            const unsigned byte = static_cast<unsigned char>(text[at + i]);
            out += "\\x";
            out += hex[byte >> 4U];
            out += hex[byte & 15U];
        }
        at += bytes;
    }
    return out + "'";
}

} // namespace lakebound
