#include "characters.hpp"

#include <algorithm>
#include <array>

namespace lakebound::page {

namespace {

constexpr char32_t replacement = 0xFFFD;

struct Range {
    char32_t first, last;
};

template <std::size_t N>
bool in(const std::array<Range, N>& ranges, char32_t c) {
    return std::any_of(ranges.begin(), ranges.end(), [c](Range r) { return c >= r.first && c <= r.last; });
}

/// Nothing of these is seen, or they turn what is seen round.
constexpr std::array<Range, 17> invisible{{{0xAD, 0xAD},
                                           {0x34F, 0x34F},
                                           {0x61C, 0x61C},
                                           {0x115F, 0x1160},
                                           {0x17B4, 0x17B5},
                                           {0x180B, 0x180F},
                                           {0x200B, 0x200F},
                                           {0x202A, 0x202E},
                                           {0x2060, 0x206F},
                                           {0x3164, 0x3164},
                                           {0xD800, 0xDFFF},
                                           {0xFDD0, 0xFDEF},
                                           {0xFE00, 0xFE0F},
                                           {0xFEFF, 0xFEFF},
                                           {0xFFA0, 0xFFA0},
                                           {0xFFF0, 0xFFFB},
                                           {0xE0000, 0xE0FFF}}};
constexpr std::array<Range, 9> odd_space{{{0x00, 0x1F},
                                          {0x7F, 0x9F},
                                          {0xA0, 0xA0},
                                          {0x1680, 0x1680},
                                          {0x2000, 0x200A},
                                          {0x2028, 0x2029},
                                          {0x202F, 0x202F},
                                          {0x205F, 0x205F},
                                          {0x3000, 0x3000}}};
constexpr std::array<Range, 14> laid_over{{{0x300, 0x36F},
                                           {0x483, 0x489},
                                           {0x591, 0x5BD},
                                           {0x5BF, 0x5C7},
                                           {0x610, 0x61A},
                                           {0x64B, 0x65F},
                                           {0x670, 0x670},
                                           {0x6D6, 0x6ED},
                                           {0x93C, 0x93C},
                                           {0x94D, 0x94D},
                                           {0x1AB0, 0x1AFF},
                                           {0x1DC0, 0x1DFF},
                                           {0x20D0, 0x20FF},
                                           {0xFE20, 0xFE2F}}};
constexpr std::array<Range, 10> wide_letters{{{0x1100, 0x115F},
                                      {0x2E80, 0x303E},
                                      {0x3041, 0xA4CF},
                                      {0xA960, 0xA97F},
                                      {0xAC00, 0xD7A3},
                                      {0xF900, 0xFAFF},
                                      {0xFE30, 0xFE6F},
                                      {0xFF00, 0xFF60},
                                      {0xFFE0, 0xFFE6},
                                      {0x1F000, 0x3FFFD}}};
constexpr std::array<Range, 4> right_to_left{
    {{0x590, 0x8FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFE}, {0x10800, 0x10FFF}}};

bool plain_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

struct Likeness {
    char32_t character;
    const char* ascii;
};
constexpr std::array<Likeness, 37> likenesses{{
    {0xB0, "deg "}, {0xB1, "+-"},   {0xB2, "2"},    {0xB3, "3"},    {0xB5, "u"},    {0xB7, "."},
    {0xC6, "AE"},   {0xD0, "D"},    {0xD7, "x"},    {0xD8, "O"},    {0xDE, "Th"},   {0xDF, "ss"},
    {0xE6, "ae"},   {0xF0, "d"},    {0xF7, "/"},    {0xF8, "o"},    {0xFE, "th"},   {0x131, "i"},
    {0x152, "OE"},  {0x153, "oe"},  {0x3BB, "lambda"}, {0x3BC, "u"}, {0x3C3, "sigma"}, {0x2010, "-"},
    {0x2011, "-"},  {0x2013, "-"},  {0x2014, "-"},  {0x2018, "'"},  {0x2019, "'"},  {0x201C, "\""},
    {0x201D, "\""}, {0x2026, "..."}, {0x2212, "-"}, {0x2248, "~"},  {0x2264, "<="}, {0x2265, ">="},
    {0x2715, "x"},
}};

/// Letters of Latin-1 and Latin Extended-A (U+00C0 to U+017F) without what is written on them.
constexpr std::string_view bare_letters =
    "AAAAAA?CEEEEIIII?NOOOOO?OUUUUY??aaaaaa?ceeeeiiii?nooooo?ouuuuy?y"
    "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiI?IiJjKkkLlLlLlL"
    "lLlNnNnNnnNnOoOoOo??RrRrRrSsSsSsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";
static_assert(bare_letters.size() == 0x180 - 0xC0);

} // namespace

char32_t next_character(std::string_view text, std::size_t& at) {
    const auto byte = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(at++);
    if (first < 0x80) return first;
    const int more = first >= 0xF0 && first <= 0xF4 ? 3 : first >= 0xE0 ? 2 : first >= 0xC2 ? 1 : 0;
    if (more == 0 || first > 0xF4 || at + static_cast<std::size_t>(more) > text.size()) return replacement;
    char32_t c = first & (0x3FU >> more);
    for (int i = 0; i < more; ++i) {
        const unsigned char next = byte(at + static_cast<std::size_t>(i));
        if ((next & 0xC0U) != 0x80U) return replacement;
        c = (c << 6U) | (next & 0x3FU);
    }
    static constexpr char32_t least[] = {0, 0x80, 0x800, 0x10000};
    if (c < least[more] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return replacement;
    at += static_cast<std::size_t>(more);
    return c;
}

void append(std::string& text, char32_t c) {
    const auto put = [&text](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
    if (c < 0x80) {
        put(c);
    } else if (c < 0x800) {
        put(0xC0U | (c >> 6U));
        put(0x80U | (c & 0x3FU));
    } else if (c < 0x10000) {
        put(0xE0U | (c >> 12U));
        put(0x80U | ((c >> 6U) & 0x3FU));
        put(0x80U | (c & 0x3FU));
    } else {
        put(0xF0U | (c >> 18U));
        put(0x80U | ((c >> 12U) & 0x3FU));
        put(0x80U | ((c >> 6U) & 0x3FU));
        put(0x80U | (c & 0x3FU));
    }
}

int columns_of(char32_t c) {
    if (c < 0x300) return 1;
    if (in(laid_over, c)) return 0;
    return in(wide_letters, c) ? 2 : 1;
}

std::string clean(std::string_view text) {
    if (plain_ascii(text)) return std::string(text);
    std::string result;
    result.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const char32_t c = next_character(text, at);
        if (in(odd_space, c))
            result += ' ';
        else if (!in(invisible, c) && (c & 0xFFFEU) != 0xFFFE)
            append(result, c);
    }
    return result;
}

std::string in_ascii(std::string_view text) {
    if (plain_ascii(text)) return std::string(text);
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const char32_t c = next_character(text, at);
        const auto* const like = std::find_if(likenesses.begin(), likenesses.end(),
                                              [c](const Likeness& each) { return each.character == c; });
        if (c < 0x80)
            result += static_cast<char>(c);
        else if (like != likenesses.end())
            result += like->ascii;
        else if (c >= 0xC0 && c < 0x180)
            result += bare_letters[c - 0xC0];
        else if (c >= 0x2580 && c <= 0x259F)
            result += '#';
        else if (columns_of(c) > 0)
            result += '?';
    }
    return result;
}

std::string isolated(std::string text) {
    if (plain_ascii(text)) return text;
    std::string result;
    bool turned = false;
    std::string between; // spaces and marks after a turned word: inside only if another one follows
    for (std::size_t at = 0; at < text.size();) {
        const char32_t c = next_character(text, at);
        const bool turns = in(right_to_left, c);
        if (turns) {
            if (!turned) append(result, 0x2068); // first strong isolate
            result += between;
            between.clear();
            turned = true;
            append(result, c);
        } else if (turned && (c == ' ' || columns_of(c) == 0)) {
            append(between, c);
        } else {
            if (turned) append(result, 0x2069); // pop
            turned = false;
            result += between;
            between.clear();
            append(result, c);
        }
    }
    if (turned) append(result, 0x2069);
    return result + between;
}

std::string capitals(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    return text;
}

} // namespace lakebound::page
