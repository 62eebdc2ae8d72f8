// Numbers as a drawing has them, ticks of axes, and pictures at the ends of what they can show.
#include "lib/page/svg.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>
#include <vector>

#include "lakebound/page/html_writer.hpp"
#include "lakebound/page/text_writer.hpp"

using namespace lakebound::page;

namespace {

std::string told(const Axis& axis) {
    std::string text;
    for (const auto& tick : ticks_of(axis)) text += (text.empty() ? "" : " ") + tick.text;
    return text;
}
Axis linear(double low, double high) { return {.name = "x", .low = low, .high = high}; }
Axis decades(double low, double high) { return {.name = "x", .low = low, .high = high, .scale = Scale::logarithmic}; }
Axis shares(double low, double high) { return {.name = "x", .low = low, .high = high, .scale = Scale::probability}; }
std::string html_of(const Picture& picture) {
    const auto html = write_html(Page{.title = {.kind = "Picture"}, .sections = {{.blocks = {picture}}}});
    const auto from = html.find("<figure");
    return html.substr(from, html.find("</figure>") - from);
}
std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
    return n;
}

} // namespace

TEST_CASE("numbers of a drawing have the decimals that are asked for, and no more than help", "[unit]") {
    const std::tuple<double, int, const char*> fixed[] = {{0, 0, "0"}, {1.4, 0, "1"}, {1.6, 0, "2"}, {-1.6, 0, "-2"}, {-0.04, 1, "0.0"}, {0.06, 1, "0.1"}, {-0.06, 1, "-0.1"}, {3.007, 2, "3.01"},
                                                          {12.3456, 3, "12.346"}, {9.0, 4, "9.0000"}, {0.05, 3, "0.050"}, {9.9e13, 1, "99000000000000.0"}, {1e14, 1, "1e15"}, {-1e14, 1, "-1e15"},
                                                          {9.9e14, 0, "990000000000000"}, {1e15, 0, "1e15"}};
    for (const auto& [x, decimals, text] : fixed) {
        CAPTURE(x, decimals);
        CHECK(fixed_number(x, decimals) == text);
    }
    const std::pair<double, const char*> tenths[] = {{0, "0"}, {2, "2"}, {2.04, "2"}, {2.06, "2.1"}, {-2.5, "-2.5"}, {10.96, "11"}, {100, "100"}};
    for (const auto& [x, text] : tenths) CHECK(svg_number(x) == text);
    const std::pair<double, const char*> brief[] = {{0, "0"}, {123.4, "123"}, {100, "100"}, {100.6, "101"}, {99.44, "99.4"}, {99.96, "100"}, {12.34, "12.3"}, {10.04, "10"}, {9.994, "9.99"}, {1.234, "1.23"}, {1, "1"},
                                                    {0.9994, "0.999"}, {0.1234, "0.123"}, {0.01234, "0.0123"}, {0.001234, "0.00123"}, {0.0001234, "0.000123"}, {0.00001234, "0.000012"}, {-1.5, "-1.5"}, {-12.34, "-12.3"}};
    for (const auto& [x, text] : brief) {
        CAPTURE(x);
        CHECK(short_number(x) == text);
    }
}

