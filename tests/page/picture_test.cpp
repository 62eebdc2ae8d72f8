#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <regex>

#include "lakebound/page/html_writer.hpp"
#include "lakebound/page/line_fill.hpp"
#include "lakebound/page/text_writer.hpp"
#include "page/sample_pictures.hpp"

using namespace lakebound::page;

namespace {

struct Text {
    double left, top, right, bottom;
    std::string words;
};

std::string svg_of(const Picture& picture) {
    const auto html = write_html(Page{.title = {.kind = "Picture"}, .sections = {{.blocks = {picture}}}});
    const auto from = html.find("<figure"), to = html.find("</figure>");
    return html.substr(from, to - from);
}

/// The rooms of all texts, reckoned anew from the SVG at the widths of the widest common face.
std::vector<Text> texts_of(const std::string& svg) {
    static const std::regex text(R"re(<text(?: class="([^"]*)")? x="([-0-9.]+)" y="([-0-9.]+)">([^<]*)</text>)re");
    std::vector<Text> found;
    for (std::sregex_iterator it(svg.begin(), svg.end(), text), end; it != end; ++it) {
        const std::string look = (*it)[1], words = (*it)[4];
        const bool bold = look.find("bold") != std::string::npos || look.find("red") != std::string::npos;
        const double x = std::stod((*it)[2]), y = std::stod((*it)[3]);
        const double wide = 13.0 * (bold ? 0.66 : 0.62) * static_cast<double>(columns(words));
        const double left = look.find("end") != std::string::npos   ? x - wide
                            : look.find("mid") != std::string::npos ? x - wide / 2.0
                                                                    : x;
        found.push_back({left, y - 11.0, left + wide, y + 4.0, words});
    }
    return found;
}

void check_rooms(const Picture& picture) {
    const auto svg = svg_of(picture);
    std::smatch view;
    REQUIRE(std::regex_search(svg, view, std::regex(R"re(viewBox="0 0 ([0-9.]+) ([0-9.]+)")re")));
    const double width = std::stod(view[1]), height = std::stod(view[2]);
    const auto texts = texts_of(svg);
    constexpr double rounding = 0.11;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const auto& a = texts[i];
        INFO(a.words << "\n" << svg);
        CHECK(a.left > -rounding);
        CHECK(a.right < width + rounding);
        CHECK(a.top > -rounding);
        CHECK(a.bottom < height + 4.0);
        for (std::size_t k = 0; k < i; ++k) {
            const auto& b = texts[k];
            INFO(b.words);
            const bool meet = a.left + rounding < b.right && b.left + rounding < a.right && a.top + rounding < b.bottom &&
                              b.top + rounding < a.bottom;
            CHECK_FALSE(meet);
        }
    }
}

Chart random_chart(std::mt19937& random) {
    std::uniform_real_distribution<double> share(0.0, 1.0);
    Chart chart{.question = "A random chart"};
    chart.x = {.name = "size", .unit = "um", .low = 1.0 + share(random), .high = 5.0 + 500.0 * share(random),
               .scale = random() % 2 == 0 ? Scale::linear : Scale::logarithmic};
    chart.y = random() % 2 == 0 ? Axis{.name = "passing", .low = 0.001, .high = 0.999, .scale = Scale::probability}
                                : Axis{.name = "k", .low = 0.0, .high = std::pow(10.0, 6.0 * share(random) - 3.0)};
    const auto x = [&] { return chart.x.low + share(random) * (chart.x.high - chart.x.low); };
    const auto y = [&] { return chart.y.low + share(random) * (chart.y.high - chart.y.low); };
    const std::string words = "words that name a thing and more";
    const auto some = [&] { return words.substr(0, 3 + random() % 28); };
    for (std::size_t i = random() % 3; i-- > 0;)
        chart.bands.push_back({y(), chart.y.high, some()});
    for (std::size_t i = random() % 4; i-- > 0;)
        chart.limits.push_back(random() % 2 == 0 ? Limit{x(), some(), true} : Limit{y(), some()});
    for (std::size_t i = random() % 8; i-- > 0;)
        chart.marks.push_back({.at = {x(), y()}, .label = some(), .dropped = true});
    for (std::size_t i = random() % 4; i-- > 0;)
        chart.series.push_back({some(), {{x(), y()}, {x(), y()}, {x(), y()}}});
    return chart;
}

} // namespace

TEST_CASE("no two labels of a chart meet, and none leaves the picture", "[identity]") {
    std::mt19937 random(7);
    for (int i = 0; i < 200; ++i)
        check_rooms({random_chart(random)});
}

