#include "lib/page/figure_cell.hpp"

#include <catch2/catch.hpp>

#include "lib/page/text_lines.hpp"

using namespace lakebound::page;

TEST_CASE("a figure is parted at its point, words before and behind it kept", "[unit]") {
    struct Case { const char *cell, *before, *behind; std::size_t decimals; };
    for (const auto& c : {Case{"12.15", "12", ".15", 2}, {"12", "12", "", 0}, {"3.", "3", ".", 0}, {"3.x", "3", ".x", 0}, {"0.5 g", "0", ".5 g", 1}, {"7 g", "7", " g", 0}, {"-0.5", "-0", ".5", 1},
                          {"about 10.250 mL", "about 10", ".250 mL", 3}, {"1.2.3", "1", ".2.3", 1}, {"5,5", "5", ",5", 0}, {"x9", "x9", "", 0}, {"2 of 3.5", "2", " of 3.5", 0}, {".5", ".5", "", 0}}) {
        CAPTURE(c.cell);
        const auto split = split_at_point(c.cell);
        CHECK(split.is_figure);
        CHECK(split.before == c.before);
        CHECK(split.behind == c.behind);
        CHECK(split.decimals == c.decimals);
    }
    for (const char* none : {"", "-", "none", ".", "± %"}) CHECK_FALSE(split_at_point(none).is_figure);
    CHECK(wants_unit("5", "g"));
    CHECK(wants_unit("about 12.0", "g"));
    for (const char* cell : {"", "5 g", "none", "5."}) CHECK_FALSE(wants_unit(cell, "g"));
    CHECK_FALSE(wants_unit("5", ""));
}

TEST_CASE("a bar of letters is true to an eighth of one", "[unit]") {
    const char* eighths[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉", "█"};
    for (std::size_t i = 0; i <= 8; ++i) {
        CAPTURE(i);
        CHECK(text_bar(double(i) / 8.0, 1) == eighths[i]);
        CHECK(text_bar((8.0 + double(i)) / 24.0, 3) == std::string("█") + eighths[i]);
    }
    CHECK(text_bar(0.06, 1).empty()); // less than half an eighth
    CHECK(text_bar(0.07, 1) == "▏");
    CHECK(text_bar(-0.5, 4).empty());
    CHECK(text_bar(1.2, 3) == "███");
    CHECK(text_bar(0.98, 2) == "██");
}
