// Where labels stand as what they name moves through a picture, a point of the drawing at a time. Each line of the text
// kept tells how often in a row a label stood at which of its places: "12xR 3xA" is twelve steps at the right and three
// above. It was read against the rules: the first place of those that are free, clear of the most lines; no place: "-".
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <functional>
#include <optional>
#include <regex>

#include "lakebound/page/html_writer.hpp"
#include "support/expected_text.hpp"

using namespace lakebound::page;
using namespace lakebound::testing;

namespace {

struct Label {
    double x, y;
    char anchor; ///< s, m or e
};
std::string svg_of(const Picture& picture) {
    const auto html = write_html(Page{.title = {.kind = "Picture"}, .sections = {{.blocks = {picture}}}});
    const auto from = html.find("<figure"), to = html.find("</figure>");
    return html.substr(from, to - from);
}
std::optional<Label> label_of(const std::string& svg, const std::string& words) {
    const auto end = svg.find(">" + words + "</text>");
    if (end == std::string::npos) return {};
    const auto from = svg.rfind("<text", end);
    const auto tag = svg.substr(from, end - from);
    const auto number = [&](const char* name) { return std::atof(tag.c_str() + tag.find(name) + std::string(name).size()); };
    const auto look = tag.find("class=\"") == std::string::npos ? std::string() : tag.substr(0, tag.find("\" x="));
    const char anchor = look.ends_with("mid") ? 'm' : look.ends_with("end") ? 'e' : 's';
    return Label{number(" x=\""), number(" y=\""), anchor};
}
/// "3xR 12xL": what comes in a row.
std::string in_a_row(const std::vector<std::string>& codes) {
    std::string text;
    for (std::size_t i = 0; i < codes.size();) {
        std::size_t n = i;
        while (n < codes.size() && codes[n] == codes[i]) ++n;
        text += (text.empty() ? "" : " ") + std::to_string(n - i) + "x" + codes[i];
        i = n;
    }
    return text;
}
std::string steps(int first, int last, const std::function<std::string(double)>& code) {
    std::vector<std::string> codes;
    for (int i = first; i <= last; ++i) codes.push_back(code(i));
    return in_a_row(codes) + "\n";
}

/// A plot of 314 by 190, where a point of the drawing is a unit of each axis: 0, 0 stands at 34, 216.
Chart plot() {
    return {.question = "Plot", .x = {.name = "x", .low = 0, .high = 314, .ticks = {0, 314}}, .y = {.name = "y", .low = 0, .high = 190, .ticks = {0, 190}}};
}
bool near(double a, double b) { return std::abs(a - b) < 0.11; }
double across(double x) { return 34.0 + x; }
double down(double y) { return 216.0 - y; }

/// R right, L left, A above, B below, then the corners: a above right, b above left, c below right, d below left.
std::string around(const std::optional<Label>& label, double x, double y) {
    if (!label) return "-";
    struct Place { double dx, dy; char anchor; const char* code; };
    for (const auto& p : {Place{11, 4, 's', "R"}, {-11, 4, 'e', "L"}, {0, -13, 'm', "A"}, {0, 24, 'm', "B"}, {9, -12, 's', "a"}, {-9, -12, 'e', "b"}, {9, 20, 's', "c"}, {-9, 20, 'e', "d"}})
        if (label->anchor == p.anchor && std::abs(label->x - x - p.dx) < 0.11 && std::abs(label->y - y - p.dy) < 0.11) return p.code;
    return "?";
}
std::string mark_code(const Chart& chart, const std::string& words, Point at) {
    return around(label_of(svg_of({chart}), words), across(at.x), down(at.y));
}

} // namespace