TEST_CASE("ticks go by 1, 2 or 5 of a power of ten, five or so to an axis", "[unit]") {
    // By hand: a fifth of the range, over its power of ten, is below 1.5, 3.5 or 7.5: steps of 1, 2 or 5, else of 10.
    const std::tuple<double, double, const char*> lines[] = {
        {0, 1, "0.0 0.2 0.4 0.6 0.8 1.0"}, {0, 10, "0 2 4 6 8 10"}, {0, 7.4, "0 1 2 3 4 5 6 7"}, {0, 7.6, "0 2 4 6"}, {0, 17.4, "0 2 4 6 8 10 12 14 16"}, {0, 17.6, "0 5 10 15"},
        {0, 37.4, "0 5 10 15 20 25 30 35"}, {0, 37.6, "0 10 20 30"}, {-3, 7, "-2 0 2 4 6"}, {0.8, 2.1, "0.8 1.0 1.2 1.4 1.6 1.8 2.0"}, {998, 1002, "998 999 1000 1001 1002"},
        {0, 0.0007, "0.0000 0.0001 0.0002 0.0003 0.0004 0.0005 0.0006 0.0007"}, {0, 0.00002, "0.000000 0.000005 0.000010 0.000015 0.000020"}, {0.15, 0.25, "0.16 0.18 0.20 0.22 0.24"}, {0, 25000, "0 5000 10000 15000 20000 25000"}, {0.05, 0.3, "0.05 0.10 0.15 0.20 0.25 0.30"}};
    for (const auto& [low, high, ticks] : lines) {
        CAPTURE(low, high);
        CHECK(told(linear(low, high)) == ticks);
    }
    for (const auto& tick : ticks_of(linear(0, 1e-6))) CHECK(tick.text.size() == std::string("0.000000").size()); // six decimals at most
    CHECK(told(decades(1, 1000)) == "1 2 5 10 20 50 100 200 500 1000");
    CHECK(told(decades(1, 1001)) == "1 10 100 1000");
    CHECK(told(decades(40, 130)) == "50 100");
    CHECK(told(decades(0.02, 0.2)) == "0.02 0.05 0.1 0.2");
    CHECK(told(decades(2, 9000)) == "10 100 1000");
    CHECK(told(shares(0.001, 0.999)) == "0.1 1 5 20 50 80 95 99 99.9");
    CHECK(told(shares(0.0011, 0.989)) == "1 5 20 50 80 95");
    CHECK(told(shares(0.05, 0.8)) == "5 20 50 80");
    auto asked = shares(0.05, 0.8);
    asked.ticks = {0.05, 0.123, 0.8, 0.04, 0.81};
    CHECK(told(asked) == "5 12.3 80");
    auto none_within = linear(0, 1);
    none_within.ticks = {-1, 2};
    CHECK(told(none_within) == "0.0 0.2 0.4 0.6 0.8 1.0");
    CHECK(told(Axis{}) == "0.0 0.2 0.4 0.6 0.8 1.0"); // where no range is given
    CHECK(along(Axis{}, Band{}.from) == Approx(0.0).margin(1e-12));
    CHECK(along(Axis{}, Band{}.to) == Approx(1.0));
    // A hair beyond an end is beyond it.
    CHECK(told(linear(0.2001, 1.2)) == "0.4 0.6 0.8 1.0 1.2");
    CHECK(told(linear(0.2, 1.1999)) == "0.2 0.4 0.6 0.8 1.0");
    CHECK(told(linear(0.6, 1.6)) == "0.6 0.8 1.0 1.2 1.4 1.6");
    CHECK(told(decades(10.005, 130)) == "20 50 100");
    CHECK(told(decades(3, 49.98)) == "5 10 20");
    CHECK(told(decades(5, 50)) == "5 10 20 50");
    // Where a value stands: the share of the way in its scale, beyond the ends too.
    CHECK(along(linear(2, 6), 3) == Approx(0.25));
    CHECK(along(linear(2, 6), 8) == Approx(1.5));
    CHECK(along(decades(1, 100), 10) == Approx(0.5));
    CHECK(along(decades(1, 100), 0.1) == Approx(-0.5));
    CHECK(along(shares(0.1, 0.9), 0.5) == Approx(0.5));
    // Nothing and all stand where 1e-9 of all does: 5.997807 standard deviations from the middle, a tenth 1.281552 (any table).
    CHECK(along(shares(0.1, 0.9), 0.0) == Approx((-5.997807 + 1.281552) / 2.563103).epsilon(1e-5));
    CHECK(along(shares(0.1, 0.9), 1.0) == Approx((5.997807 + 1.281552) / 2.563103).epsilon(1e-5));
    CHECK(along(shares(0.0227501319, 0.8413447461), 0.0227501319) == Approx(0.0).margin(1e-9)); // -2 and 1 standard deviations
    CHECK(along(shares(0.0227501319, 0.8413447461), 0.1586552539) == Approx(1.0 / 3.0).epsilon(1e-6)); // -1
}

