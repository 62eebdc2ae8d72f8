#include <catch2/catch.hpp>

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
    CHECK(svg_of({chart}).find("no range to draw") != std::string::npos);
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