TEST_CASE("labels of marks move out of the way of edges, lines and each other", "[unit]") {
    std::string text;
    for (const char* words : {"k", "a mark that has a long label"}) {
        text += std::string(words) + ", along the floor, the top, the left and the right edge\n";
        const auto alone = [&](double x, double y) {
            Chart chart = plot();
            chart.marks = {{.at = {x, y}, .label = words}};
            return mark_code(chart, words, {x, y});
        };
        text += steps(0, 314, [&](double i) { return alone(i, 0); }) + steps(0, 314, [&](double i) { return alone(i, 190); });
        text += steps(0, 190, [&](double i) { return alone(0, i); }) + steps(0, 190, [&](double i) { return alone(314, i); });
    }
    for (const double apart : {0.0, 15.0, 16.0}) {
        text += "past a mark, " + std::to_string(int(apart)) + " above it\n";
        text += steps(90, 230, [&](double i) {
            Chart chart = plot();
            chart.marks = {{.at = {157, 95}, .label = "stays"}, {.at = {i, 95 + apart}, .symbol = Symbol::diamond, .label = "moves"}};
            return mark_code(chart, "moves", {i, 95 + apart});
        });
    }
    text += "up past a line that lies level, one that rises, a limit, a dropped mark with its bars\n";
    const std::pair<const char*, std::function<void(Chart&)>> obstacles[] = {
        {"level", [](Chart& c) { c.series = {{.points = {{0, 95}, {314, 95}}}}; }},
        {"rising", [](Chart& c) { c.series = {{.points = {{0, 0}, {314, 190}}}}; }},
        {"limit", [](Chart& c) { c.limits = {{.at = 95}}; }},
        {"upright", [](Chart& c) { c.limits = {{.at = 165, .of_x = true}}; }},
        {"bars", [](Chart& c) { c.marks.push_back({.at = {170, 95}, .likely = Interval{60, 130}, .nearly_sure = Interval{20, 170}, .along = Interval{120, 240}, .dropped = true}); }},
        {"band", [](Chart& c) { c.bands = {{.from = 70, .to = 120}}; }}};
    for (const auto& obstacle : obstacles)
        text += std::string(obstacle.first) + ": " + steps(60, 130, [&](double i) {
            Chart chart = plot();
            obstacle.second(chart);
            chart.marks.push_back({.at = {150, i}, .label = "moves"});
            return mark_code(chart, "moves", {150, i});
        });
    check_expected("page", "label-places-of-marks", text);
}

