// Scalars in every short text of a few signs, held against regular expressions that say the same in another way, and plain
// values folded in every way.

#include "shelf/scalar_text.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

using namespace lakebound;

namespace {

/// Every text of these signs, of the lengths from..to.
template <class Each> void every_text(std::string_view signs, std::size_t from, std::size_t to, Each&& each) {
    for (std::size_t length = from; length <= to; ++length) {
        std::string text(length, signs[0]);
        std::vector<std::size_t> at(length, 0);
        for (std::size_t i = 0; i <= length;) {
            for (std::size_t k = 0; k < length; ++k)
                text[k] = signs[at[k]];
            each(text);
            for (i = 0; i < length && ++at[i] == signs.size(); ++i)
                at[i] = 0;
            if (i == length) break;
        }
    }
}

std::size_t end_of_match(const std::string& text, const std::regex& pattern) {
    std::smatch found;
    return std::regex_search(text, found, pattern, std::regex_constants::match_continuous) ? static_cast<std::size_t>(found.length(0)) : not_closed;
}

/// Where the first line below the first begins that a key or an item stands in, by an expression; its text may go on behind `end`.
std::size_t first_swallowed(const std::string& text, std::size_t end, bool spaced, bool list_items) {
    static const std::regex dashed("^ *- "), word("^ *(- +)?[\"']?[A-Za-z0-9_]+[\"']?");
    for (std::size_t line = text.find('\n'); line != std::string::npos && line < end; line = text.find('\n', line + 1)) {
        const std::string rest = text.substr(line + 1, end - line - 1);
        const std::size_t first = line + 1 + std::min(rest.find_first_not_of(' '), rest.size());
        std::smatch found;
        if (list_items && std::regex_search(rest, found, dashed)) return first;
        if (!std::regex_search(rest, found, word)) continue;
        const std::string behind = text.substr(line + 1 + static_cast<std::size_t>(found.length(0)));
        if (behind.rfind(':', 0) != 0) continue;
        const bool spaced_here = behind.size() == 1 || behind[1] == ' ' || behind[1] == '\n';
        if (spaced_here || (!spaced && behind.rfind("://", 0) != 0)) return first;
    }
    return not_closed;
}

} // namespace

TEST_CASE("quotes end in every short text where an expression ends them", "[identity]") {
    const std::regex single("'(?:[^']|'')*'(?!')"), twofold("\"(?:[^\"\\\\]|\\\\[^])*\"");
    every_text("'\"\\a", 0, 5, [&](const std::string& rest) {
        CAPTURE(rest);
        if (quoted_end("'" + rest, 0) != end_of_match("'" + rest, single)) FAIL_CHECK("single");
        if (quoted_end("\"" + rest, 0) != end_of_match("\"" + rest, twofold)) FAIL_CHECK("double");
        const std::size_t later = quoted_end("a '" + rest, 2), first = end_of_match("'" + rest, single);
        if (later != (first == not_closed ? not_closed : first + 2)) FAIL_CHECK("further on");
    });
}

TEST_CASE("behind a quote every short text ends it as an expression says", "[identity]") {
    const std::regex well("^(?: *(?:$|[\\n,\\]\\}:])| +#)");
    every_text(" #,]}:\nb'", 0, 3, [&](const std::string& rest) {
        CAPTURE(rest);
        const std::string behind = rest.substr(0, rest.find('\n') == std::string::npos ? rest.size() : rest.find('\n') + 1);
        if (quote_ends_well("'a'" + rest, 3) != std::regex_search(behind, well)) FAIL_CHECK("another end");
    });
}

TEST_CASE("lines are swallowed in every short text where an expression finds a key", "[identity]") {
    every_text("a: -'/\n", 1, 4, [&](const std::string& rest) {
        const std::string text = "f\n" + rest;
        const bool spaced = rest.size() % 2 == 0, items = rest[0] != 'a';
        if (swallowed_line(text, 0, text.size(), spaced, items) != first_swallowed(text, text.size(), spaced, items)) {
            CAPTURE(text, spaced, items);
            FAIL_CHECK("another line");
        }
    });
    // A little of each further sign, and all ways to ask; of one word every end within the text.
    for (const char* const word : {"z", "A", "Z", "0", "9", "_", "az_Z09", "{", "`", "@", "[", "/", "^"})
        for (const char* const before : {"", " ", "- ", "-  ", "-", "\"", "'", "- '", "- \"", "# "})
            for (const char* const behind : {":", ": ", ":\n", ":b", "://", ":/", ":/ /", "':", "\":", "'", " :", ""})
                for (const bool spaced : {true, false})
                    for (const bool items : {true, false}) {
                        const std::string text = std::string("foo\n  ") + before + word + behind + "b\nlast: 1";
                        for (std::size_t end = word[0] == 'z' ? 0 : text.size(); end <= text.size(); ++end)
                            if (swallowed_line(text, 0, end, spaced, items) != first_swallowed(text, end, spaced, items)) {
                                CAPTURE(text, end, spaced, items);
                                FAIL_CHECK("another line");
                            }
                    }
}

TEST_CASE("a plain value that was folded ends where its text does", "[identity]") {
    // Words parted by blanks within a line, or by line ends with blanks about them: one of those folds to a blank, more to one less.
    const struct {
        const char *written, *read;
    } gaps[] = {{" ", " "}, {"   ", "   "}, {"\n", " "}, {" \n  ", " "}, {"\n\n", "\n"}, {"\n \n\n  ", "\n\n"}};
    for (const auto& one : gaps)
        for (const auto& other : gaps)
            for (const char* const before : {"", "key: ", "a:\n  "})
                for (const char* const behind : {"", " # said", "\nb: 1", ", c", "\n\n\n"}) {
                    const std::string text = std::string("one") + one.written + "two" + other.written + "three";
                    const std::string value = std::string("one") + one.read + "two" + other.read + "three", head = before;
                    CAPTURE(text, value);
                    CHECK(plain_end(head + text + behind, head.size(), value) == head.size() + text.size());
                    // What only begins alike ends where they part.
                    CHECK(plain_end(head + text + behind, head.size(), "one" + std::string(one.read) + "twig") ==
                          head.size() + 3 + std::string(one.written).size() + 2);
                }
}
