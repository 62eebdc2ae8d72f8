#include <catch2/catch.hpp>

#include <random>

#include "lakebound/page/line_fill.hpp"

using namespace lakebound::page;

TEST_CASE("columns are those of a terminal", "[unit]") {
    CHECK(columns("6.0 ± 0.2 %") == 11);
    CHECK(columns("e\u0301") == 1);   // an accent laid over its letter
    CHECK(columns("\u7d75\u5177") == 4); // two wide letters
    CHECK(columns("") == 0);
    CHECK(right_aligned("±", 3) == "  ±");
    CHECK(padded("±", 3) == "±  ");
    CHECK(padded("longer", 3) == "longer");
}

TEST_CASE("lines do not part a number from its unit", "[unit]") {
    CHECK(wrapped("it weighs 11.6 g", 14) == std::vector<std::string>{"it weighs", "11.6 g"});
    CHECK(wrapped("a share of 2.0 ± 0.2 % is", 14) == std::vector<std::string>{"a share of", "2.0 ± 0.2 % is"});
    CHECK(wrapped("", 10) == std::vector<std::string>{""});
}

TEST_CASE("a word longer than a line is cut, and nothing is lost", "[unit]") {
    CHECK(wrapped("abcdefgh ij", 3) == std::vector<std::string>{"abc", "def", "gh", "ij"});
}

TEST_CASE("no line is wider than asked, whatever the words", "[identity]") {
    std::mt19937 random(1);
    const std::vector<std::string> pieces{"a", "longer", "12", "±", "0.5", "%", "\u7d75", "e\u0301", "x/", "g/cm3",
                                          "Farbstofflackpigmentaufbewahrungsglas"};
    for (std::size_t width = 2; width <= 90; ++width) {
        std::string text, letters;
        for (int i = 0; i < 40; ++i) {
            const auto& piece = pieces[random() % pieces.size()];
            text += piece + (random() % 3 == 0 ? "" : " ");
            letters += piece;
        }
        std::string kept;
        for (const auto& line : wrapped(text, width)) {
            INFO(width << ": " << line);
            CHECK(columns(line) <= width);
            for (const char c : line)
                if (c != ' ') kept += c;
        }
        CHECK(kept == letters);
    }
}