TEST_CASE("labels of every kind of picture keep apart", "[identity]") {
    for (auto picture : lakebound::testing::sample_pictures()) {
        check_rooms(picture);
        picture.narrow = true;
        check_rooms(picture);
    }
}

TEST_CASE("every picture has a title and says what an eye sees", "[unit]") {
    for (const auto& picture : lakebound::testing::sample_pictures()) {
        const auto svg = svg_of(picture);
        INFO(svg);
        CHECK(svg.find("role=\"img\" aria-labelledby=\"p1t\" aria-describedby=\"p1d\"><title id=\"p1t\">") !=
              std::string::npos);
        CHECK(svg.find("<desc id=\"p1d\"></desc>") == std::string::npos);
        CHECK(svg.find("nan") == std::string::npos);
        CHECK(svg.find("inf") == std::string::npos);
    }
}

TEST_CASE("a chart stands where its numbers say", "[unit]") {
    Chart chart{.question = "A line", .x = {.name = "x", .low = 0, .high = 10}, .y = {.name = "y", .low = 0, .high = 1}};
    chart.marks = {{.at = {5.0, 0.5}}};
    // The plot is 34 to 348 across and 26 to 216 down: its middle is 191, 121.
    CHECK(svg_of({chart}).find("M187 117L195 117L195 125L187 125z") != std::string::npos);
    chart.x = {.name = "x", .low = 1, .high = 100, .scale = Scale::logarithmic};
    chart.marks[0].at = {10.0, 0.5}; // the middle of two decades
    CHECK(svg_of({chart}).find("M187 117L195 117L195 125L187 125z") != std::string::npos);
    chart.y = {.name = "y", .low = 0.0227501319, .high = 0.8413447461, .scale = Scale::probability};
    chart.marks[0].at.y = 0.3085375387; // -2, 1 and -0.5 standard deviations, by any table of the normal distribution
    CHECK(svg_of({chart}).find("L195 125") != std::string::npos);
}

TEST_CASE("a range that cannot be drawn is said, not drawn", "[unit]") {
    Chart chart{.question = "Nothing", .x = {.name = "x", .low = 0, .high = 10, .scale = Scale::logarithmic}, .y = {.name = "y"}};
    CHECK(svg_of({chart}).find(" x=\"0\" y=\"14\">no range to draw</text>") != std::string::npos);
}

TEST_CASE("a label that finds no room is said below the picture", "[unit]") {
    Chart chart{.question = "Crowded", .x = {.name = "x", .low = 0, .high = 10}, .y = {.name = "y", .low = 0, .high = 1}};
    for (int i = 0; i < 30; ++i)
        chart.marks.push_back({.at = {5.0, 0.5}, .label = "mark number " + std::to_string(i)});
    const auto svg = svg_of({chart});
    for (int i = 0; i < 30; ++i)
        CHECK(svg.find("mark number " + std::to_string(i)) != std::string::npos);
    CHECK(svg.find("<figcaption>") != std::string::npos);
}

TEST_CASE("text draws the pictures that ask for it", "[unit]") {
    Bars bars{.question = "Doubt", .bars = {{"oil absorption", {{58.0}}, "58 %"}, {"moisture", {{29.0}}, "29 %"}}};
    CHECK(write_text(std::vector<Block>{Picture{bars}}).empty());
    bars.in_text = true;
    CHECK(write_text(std::vector<Block>{Picture{bars}}) ==
          "  oil absorption  58 %  ████████████████████\n  moisture        29 %  ██████████\n");
}

TEST_CASE("text plots points, lines and limits where they stand", "[unit]") {
    Chart chart{.question = "A line", .x = {.name = "screen", .unit = "um", .low = 0, .high = 10},
                .y = {.name = "passing", .low = 0, .high = 1}};
    chart.series = {{.points = {{0, 0}, {20, 1}}}};
    chart.limits = {{.at = 0.5}, {.at = 10, .of_x = true}, {.at = 7}};
    chart.marks = {{.at = {5, 0.5}}, {.at = {0, 1}, .symbol = Symbol::diamond}};
    CHECK(write_text(std::vector<Block>{Picture{chart}}).empty());
    chart.in_text = true;
    // 61 columns to a plot, 13 rows: by hand.
    const std::string blank(60, ' '), row = "         |" + blank + "|\n";
    CHECK(write_text(std::vector<Block>{Picture{chart}}) ==
          "  passing\n       1 |X" + std::string(59, ' ') + "|\n" + row + row + row + row + row + "         |" + std::string(30, '-') +
              "o" + std::string(29, '-') + "|\n" + row + row + row + row + row + "       0 |." + std::string(59, ' ') + "|\n" +
              "          0" + std::string(58, ' ') + "10\n          screen, um\n");
    chart.y = {.name = "passing", .low = 0.01, .high = 0.99, .scale = Scale::probability};
    chart.x.unit.clear();
    const auto percent = write_text(std::vector<Block>{Picture{chart}});
    CHECK(percent.find("      99 |") != std::string::npos);
    CHECK(percent.find("       1 |") != std::string::npos);
    CHECK(percent.find("screen\n") != std::string::npos);
}

