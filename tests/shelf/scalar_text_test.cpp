// Where a scalar ends in its file, and which line below reads like a key that it swallowed.

#include "shelf/scalar_text.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

using namespace lakebound;

namespace {

/// What of the text a quote at `start` spans, or "open".
std::string_view quoted_part(std::string_view text, std::size_t start = 0) {
    const std::size_t end = quoted_end(text, start);
    return end == not_closed ? "open" : text.substr(start, end - start);
}

std::string_view plain_part(std::string_view text, std::string_view value, std::size_t start = 0) {
    return text.substr(start, plain_end(text, start, value) - start);
}

/// The text from the swallowed line on, or "none".
std::string_view swallowed_part(std::string_view text, bool spaced, bool list_items) {
    const std::size_t at = swallowed_line(text, 0, text.size(), spaced, list_items);
    return at == not_closed ? "none" : text.substr(at);
}

} // namespace

TEST_CASE("a quote ends at its like, which may be written twice or behind a backslash", "[unit]") {
    CHECK(quoted_part("'weld' x") == "'weld'");
    CHECK(quoted_part("'it''s' x") == "'it''s'");
    CHECK(quoted_part("'it'''") == "'it'''");
    CHECK(quoted_part("''") == "''");
    CHECK(quoted_part("'a\\' x") == "'a\\'"); // no escape in single quotes
    CHECK(quoted_part("\"a\\\"b\" x") == "\"a\\\"b\"");
    CHECK(quoted_part("\"a\"\" x") == "\"a\"");
    CHECK(quoted_part("\"it's\"") == "\"it's\"");
    CHECK(quoted_part("a: \"b\" c", 3) == "\"b\"");
    CHECK(quoted_part("\"never") == "open");
    CHECK(quoted_part("'never''") == "open");
    CHECK(quoted_part("\"never\\\"") == "open");
}

TEST_CASE("a plain value ends where its text does, folded or not", "[unit]") {
    CHECK(plain_part("1.9 g/cm3 # mine", "1.9 g/cm3") == "1.9 g/cm3");
    CHECK(plain_part("a: weld, 3", "weld, 3", 3) == "weld, 3");
    CHECK(plain_part("folded\n  text of  two\nb: 1", "folded text of  two") == "folded\n  text of  two");
    CHECK(plain_part("two\n\n  lines", "two\nlines") == "two\n\n  lines");
    CHECK(plain_part("three\n\n\n  lines", "three\n\nlines") == "three\n\n\n  lines");
    CHECK(plain_part("end \n", "end ") == "end \n");
    CHECK(plain_part("short", "short of it") == "short"); // of a value that is not this text's, as far as they agree
    CHECK(plain_part("other", "odd") == "o");
}

TEST_CASE("a line reads like a key, or like an item, where a colon or a dash says so", "[unit]") {
    for (const bool spaced : {true, false}) {
        CHECK(swallowed_part("foo\n  b: 2", spaced, true) == "b: 2");
        CHECK(swallowed_part("foo\nbar_2:\n", spaced, true) == "bar_2:\n");
        CHECK(swallowed_part("foo\n  Name: 2", spaced, true) == "Name: 2");
        CHECK(swallowed_part("foo\n  bar:", spaced, true) == "bar:");
        CHECK(swallowed_part("foo\n  \"b\": 2", spaced, true) == "\"b\": 2");
        CHECK(swallowed_part("foo\n  'b': 2", spaced, true) == "'b': 2");
        CHECK(swallowed_part("foo\n  - b: 2", spaced, false) == "- b: 2");
        CHECK(swallowed_part("foo\n  -   'b': 2", spaced, false) == "-   'b': 2");
        CHECK(swallowed_part("foo\n  - b", spaced, true) == "- b");
        CHECK(swallowed_part("foo\n  - b", spaced, false) == "none");
        CHECK(swallowed_part("foo\n  bar baz\n  - \n", spaced, false) == "none");
        CHECK(swallowed_part("foo\n  -b\n  --\n  -", spaced, true) == "none");
        CHECK(swallowed_part("foo\n  see https://example.org", spaced, true) == "none");
        CHECK(swallowed_part("foo\n  https://example.org", spaced, true) == "none");
        CHECK(swallowed_part("foo\n  @b: 2\n  {b: 2\n  [b: 2\n  b~: 2", spaced, true) == "none");
        CHECK(swallowed_part("foo\n  b\n   \n  'b\n  '", spaced, true) == "none");
        CHECK(swallowed_part("foo\n  b", spaced, true) == "none");
        CHECK(swallowed_part("foo", spaced, true) == "none");
    }
    CHECK(swallowed_part("foo\n  b:2", false, true) == "b:2"); // in a plain text that can only be a key
    CHECK(swallowed_part("foo\n  b:2", true, true) == "none");
    CHECK(swallowed_line("foo\n  b: 2", 0, 4, true, true) == not_closed); // past its end
    CHECK(swallowed_line("foo\n  b: 2", 0, 6, true, true) == not_closed);
    CHECK(swallowed_line("foo\n  b:", 0, 7, true, true) == 6);
}

TEST_CASE("behind a quote only what ends a value may follow", "[unit]") {
    const auto ends_well = [](std::string_view rest) { return quote_ends_well(std::string("'a'").append(rest), 3); };
    for (const char* good : {"", "  ", "\n", " \nb", ",", " , b", "]", "}", ": 1", " # mine"}) {
        CAPTURE(good);
        CHECK(ends_well(good));
    }
    for (const char* bad : {"b", " b", "#mine", "'", " {"}) {
        CAPTURE(bad);
        CHECK_FALSE(ends_well(bad));
    }
}