TEST_CASE("a shape has three corners or more, a line two ends", "[unit]") {
    for (const auto fill : {Fill::solid, Fill::hatched}) {
        Svg svg(360, "p");
        svg.filled({{0, 0}, {10, 0}}, fill);
        CHECK(count(svg.finish(20, "t", "d"), "<path") == 0);
        svg.filled({{0, 0}, {10, 0}, {10, 10}}, fill);
        CHECK(count(svg.finish(20, "t", "d"), "M0 0L10 0L10 10z") == 1);
    }
    Svg svg(360, "p");
    svg.shape({{0, 0}, {10, 0}}, "tone");
    svg.curve({{0, 0}}, "line");
    CHECK(count(svg.finish(20, "t", "d"), "<path") == 0);
    svg.curve({{0, 0}, {10, 0}}, "line");
    CHECK(count(svg.finish(20, "t", "d"), "<path class=\"line\" d=\"M0 0L10 0\"/>") == 1);
}

TEST_CASE("a label that fits to the edge is set, and none beyond it", "[unit]") {
    // Ten letters of 13 by .62 are 80.6 wide; bold ones by .66 are 85.8; they reach 11 above their foot and 4 below it.
    const auto fits = [](double x, double y, Anchor anchor, const char* look, double bottom) { return Svg(200, "p").label({{x, y, anchor}}, "abcdefghij", look, bottom); };
    CHECK(fits(119.3, 50, Anchor::start, "", 100));
    CHECK_FALSE(fits(119.5, 50, Anchor::start, "", 100));
    CHECK(fits(114.1, 50, Anchor::start, "bold", 100));
    CHECK_FALSE(fits(114.3, 50, Anchor::start, "bold", 100));
    CHECK_FALSE(fits(114.3, 50, Anchor::start, "red", 100));
    CHECK(fits(80.7, 50, Anchor::end, "", 100));
    CHECK_FALSE(fits(80.5, 50, Anchor::end, "", 100));
    CHECK(fits(40.4, 50, Anchor::middle, "", 100));
    CHECK_FALSE(fits(40.2, 50, Anchor::middle, "", 100));
    CHECK(fits(159.6, 50, Anchor::middle, "", 100));
    CHECK_FALSE(fits(159.8, 50, Anchor::middle, "", 100));
    CHECK(fits(10, 11, Anchor::start, "", 100));
    CHECK_FALSE(fits(10, 10.9, Anchor::start, "", 100));
    CHECK(fits(10, 96, Anchor::start, "", 100));
    CHECK_FALSE(fits(10, 96.1, Anchor::start, "", 100));
    // Texts keep 15 from foot to foot, and do not meet side by side.
    for (const auto& [dx, dy, free] : {std::tuple{0.0, 15.0, true}, {0.0, 14.9, false}, {0.0, -15.0, true}, {0.0, -14.9, false}, {80.7, 0.0, true}, {80.5, 0.0, false}}) {
        Svg svg(400, "p");
        svg.text(100, 100, "abcdefghij");
        CAPTURE(dx, dy);
        CHECK(svg.label({{100 + dx, 100 + dy, Anchor::start}}, "klmnopqrst", "", 300) == free);
        CHECK(svg.label({}, "", "", 300)); // no words want no room
        CHECK_FALSE(svg.label({}, "words", "", 300));
    }
    // Of places that are free the one that meets the fewest lines, of two alike the first.
    Svg svg(400, "p");
    svg.obstacle({0, 90, 400, 95}), svg.obstacle({0, 190, 400, 195}), svg.obstacle({0, 196, 400, 197});
    CHECK(svg.label({{10, 100, Anchor::start}, {10, 200, Anchor::start}}, "first", "", 300));
    CHECK(svg.label({{100, 200, Anchor::start}, {100, 100, Anchor::start}}, "second", "", 300));
    CHECK(svg.label({{200, 200, Anchor::start}, {200, 250, Anchor::start}, {200, 150, Anchor::start}}, "third", "", 300));
    const auto drawn = svg.finish(300, "t", "d");
    CHECK(count(drawn, "x=\"10\" y=\"100\">first<") == 1);
    CHECK(count(drawn, "x=\"100\" y=\"100\">second<") == 1);
    CHECK(count(drawn, "x=\"200\" y=\"250\">third<") == 1);
    // A line counts by its ends and by each 6 of it between them: of 5 and 11 it is two, of 12.5 and 17 three, of 18.5 four.
    for (const auto& [length, weight] : {std::pair{5.0, 2}, {11.0, 2}, {12.5, 3}, {17.0, 3}, {18.5, 4}, {60.5, 11}})
        for (const int others : {weight - 1, weight}) {
            Svg crossed(400, "p");
            crossed.line(20, 97, 20 + length, 97, "thin"); // within the first place
            for (int i = 0; i < others; ++i) crossed.obstacle({20, 196, 30, 198}); // within the second
            CHECK(crossed.label({{10, 100, Anchor::start}, {10, 200, Anchor::start}}, "abcdefghijkl", "", 300));
            CAPTURE(length, others);
            CHECK(count(crossed.finish(300, "t", "d"), others < weight ? "y=\"200\"" : "y=\"100\"") == 1);
        }
}