TEST_CASE("a chart has its regions, bands of x, numbered lines and marks along", "[unit]") {
    Chart chart{.question = "All", .x = {.name = "x", .unit = "degC", .low = 0, .high = 10, .ticks = {0, 2.5, 11}},
                .y = {.name = "y", .low = 0, .high = 1}};
    const auto plain = svg_of({chart});
    CHECK(plain.find("x, \u00b0C") != std::string::npos);
    CHECK(plain.find(">2.5<") != std::string::npos);
    CHECK(plain.find(">11<") == std::string::npos); // beyond the axis
    chart.regions = {{.low = {{1, 0.2}, {9, 0.3}}, .high = {{1, 0.6}, {9, 0.7}}, .label = "doubt"}, {.high = {{1, 0.9}}}};
    chart.bands = {{.from = 2, .to = 4, .label = "window", .of_x = true}, {.from = 0.1, .to = 0.2}};
    chart.series = {{.label = "first", .points = {{1, 0.5}, {2, 0.5}, {3, 0.5}, {NAN, 0.5}, {4, INFINITY}, {9, 0.5}}, .number = 3},
                    {.points = {{1, 0.1}, {9, 0.1}}, .stroke = Stroke::thin}, {.points = {{1, 0.2}, {9, 0.2}}, .stroke = Stroke::thin_dashed},
                    {.points = {{1, 0.3}, {9, 0.3}}, .stroke = Stroke::dotted}, {.points = {{1, 0.4}, {9, 0.4}}, .stroke = Stroke::dashed}, {}};
    chart.limits = {{.at = 0.8}};
    chart.marks = {{.at = {5, 0.5}, .along = Interval{4, 6}}};
    const auto svg = svg_of({chart});
    for (const char* part : {"doubt", "window", "class=\"thin\"", "class=\"thin dash\"", "class=\"thin dots\"", "class=\"line dash\"",
                             "r=\"9\"", ">3<"}) {
        INFO(part);
        CHECK(svg.find(part) != std::string::npos);
    }
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf") == std::string::npos);
    // Said too: the band from end to end, a limit without a name, lines but the dotted one.
    const auto begin = svg.find("<desc"), end = svg.find("</desc>");
    const auto said = svg.substr(begin, end - begin);
    CHECK(said.find("Band from 2") != std::string::npos);
    CHECK(said.find("to 4") != std::string::npos);
    CHECK(said.find(": window.") != std::string::npos);
    CHECK(said.find("first from") != std::string::npos);
    CHECK(said.find("A line from") != std::string::npos);
    chart.description = "said otherwise";
    CHECK(svg_of({chart}).find("said otherwise</desc>") != std::string::npos);
}

TEST_CASE("an axis that is no range, or of impossible shares, is not drawn", "[unit]") {
    const Axis good{.name = "x", .low = 0, .high = 1};
    const auto refused = [](Axis x, Axis y) {
        return svg_of({Chart{.question = "Q", .x = std::move(x), .y = std::move(y)}}).find("no range to draw") != std::string::npos;
    };
    CHECK_FALSE(refused(good, good));
    CHECK(refused({.name = "x", .low = 1, .high = 1}, good));
    CHECK(refused({.name = "x", .low = NAN, .high = 1}, good));
    CHECK(refused({.name = "x", .low = 0, .high = INFINITY}, good));
    CHECK(refused(good, {.name = "y", .low = 2, .high = 1}));
    CHECK(refused(good, {.name = "y", .low = 0, .high = 0.5, .scale = Scale::probability}));
    CHECK(refused(good, {.name = "y", .low = 0.5, .high = 1, .scale = Scale::probability}));
    CHECK_FALSE(refused(good, {.name = "y", .low = 0.5, .high = 0.99, .scale = Scale::probability}));
    CHECK(refused({.name = "x", .low = -1, .high = 1, .scale = Scale::logarithmic}, good));
    CHECK_FALSE(refused({.name = "x", .low = 0.1, .high = 1000, .scale = Scale::logarithmic}, good));
    const auto wide = svg_of({Chart{.question = "Q", .x = {.name = "x", .low = 1, .high = 1e5, .scale = Scale::logarithmic}, .y = good}});
    CHECK(wide.find(">1000<") != std::string::npos);
    CHECK(wide.find(">2<") == std::string::npos); // more than three decades: no room for 2 and 5
    DotPlot dots{.question = "Dots", .axis = {.name = "k", .low = 2, .high = 1}, .window = {.from = 1, .to = 2}};
    CHECK(svg_of({dots}).find("no range to draw") != std::string::npos);
    dots.axis = {.name = "k", .low = 0, .high = 3};
    dots.window = {.from = 2, .to = 2};
    CHECK(svg_of({dots}).find("no range to draw") != std::string::npos);
    // Figures beyond all drawing stay numbers.
    const auto huge = svg_of({Chart{.question = "Q", .x = good, .y = good, .marks = {{.at = {-1e30, 1e30}}}}});
    CHECK(huge.find("1e15") != std::string::npos);
    CHECK(huge.find("nan") == std::string::npos);
    CHECK(svg_of({Stains{.question = "None"}}).find("<svg") != std::string::npos);
    CHECK(svg_of({Bars{.question = "None"}}).find("<svg") != std::string::npos);
    CHECK(svg_of({StackedBar{.question = "None", .groups = {{.name = "only a name"}, {.amount = "3 g"}}}}).find("only a name") !=
          std::string::npos);
    CHECK(svg_of({Clock{.question = "None"}}).find("Work over 0 minutes.") != std::string::npos);
}