TEST_CASE("labels of limits, bands, lines and regions find the first place that is free", "[unit]") {
    std::string text;
    const auto of_y = [](const Chart& chart, const char* words, double at) -> std::string {
        const auto label = label_of(svg_of({chart}), words);
        if (!label) return "-";
        const bool right = label->anchor == 'e', below = label->y > down(at);
        if (!near(label->x, right ? 346 : 38) || !near(label->y, down(at) + (below ? 15 : -6))) return "?";
        return std::string(right ? "right" : "left") + (below ? " below" : " above");
    };
    const auto of_x = [](const Chart& chart, const char* words, double at) -> std::string {
        const auto label = label_of(svg_of({chart}), words);
        if (!label) return "-";
        if (!near(label->x, across(at) + (label->anchor == 'e' ? -5 : 5))) return "?";
        return std::string(label->anchor == 'e' ? "left" : "right") + (near(label->y, 38) ? " top" : near(label->y, 55) ? " second" : near(label->y, 208) ? " foot" : " ?");
    };
    text += "a limit of y from the floor to the top; beside a line that rises; beside a mark with a label\n";
    for (int kind = 0; kind < 3; ++kind)
        text += steps(0, 190, [&](double i) {
            Chart chart = plot();
            chart.limits = {{.at = i, .label = "at most"}};
            if (kind == 1) chart.series = {{.points = {{200, 0}, {314, 190}}}};
            if (kind == 2) chart.marks = {{.at = {290, 95}, .label = "a mark"}};
            return of_y(chart, "at most", i);
        });
    text += "a limit of x from end to end; beside another; beside a mark at the top; beside a line\n";
    for (int kind = 0; kind < 4; ++kind)
        text += steps(0, 314, [&](double i) {
            Chart chart = plot();
            if (kind == 1) chart.limits = {{.at = 157, .label = "stays", .of_x = true}};
            chart.limits.push_back({.at = i, .label = "noon", .of_x = true});
            if (kind == 2) chart.marks = {{.at = {150, 180}, .label = "a mark"}};
            if (kind == 3) chart.series = {{.points = {{0, 190}, {314, 150}}}};
            return of_x(chart, "noon", i);
        });
    text += "a band of y, 40 high, going up; of 14; a band of x, 60 wide, going right\n";
    for (const double high : {40.0, 14.0})
        text += steps(0, 150, [&](double i) {
            Chart chart = plot();
            chart.bands = {{.from = i, .to = i + high, .label = "holds"}};
            chart.limits = {{.at = 100, .label = "at 100"}};
            chart.marks = {{.at = {40, 60}, .label = "a mark of some length"}};
            const auto label = label_of(svg_of({chart}), "holds");
            if (!label) return std::string("-");
            if (!near(label->x, label->anchor == 's' ? 39 : 345)) return std::string("?");
            return std::string(label->anchor == 's' ? "left" : "right") + (near(label->y, down(i + high) + 15) ? " top" : near(label->y, down(i) - 6) ? " foot" : " ?");
        });
    text += steps(0, 254, [&](double i) {
        Chart chart = plot();
        chart.bands = {{.from = i, .to = i + 60, .label = "holds", .of_x = true}};
        chart.limits = {{.at = 157, .label = "limit", .of_x = true}};
        chart.marks = {{.at = {80, 12}, .label = "mark"}};
        const auto label = label_of(svg_of({chart}), "holds");
        if (!label) return std::string("-");
        return std::string(!near(label->x, across(i + 30)) ? "?" : near(label->y, 40) ? "top" : near(label->y, 208) ? "foot" : "?");
    });
    text += "a line of nine points, from level to steep; a region's label past a mark\n";
    text += steps(0, 180, [&](double i) {
        Chart chart = plot();
        for (int k = 0; k <= 8; ++k) chart.series.resize(1), chart.series[0].points.push_back({k * 314.0 / 8, 5 + k * i / 8});
        chart.series[0].label = "a line";
        chart.limits = {{.at = 90, .label = "limit"}};
        const auto label = label_of(svg_of({chart}), "a line");
        for (int k = 7; k >= 1; --k)
            if (const auto code = around(label, across(k * 314.0 / 8), down(5 + k * i / 8)); code != "?") return label ? std::to_string(k) + code : code;
        return std::string("?");
    });
    text += steps(0, 180, [&](double i) {
        Chart chart = plot();
        chart.regions = {{.low = {{0, 60}, {157, 70}, {314, 60}}, .high = {{0, 120}, {157, 140}, {314, 120}}, .label = "doubt"}};
        chart.marks = {{.at = {170, i}, .label = "a mark"}};
        return around(label_of(svg_of({chart}), "doubt"), across(157), down(70));
    });
    check_expected("page", "label-places-of-lines", text);
}

