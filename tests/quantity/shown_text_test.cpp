#include "lakebound/quantity/shown_text.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace lakebound;

namespace {

std::string utf8(std::uint32_t c) {
    std::string out;
    const auto put = [&](std::uint32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
    if (c < 0x80) {
        put(c);
    } else if (c < 0x800) {
        put(0xC0 | c >> 6), put(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
        put(0xE0 | c >> 12), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
    } else {
        put(0xF0 | c >> 18), put(0x80 | (c >> 12 & 0x3F)), put(0x80 | (c >> 6 & 0x3F)), put(0x80 | (c & 0x3F));
    }
    return out;
}

} // namespace

TEST_CASE("what a person typed stands in one line and moves no cursor", "[unit]") {
    CHECK(shown("Weld, 3rd batch") == "Weld, 3rd batch");
    CHECK(shown("Krapplack, dunkel: \u00E4\u00F6\u00FC \u8336 \u0448\u0430\u0444\u0440\u0430\u043D") ==
          "Krapplack, dunkel: \u00E4\u00F6\u00FC \u8336 \u0448\u0430\u0444\u0440\u0430\u043D");
    CHECK(shown("jar\nSHOULD HOLD") == "jar SHOULD HOLD");
    CHECK(shown("a\tb") == "a b");
    CHECK(shown("\x1b[2J\x1b]0;title\x07") == "?[2J?]0;title?");
    CHECK(shown("a\u0085b\u2028c\u2029d") == "a?b?c?d");
    CHECK(shown("caf\xE9") == "caf?"); // Latin-1
    CHECK(shown("").empty());
}

TEST_CASE("every character that hides or turns text is known", "[unit]") {
    // One of each kind, and the ends of every range. Unicode Character Database 15.0: categories Cf, Zl, Zp and
    // Default_Ignorable_Code_Point (key unicode-ucd; the list from memory, the categories compared with those of
    // Python's unicodedata, version 14.0).
    for (const std::uint32_t c :
         {0xADU,   0x34FU,   0x61CU,   0x70FU,   0x115FU,  0x1160U,  0x17B4U,  0x17B5U,  0x180BU,
          0x180EU, 0x180FU,  0x200BU,  0x200EU,  0x200FU,  0x2028U,  0x2029U,  0x202AU,  0x202EU,
          0x2060U, 0x2066U,  0x2069U,  0x206FU,  0x2800U,  0x3164U,  0xFE00U,  0xFE0FU,  0xFEFFU,
          0xFFA0U, 0xFFF0U,  0xFFF9U,  0xFFFBU,  0xFFFCU,  0xFFFEU,  0xFFFFU,  0x1BCA0U, 0x1D173U,
          0x1FFFEU, 0xE0001U, 0xE0041U, 0xE007FU, 0xE0100U, 0xE01EFU, 0xE0FFFU}) {
        INFO(std::hex << c);
        CHECK(is_invisible(c));
        CHECK(shown("a" + utf8(c) + "b") == "a?b");
    }
    // What is drawn stays: letters, marks, the Arabic number sign, odd spaces, an emoji.
    for (const std::uint32_t c : {0x41U, 0xA0U, 0xAEU, 0xE9U, 0x301U, 0x600U, 0x61BU, 0x61DU, 0x1161U, 0x200AU,
                                  0x2010U, 0x2070U, 0x3000U, 0x3163U, 0x3165U, 0xFF9FU, 0xFFFDU, 0x1F58CU}) {
        INFO(std::hex << c);
        CHECK_FALSE(is_invisible(c));
        CHECK(shown(utf8(c)) == utf8(c));
    }
    for (std::uint32_t c = 0; c < 0x20; ++c)
        CHECK(is_control(c) == (c != '\n' && c != '\t'));
    for (std::uint32_t c = 0x7F; c < 0xA0; ++c)
        CHECK(is_control(c));
    CHECK_FALSE(is_control(0x7E));
    CHECK_FALSE(is_control(0xA0));
}

TEST_CASE("bytes that are no UTF-8 are told from those that are", "[unit]") {
    CHECK(decode_character("\xC3\xA9", 0).code == 0xE9);
    CHECK(decode_character("\xF0\x9F\x96\x8C", 0).code == 0x1F58C);
    for (const char* bytes : {"\xC0\x80", "\xC1\xBF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                              "\xF8\x88\x80\x80\x80", "\x80", "\xE2\x82", "\xFF"})
        CHECK(decode_character(bytes, 0).length == 0);
}

TEST_CASE("the first and the last character of every length", "[unit]") {
    // RFC 3629, table of its section 4: U+0080, U+07FF, U+0800, U+D7FF, U+E000, U+FFFD, U+10000, U+10FFFF.
    for (const std::uint32_t c : {0x80U, 0x7FFU, 0x800U, 0xFFFU, 0x1000U, 0xCFFFU, 0xD7FFU, 0xE000U, 0xFFFDU, 0x10000U,
                                  0x3FFFFU, 0x40000U, 0xFFFFFU, 0x100000U, 0x10FFFFU}) {
        INFO(std::hex << c);
        const auto read = decode_character("x" + utf8(c), 1);
        CHECK(read.code == c);
        CHECK(read.length == (c < 0x800 ? 2 : c < 0x10000 ? 3 : 4));
    }
    CHECK(decode_character("\x7F", 0).code == 0x7F);
    CHECK(decode_character("\x7F", 0).length == 1);
    // One tail spoiled at a time, cut short, or the halves of a pair, or beyond the last.
    for (const char* bytes : {"\xC3(", "\xE2(\x82", "\xE2\x82(", "\xF0(\x96\x8C", "\xF0\x9F(\x8C", "\xF0\x9F\x96(",
                              "\xDF", "\xEF\xBF", "\xF0\x9F\x96", "\xED\xBF\xBF", "\xE0\x9F\xBF", "\xF0\x8F\xBF\xBF",
                              "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC1\x80"}) {
        INFO(bytes);
        CHECK(decode_character(bytes, 0).length == 0);
    }
    CHECK(shown("a\x80z") == "az"); // a tail without a head is no character
    CHECK(shown("\xE2\x82") == "?");
}

TEST_CASE("names stand in a list as a person writes one", "[unit]") {
    CHECK(name_list({}).empty());
    CHECK(name_list({"weld"}) == "weld");
    CHECK(name_list({"weld", "madder"}) == "weld and madder");
    CHECK(name_list({"weld", "madder", "cochineal"}) == "weld, madder and cochineal");
}