TEST_CASE("up to seven pours are all drawn", "[unit]") {
    for (const int n : {1, 6, 7, 8}) {
        Filling filling{.question = "Pours"};
        for (int i = 1; i <= n; ++i)
            filling.pours.push_back({.name = "pour " + std::to_string(i), .amount = "2.0 mL", .wet_level = 0.9, .dry_level = 0.1 * i});
        const auto svg = svg_of({filling});
        const auto drawn = svg.substr(svg.find("</desc>"));
        int found = 0;
        for (int i = 1; i <= n; ++i)
            found += drawn.find("pour " + std::to_string(i) + "<") != std::string::npos ? 1 : 0;
        CHECK(found == (n <= 7 ? n : 6));
    }
}

TEST_CASE("a long axis of decades has their ends alone, a short one twos and fives too", "[unit]") {
    Chart chart{.question = "Decades", .x = {.name = "x", .low = 1, .high = 900, .scale = Scale::logarithmic}, .y = {.name = "y", .low = 0, .high = 1}};
    CHECK(svg_of({chart}).find(">20<") != std::string::npos);
    CHECK(svg_of({chart}).find(">100<") != std::string::npos);
    chart.x.high = 2000; // three decades and a third
    CHECK(svg_of({chart}).find(">20<") == std::string::npos);
    CHECK(svg_of({chart}).find(">100<") != std::string::npos);
}

TEST_CASE("bars show shares: a millionth of all amounts is the same picture", "[identity]") {
    const auto bars = [](double times) {
        Bars b{.question = "Doubt", .bars = {{"oil absorption", {{58.0 * times}, {3.0 * times}}, "58 %"}, {"moisture", {{29.0 * times}}, "29 %"}, {"none", {{0.0}}, "0 %"}}};
        b.in_text = true;
        return Picture{b};
    };
    CHECK(svg_of(bars(1e-6)) == svg_of(bars(1)));
    CHECK(write_text(std::vector<Block>{bars(1e-6)}) == write_text(std::vector<Block>{bars(1)}));
    const auto stacked = [](double times) {
        StackedBar b{.question = "What it is made of"};
        b.groups = {{"this batch", "6 g", {{"pigment", "4 g", 4.0 * times, Fill::solid}, {"nothing", "0 g", 0.0, Fill::open}, {"gum", "2 g", 2.0 * times, Fill::hatched}}}};
        return Picture{b};
    };
    CHECK(svg_of(stacked(1e-6)) == svg_of(stacked(1)));
}

TEST_CASE("of many pours the first and the last three are drawn", "[unit]") {
    Filling filling{.question = "Pours"};
    for (int i = 1; i <= 9; ++i)
        filling.pours.push_back({.name = "pour " + std::to_string(i), .amount = "2.0 mL", .wet_level = 0.9, .dry_level = 0.1 * i});
    const auto svg = svg_of({filling});
    const auto drawn = svg.substr(svg.find("</desc>"));
    for (const int i : {1, 2, 3, 7, 8, 9})
        CHECK(drawn.find("pour " + std::to_string(i) + "<") != std::string::npos);
    for (const int i : {4, 5, 6})
        CHECK(drawn.find("pour " + std::to_string(i) + "<") == std::string::npos);
}