TEST_CASE("labels of dots, bars, glasses and pours find the first place that is free", "[unit]") {
    std::string text = "a limit past columns of dots, by how wide the window is\n";
    for (const double wide : {8.0, 9.5, 10.5, 14.0, 30.0, 90.0})
        text += steps(40, 115, [&](double i) {
            DotPlot dots{.question = "Dots", .axis = {.name = "k", .low = 0, .high = 340, .ticks = {0, 340}}, .window = {150, 150 + wide, "holds"}, .limits = {{2 * i, "limit"}}};
            for (int k = 0; k < 4; ++k) { // four in the window, three left of it, two right of it
                dots.values.push_back(150 + 0.5 * wide);
                if (k < 3) dots.values.push_back(150 - 1.5 * wide);
                if (k < 2) dots.values.push_back(150 + 2.5 * wide);
            }
            const auto label = label_of(svg_of({dots}), "limit");
            return !label ? std::string("-") : label->anchor == 'e' ? "left" : label->anchor == 's' ? "right" : "over";
        });
    text += "the label of a bar, letter by letter, beside a short and a long value; of a chosen bar\n";
    for (const auto& [value, chosen] : {std::pair{"5 %", false}, {"a long value", false}, {"5 %", true}})
        text += steps(1, 50, [&, value = value, chosen = chosen](double i) {
            const std::string words(std::size_t(i), 'w');
            const auto label = label_of(svg_of({Bars{.question = "Bars", .bars = {{words, {{1}}, value, "", chosen}}}}), words);
            return !label ? std::string("-") : label->y < 20 ? "beside" : "below";
        });
    text += "heads and leads of a stacked bar as one group grows from nothing to all\n";
    for (const char* words : {"head", "lead", "second", "third"})
        text += std::string(words) + ": " + steps(0, 100, [&](double i) {
            StackedBar bar{.question = "Where", .groups = {{"a head", "", {{"", "a lead", i}, {"", "", 1}}}, {"second head", "", {{"second", "", 50}, {"third lead", "", 100 - i}}}}};
            bar.groups[0].parts[0].name = "lead", bar.groups[0].parts[0].amount = "1 g";
            const auto svg = svg_of({bar});
            const std::string full = words == std::string("head") ? "a head" : words == std::string("lead") ? "1 g lead" : words == std::string("second") ? "second head" : "third lead";
            const auto label = label_of(svg, full);
            return !label ? std::string("-") : std::string(1, label->anchor);
        });
    text += "the head of a last group as it shrinks, and of a first\n";
    for (const bool last : {true, false})
        text += steps(0, 100, [&](double i) {
            StackedBar::Group shrinks{"a group with a long head", "", {{"", "", 100 - i}}}, grows{"", "", {{"", "", i}}};
            const auto label = label_of(svg_of({StackedBar{.question = "Where", .groups = last ? std::vector{grows, shrinks} : std::vector{shrinks, grows}}}), "a group with a long head");
            return !label ? std::string("-") : std::string(1, label->anchor) + std::to_string(int(std::lround(label->y)));
        });
    text += "words beside a glass as more is poured off\n";
    for (const char* words : {"pour off", "mark", "leave"})
        text += std::string(words) + ": " + steps(0, 120, [&](double i) {
            const double mark = 18 + i;
            const auto label = label_of(svg_of({Glass{.question = "Glass", .drawn = i / 120, .pour_off = "pour off", .mark = "mark", .stays = "leave"}}), words);
            if (!label) return std::string("-");
            if (std::abs(label->y - 14) < 0.11) return std::string("top");
            return std::abs(label->y - 154) < 0.11 ? std::string("foot") : words == std::string("pour off") ? (std::abs(label->y - (mark - 22)) < 0.11 ? "over the mark" : "half way")
                   : std::abs(label->y - mark - 14) < 0.11 ? "lower" : "at the mark";
        });
    text += "the amount of a pour, letter by letter, of one, six and seven pours\n";
    for (const int pours : {1, 6, 7})
        text += steps(1, 20, [&](double i) {
            Filling pan{.question = "Pan"};
            for (int k = 0; k < pours; ++k) pan.pours.push_back({std::string(std::size_t(k + 1), 'n'), std::string(std::size_t(i), char('a' + k)), 0.9, 0.1 * k, "40 %"});
            std::string found;
            const auto svg = svg_of({pan});
            for (int k = 0; k < pours; ++k) found += label_of(svg, std::string(std::size_t(i), char('a' + k))) ? 'y' : 'n';
            return found;
        });
    text += "the words below a cloth, letter by letter, of one, two and six cloths\n";
    for (const int cloths : {1, 2, 6})
        text += steps(1, 45, [&](double i) {
            Stains stains{.question = "Cloths"};
            for (int k = 0; k < cloths; ++k) stains.cloths.push_back({std::to_string(k), std::string(std::size_t(i), char('a' + k)), 0.2});
            std::string found;
            const auto svg = svg_of({stains});
            for (int k = 0; k < cloths; ++k) found += label_of(svg, std::string(std::size_t(i), char('a' + k))) ? 'y' : 'n';
            return found;
        });
    check_expected("page", "label-places-of-dots", text);
}