TEST_CASE("pictures with nothing in them keep their height", "[unit]") {
    CHECK(html_of({DotPlot{.question = "Q", .axis = linear(2, 1), .window = {1, 2}}}).find("viewBox=\"0 0 360 20\"") != std::string::npos);
    CHECK(html_of({Chart{.question = "Q", .x = linear(1, 1), .y = linear(0, 1)}}).find("viewBox=\"0 0 360 20\"") != std::string::npos);
    // A line of time without words: its hours stand at 63, six more below them.
    const auto line = html_of({Clock{.question = "Q", .spans = {{0, 7200, Clock::Doing::busy, ""}}}});
    CHECK(line.find("viewBox=\"0 0 360 69\"") != std::string::npos);
    CHECK(line.find("<text class=\"bold end\" x=\"356\" y=\"63\">hours</text>") != std::string::npos);
    CHECK(html_of({Clock{.question = "Q", .spans = {{0, 600, Clock::Doing::busy, ""}}}}).find("viewBox=\"0 0 360 224\"") != std::string::npos);
    CHECK(html_of({Stains{.question = "Q"}}).find("viewBox=\"0 0 360 0\"") != std::string::npos);
    CHECK(html_of({Bars{.question = "Q"}}).find("viewBox=\"0 0 360 2\"") != std::string::npos);
    CHECK(html_of({StackedBar{.question = "Q"}}).find("viewBox=\"0 0 360 56\"") != std::string::npos);
}

TEST_CASE("a layer of no height is not drawn, one of the least is", "[unit]") {
    const auto pan = [](double wet, double dry) {
        const auto svg = html_of({Filling{.question = "Pan", .pours = {{"pour 1", "2.0 mL", wet, dry, "40 %"}}}});
        return std::pair{count(svg, "class=\"solid\""), count(svg, "fill=\"url(#p1h)\"")};
    };
    CHECK(pan(0.0, 0.0) == std::pair<std::size_t, std::size_t>{0, 0});
    CHECK(pan(0.5, 0.0) == std::pair<std::size_t, std::size_t>{0, 1});
    CHECK(pan(0.5, 0.5) == std::pair<std::size_t, std::size_t>{1, 0});
    CHECK(pan(0.5, 0.01) == std::pair<std::size_t, std::size_t>{1, 1});
    CHECK(pan(1.3, 1.2) == std::pair<std::size_t, std::size_t>{1, 0}); // beyond the brim both end at it
    CHECK(pan(0.3, -0.2) == std::pair<std::size_t, std::size_t>{0, 1});
    // By hand: 66 deep below 32, 50 wide at the brim and 40 at the floor, in the first of five places of 72.
    CHECK(html_of({Filling{.question = "Pan", .pours = {{"pour 1", "2.0 mL", 1.3, 1.2, "40 %"}}}}).find("M16 98L56 98L61 32L11 32z") != std::string::npos);
    CHECK(html_of({Filling{.question = "Pan", .pours = {{"pour 1", "2.0 mL", 0.5, 0.5, "40 %"}}}}).find("M16 98L56 98L58.5 65L13.5 65z") != std::string::npos);
}

