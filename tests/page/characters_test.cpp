#include "lib/page/characters.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <utility>

namespace page = lakebound::page;

namespace {

/// Table 3-7 of the Unicode standard, well-formed byte sequences (from memory): the second byte's range by the first;
/// what follows is 80 to BF.
struct Form {
    int first_low, first_high, second_low, second_high, more;
};
constexpr Form forms[] = {{0xC2, 0xDF, 0x80, 0xBF, 1}, {0xE0, 0xE0, 0xA0, 0xBF, 2}, {0xE1, 0xEC, 0x80, 0xBF, 2},
                          {0xED, 0xED, 0x80, 0x9F, 2}, {0xEE, 0xEF, 0x80, 0xBF, 2}, {0xF0, 0xF0, 0x90, 0xBF, 3},
                          {0xF1, 0xF3, 0x80, 0xBF, 3}, {0xF4, 0xF4, 0x80, 0x8F, 3}};

/// How many bytes the character at the beginning takes; 0: none begins there.
std::size_t well_formed(const std::string& text) {
    const auto byte = [&](std::size_t i) { return static_cast<int>(static_cast<unsigned char>(text[i])); };
    if (byte(0) < 0x80) return 1;
    for (const Form& form : forms) {
        if (byte(0) < form.first_low || byte(0) > form.first_high) continue;
        if (text.size() < static_cast<std::size_t>(form.more) + 1 || byte(1) < form.second_low || byte(1) > form.second_high) return 0;
        for (int i = 2; i <= form.more; ++i)
            if (byte(static_cast<std::size_t>(i)) < 0x80 || byte(static_cast<std::size_t>(i)) > 0xBF) return 0;
        return static_cast<std::size_t>(form.more) + 1;
    }
    return 0;
}

} // namespace

TEST_CASE("a character is taken where its bytes are well formed, and nowhere else", "[reference]") {
    std::size_t wrong = 0;
    for (int first = 0; first < 256; ++first)
        for (int second = 0; second < 256; ++second)
            for (const std::string rest : {"", "\x80", "\xBF", "\x7F", "\xC0", "\x80\x80", "\xBF\xBF", "\x80\x7F", "\xBF\xC0"}) {
                const std::string text = std::string{static_cast<char>(first), static_cast<char>(second)} + rest;
                const std::size_t bytes = well_formed(text);
                std::size_t at = 0;
                const char32_t c = page::next_character(text, at);
                char32_t want = bytes == 1 ? static_cast<char32_t>(first) : 0xFFFD;
                if (bytes > 1) { // the low bits of each byte, one behind the other
                    want = static_cast<char32_t>(first & (0x7F >> bytes));
                    for (std::size_t i = 1; i < bytes; ++i) want = want << 6 | (static_cast<unsigned char>(text[i]) & 0x3F);
                }
                if (c != want || at != (bytes == 0 ? 1 : bytes)) ++wrong;
            }
    CHECK(wrong == 0);
}

TEST_CASE("capitals are those of ASCII letters, and nothing else is touched", "[unit]") {
    std::string all, want;
    for (int c = 1; c < 256; ++c) {
        all += static_cast<char>(c);
        want += static_cast<char>(c >= 97 && c <= 122 ? c - 32 : c); // ASCII: a to z are 97 to 122, A is 65
    }
    CHECK(page::capitals(all) == want);
}

TEST_CASE("in ASCII a block is a hash, a letter its bare self, what is unlike all a question mark", "[unit]") {
    const std::pair<const char*, const char*> likes[] = {
        {"\u2580", "#"}, {"\u2588", "#"}, {"\u259f", "#"}, {"\u257f", "?"}, {"\u25a0", "?"}, {"\u00c0", "A"}, {"\u00ff", "y"}, {"\u0100", "A"}, {"\u017e", "z"}, {"\u017f", "s"}, {"\u0180", "?"}, {"\u00bf", "?"},
        {"\u00b0", "deg "}, {"\u00b1", "+-"}, {"\u00b2", "2"}, {"\u00b3", "3"}, {"\u00b5", "u"}, {"\u00d7", "x"}, {"\u00df", "ss"}, {"\u00c6", "AE"}, {"\u0153", "oe"}, {"\u03bb", "lambda"}, {"\u03c3", "sigma"},
        {"\u2013", "-"}, {"\u2019", "'"}, {"\u201c", "\""}, {"\u2026", "..."}, {"\u2212", "-"}, {"\u2248", "~"}, {"\u2264", "<="}, {"\u2265", ">="}, {"e\u0301", "e"}, {"\u4e2d", "?"}, {" ~", " ~"}};
    for (const auto& [text, like] : likes) {
        CAPTURE(text);
        CHECK(page::in_ascii(text) == like);
    }
}
