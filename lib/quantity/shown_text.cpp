#include "lakebound/quantity/shown_text.hpp"

#include <algorithm>
#include <iterator>

namespace lakebound {
namespace {

struct Span {
    std::uint32_t first, last;
};

// Cf without the marks that are drawn, Zl, Zp, Default_Ignorable_Code_Point; sorted. Besides: U+2800 is an
// empty pattern, U+FFFC stands for something that is not there.
constexpr Span invisible[] = {
    {0x00AD, 0x00AD},   // soft hyphen
    {0x034F, 0x034F},   // combining grapheme joiner
    {0x061C, 0x061C},   // Arabic letter mark
    {0x070F, 0x070F},   // Syriac abbreviation mark
    {0x115F, 0x1160},   // Hangul fillers
    {0x17B4, 0x17B5},   // Khmer inherent vowels
    {0x180B, 0x180F},   // Mongolian selectors and separator
    {0x200B, 0x200F},   // zero width, directions
    {0x2028, 0x202E},   // line and paragraph separator, embeddings
    {0x2060, 0x206F},   // joiners, invisible operators, isolates
    {0x2800, 0x2800},   // Braille pattern blank
    {0x3164, 0x3164},   // Hangul filler
    {0xFDD0, 0xFDEF},   // non-characters
    {0xFE00, 0xFE0F},   // variation selectors
    {0xFEFF, 0xFEFF},   // byte order mark
    {0xFFA0, 0xFFA0},   // half-width Hangul filler
    {0xFFF0, 0xFFFC},   // interlinear annotation, object replacement
    {0xFFFE, 0xFFFF},   // non-characters
    {0x13430, 0x1343F}, // hieroglyph joiners
    {0x1BCA0, 0x1BCA3}, // shorthand controls
    {0x1D173, 0x1D17A}, // musical beams
    {0xE0000, 0xE0FFF}, // tags, variation selectors
};

} // namespace

Character decode_character(std::string_view text, std::size_t at) {
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

bool is_control(std::uint32_t c) {
    return (c < 0x20 && c != '\n' && c != '\t') || (c >= 0x7F && c < 0xA0);
}

bool is_invisible(std::uint32_t c) {
    if (c < 0xAD) return false; // nearly all text
    if ((c & 0xFFFEu) == 0xFFFEu) return true;
    const auto after = std::upper_bound(std::begin(invisible), std::end(invisible), c,
                                        [](std::uint32_t x, const Span& span) { return x < span.first; });
    return after != std::begin(invisible) && c <= std::prev(after)->last;
}

std::string shown(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const Character c = decode_character(text, i);
        if (c.length == 0) {
            // Stray tails are not counted as characters elsewhere either.
            if ((static_cast<unsigned char>(text[i]) & 0xC0u) != 0x80u) out += '?';
            ++i;
            continue;
        }
        if (c.code == '\t' || c.code == '\n')
            out += ' ';
        else if (is_control(c.code) || is_invisible(c.code))
            out += '?';
        else
            out.append(text.substr(i, c.length));
        i += c.length;
    }
    return out;
}

std::string name_list(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
        text += names[i];
    }
    return text;
}

} // namespace lakebound