TEST_CASE("the amount of every pour stands above it, as long as it has the room", "[unit]") {
    for (const std::size_t pours : {1u, 5u, 6u, 7u}) {
        Filling pan{.question = "Pan"};
        for (std::size_t k = 0; k < pours; ++k) pan.pours.push_back({"pour " + std::to_string(k + 1), std::to_string(k + 1) + ".5 mL", 0.9, 0.1 * double(k), "40 %"});
        const auto svg = svg_of({pan});
        for (const auto& pour : pan.pours) {
            const auto name = label_of(svg, pour.name), amount = label_of(svg, pour.amount), after = label_of(svg, "40 %");
            REQUIRE(name);
            REQUIRE(amount);
            REQUIRE(after);
            CHECK(name->y == Approx(11));
            CHECK(amount->y == Approx(26));
            CHECK(amount->x == Approx(name->x));
        }
        CHECK(svg.find("figcaption") == std::string::npos);
    }
}

TEST_CASE("labels of the clock stand beside their spans, round and in a line", "[unit]") {
    using Doing = Clock::Doing;
    std::string text = "one span of 20 s round the dial, by a minute: alone; then past others that stay, at 1500, 900 and 2700 s, crowds below, right and left, one just right and one just left of the foot\n";
    const auto dial = [](const Clock& clock, double middle, double cx, const std::string& words) {
        const auto label = label_of(svg_of({clock}), words);
        if (!label) return std::string("-");
        const double angle = middle / 3600.0 * 2.0 * std::acos(-1.0), y = 112.0 - 105.0 * std::cos(angle), x = cx + 105.0 * std::sin(angle);
        const int by = int(std::lround(label->y - y));
        const bool right = middle <= 1800, beside = near(label->x, right ? x + 3 : x - 3), edge = near(label->x, right ? 359 : 1);
        return std::string(1, label->anchor) + std::to_string(by) + (beside ? "" : edge ? "e" : "?");
    };
    const auto dial_past = [&](const std::vector<double>& staying, const std::string& words = "moves") {
        text += steps(0, 54, [&](double i) {
            const double from = 60.0 * i;
            Clock clock{.question = "Clock"};
            bool right = from + 10 <= 1800, left = !right;
            for (const double at : staying) {
                clock.spans.push_back({at, at + 20, Doing::acting, "stays " + std::to_string(int(at))});
                (at + 10 <= 1800 ? right : left) = true;
            }
            clock.spans.push_back({from, from + 20, Doing::busy, words});
            return dial(clock, from + 10, !left ? 110.0 : right ? 180.0 : 250.0, words);
        });
    };
    dial_past({}), dial_past({1500}), dial_past({900}), dial_past({2700}), dial_past({1500, 1560, 1620, 1680, 1740}), dial_past({780, 840, 900, 960, 1020}), dial_past({2580, 2640, 2700, 2760, 2820}),
        dial_past({600, 750, 900, 1050, 1200, 1350}), dial_past({1790}), dial_past({1800});
    text += "the same with longer words, past those that stay at 900, at 2700 and on both sides\n";
    for (const char* words : {"moves a long way", "moves a very long way about"}) dial_past({900}, words), dial_past({2700}, words), dial_past({800, 1000, 2600, 2800}, words);
    text += "a span in two hours of time, by a minute, beside others of an hour; alone\n";
    for (const bool crowded : {true, false})
        text += steps(0, 110, [&](double i) {
            Clock clock{.question = "Clock", .spans = {{0, 7200, Doing::waiting, ""}}};
            if (crowded)
                for (int k = 0; k < 6; ++k) clock.spans.push_back({3000.0 + 100 * k, 3060.0 + 100 * k, Doing::acting, "hold " + std::to_string(k)});
            clock.spans.push_back({60 * i, 60 * i + 300, Doing::busy, "moves here"});
            const auto label = label_of(svg_of({clock}), "moves here");
            return !label ? std::string("-") : std::to_string(int(std::lround((label->y - 63) / 17))) + label->anchor;
        });
    check_expected("page", "label-places-of-clocks", text);
}