TEST_CASE("a glass is poured off between its rim and its floor, a cloth covered between nothing and all", "[unit]") {
    const auto mark = [](double drawn) { // a line that runs 8 beyond the glass at its left and 14 at its right
        const auto svg = html_of({Glass{.question = "Glass", .drawn = drawn}});
        const auto at = svg.find("<path class=\"limit\" d=\"M16 ");
        return svg.substr(at + 27, svg.find('L', at) - at - 27);
    };
    CHECK(mark(-0.2) == "18");
    CHECK(mark(0.0) == "18");
    CHECK(mark(0.5) == "78");
    CHECK(mark(1.0) == "138");
    CHECK(mark(1.3) == "138");
    const auto grains = [](double colour) { return count(html_of({Stains{.question = "Cloth", .cloths = {{"1", "a breath", colour}}}}), "<circle"); };
    CHECK(grains(-0.2) == 0);
    CHECK(grains(0.0) == 0);
    CHECK(grains(0.25) == 70); // 140 by the root of what is covered
    CHECK(grains(1.0) == 140);
    CHECK(grains(1.3) == 140);
}

TEST_CASE("a plot in letters has its ends in its first and last row and column", "[unit]") {
    Chart chart{.question = "Q", .x = linear(0, 60), .y = linear(0, 12)};
    chart.in_text = true;
    const auto rows = [&] {
        std::vector<std::string> lines;
        const auto text = write_text(std::vector<Block>{Picture{chart}});
        for (std::size_t at = 0; at < text.size(); at = text.find('\n', at) + 1) lines.push_back(text.substr(at, text.find('\n', at) - at));
        return lines;
    };
    chart.marks = {{.at = {0, 0}}, {.at = {60, 12}, .symbol = Symbol::diamond}, {.at = {60, 0}}, {.at = {0, 12}}, {.at = {-0.1, 6}}, {.at = {60.1, 6}}, {.at = {30, -0.1}}, {.at = {30, 12.1}}, {.at = {31, 7}}};
    auto plot = rows();
    REQUIRE(plot.size() == 16);
    CHECK(plot[1] == "      12 |o" + std::string(59, ' ') + "X");
    CHECK(plot[6] == "         |" + std::string(31, ' ') + "o");
    CHECK(plot[7] == "         |");
    CHECK(plot[13] == "       0 |o" + std::string(59, ' ') + "o");
    CHECK(plot[14] == "          0" + std::string(58, ' ') + "60");
    chart.marks.clear();
    chart.limits = {{.at = 0}, {.at = 12}, {.at = 12.1}, {.at = -0.1}};
    plot = rows();
    CHECK(plot[1] == "      12 |" + std::string(61, '-'));
    CHECK(plot[13] == "       0 |" + std::string(61, '-'));
    CHECK(count(write_text(std::vector<Block>{Picture{chart}}), "-") == 122);
    chart.limits = {{.at = 0, .of_x = true}, {.at = 60, .of_x = true}, {.at = 61, .of_x = true}, {.at = -1, .of_x = true}};
    for (std::size_t r = 1; r <= 13; ++r) CHECK(rows()[r].substr(9) == "||" + std::string(59, ' ') + "|");
    // On a narrow page it takes all but twelve columns.
    chart.limits = {{.at = 12}};
    CHECK(count(write_text(std::vector<Block>{Picture{chart}}, {.width = 40}), "-") == 29);
    CHECK(count(write_text(std::vector<Block>{Picture{chart}}, {.width = 72}), "-") == 61);
    CHECK(count(write_text(std::vector<Block>{Picture{chart}}, {.width = 71}), "-") == 60);
}

TEST_CASE("what lies beyond an axis is drawn at its end, a grain of dye never smaller than can be seen", "[unit]") {
    const auto line = [](double to, double up) {
        Chart chart{.question = "Line"};
        chart.x = linear(0, 10), chart.y = linear(0, 1);
        chart.series = {{.points = {{0, 0}, {to, up}}}};
        const auto svg = html_of({chart});
        return svg.substr(svg.find("</desc>")); // all that is drawn
    };
    const auto corner = line(10, 1);
    CHECK(corner != line(9, 1));
    CHECK(corner != line(10, 0.9));
    CHECK(line(12, 1) == corner);
    CHECK(line(10, 1.2) == corner);
    CHECK(count(html_of({Stains{.question = "Cloth", .cloths = {{"1", "a breath", 5e-5}}}}), "r=\"0.4\"") == 1);
}
