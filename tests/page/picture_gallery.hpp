#pragma once
// Pictures where drawing is hard: labels at every edge, ranges from a hair to seven decades, nothing and too much of
// everything. The whole of what is written of them is kept (whole_page_test.cpp), and was looked at.

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/page/picture.hpp"

namespace lakebound::testing {

/// Marks at the corners, the edges and the middle, labels short and long, a label at the line and a number on it.
inline page::Chart crowded_chart(page::Axis x, page::Axis y, bool bands_of_x) {
    using namespace page;
    const auto between = [](const Axis& axis, double share) {
        const auto mix = [share](double a, double b) { return a + share * (b - a); };
        const auto logit = [](double p) { return std::log(p / (1.0 - p)); };
        switch (axis.scale) {
        case Scale::linear: break;
        case Scale::logarithmic: return std::exp(mix(std::log(axis.low), std::log(axis.high)));
        case Scale::probability: return 1.0 / (1.0 + std::exp(-mix(logit(axis.low), logit(axis.high))));
        }
        return mix(axis.low, axis.high);
    };
    const auto at = [&](double a, double b) { return Point{between(x, a), between(y, b)}; };
    Chart chart{.question = "Crowded", .x = x, .y = y};
    const Axis& across = bands_of_x ? x : y;
    chart.bands = {{between(across, 0.0), between(across, 0.12), "low", bands_of_x},
                   {between(across, 0.5), between(across, 0.7), "a window with a long name", bands_of_x},
                   {between(across, 0.97), between(across, 1.0), "thin", bands_of_x}};
    chart.limits = {{between(y, 0.02), "near the floor"}, {between(y, 0.98), "near the top"}, {between(x, 0.01), "left edge", true},
                    {between(x, 0.99), "right edge", true}, {between(x, 0.5), "half way", true}};
    chart.regions = {{{at(0.1, 0.2), at(0.5, 0.3), at(0.9, 0.25)}, {at(0.1, 0.5), at(0.5, 0.8), at(0.9, 0.6)}, "doubt"}};
    chart.series = {{"rising", {at(0, 0), at(0.3, 0.4), at(1, 1)}}, {"falling", {at(0, 1), at(1, 0)}, Stroke::dotted},
                    {"", {at(0.2, 0.9), at(0.8, 0.9)}, Stroke::thin, 1}, {"", {at(0.2, 0.1), at(0.8, 0.1)}, Stroke::dashed, 12},
                    {"one point", {at(0.6, 0.6)}}, {"none", {}}};
    for (const auto& [a, b] : {std::pair{0.0, 0.0}, {1.0, 0.0}, {0.0, 1.0}, {1.0, 1.0}, {0.5, 0.0}, {0.5, 1.0}, {0.02, 0.5}, {0.98, 0.5}})
        chart.marks.push_back({.at = at(a, b), .symbol = a > 0.5 ? Symbol::diamond : Symbol::square, .label = b > 0.4 ? "a mark with a long label" : "mark"});
    chart.marks.push_back({.at = at(0.45, 0.45), .label = "doubtful", .likely = Interval{between(y, 0.4), between(y, 0.5)},
                           .nearly_sure = Interval{between(y, 0.3), between(y, 0.62)}, .along = Interval{between(x, 0.4), between(x, 0.52)},
                           .dropped = true});
    return chart;
}

inline std::vector<page::Picture> picture_gallery() {
    using namespace page;
    std::vector<Picture> all;
    const auto linear = [](double low, double high) { return Axis{.name = "amount", .unit = "g", .low = low, .high = high}; };
    const auto decades = [](double low, double high) { return Axis{.name = "size", .unit = "um", .low = low, .high = high, .scale = Scale::logarithmic}; };
    const auto shares = [](double low, double high) { return Axis{.name = "passing", .low = low, .high = high, .scale = Scale::probability}; };
    for (const bool of_x : {false, true}) {
        all.push_back({crowded_chart(linear(0, 1), linear(0.8, 2.1), of_x)});
        all.push_back({crowded_chart(linear(-3, 7), linear(-0.004, 0.003), of_x)});
        all.push_back({crowded_chart(linear(998, 1002), linear(0, 25000), of_x)});
        all.push_back({crowded_chart(decades(40, 130), shares(0.05, 0.6), of_x)});
        all.push_back({crowded_chart(decades(1, 1000), shares(0.001, 0.999), of_x)});
        all.push_back({crowded_chart(decades(0.02, 30000), linear(0, 100), of_x)});
    }
    all.push_back({crowded_chart(decades(2, 9000), decades(0.1, 100000), false)});
    Chart low = crowded_chart(linear(0, 12), linear(0, 6), false);
    low.height = 80;
    low.x.ticks = {0, 3, 4.5, 12}, low.y.ticks = {0, 6};
    low.graduation = Graduation{"a second graduation", {{0, "0"}, {6, "half"}, {6.2, "too near"}, {12, "the last of all"}}};
    low.caption = "Low.";
    all.push_back({low});
    all.push_back({Chart{.question = "Nothing in it", .x = linear(0, 1), .y = linear(0, 1)}});
    all.push_back({Chart{.question = "No range", .x = linear(1, 1), .y = linear(0, 1)}});

    for (const int count : {1, 2, 20, 60}) {
        DotPlot dots{.question = "Dots", .axis = linear(0.5, 2.5), .window = {1.2, 1.8, "holds"},
                     .limits = {{0.5, "left"}, {1.0, "underbound"}, {2.5, "right"}}, .caption = "Each one."};
        for (int i = 0; i < count; ++i)
            dots.values.push_back(count < 3 ? 1.2 + 0.6 * i : 1.1 + 0.35 * std::sin(2.4 * i) + 0.02 * i);
        dots.values.push_back(0.1), dots.values.push_back(9.0);
        all.push_back({dots});
    }
    DotPlot one_place{.question = "All in one place", .axis = linear(0, 1), .window = {0.2, 0.8, "in"}};
    one_place.values.assign(25, 0.5);
    all.push_back({one_place});

    all.push_back({Bars{.question = "Bars", .bars = {{"none", {{0}}, "0 %"}, {"less than none", {{-4}}, ""}, {"half", {{25}, {25, Fill::open}}, "50 %", "half of it"},
                                                      {"whole", {{60, Fill::hatched}, {40, Fill::shaded}}, "100 %", "to the very end", true},
                                                      {"a label that is longer than the bar has room for in one line of it", {{3}}, "3 %", "3"}},
                        .full = 100, .caption = "Of all."}});
    all.push_back({Bars{.question = "The longest is the whole", .bars = {{"a", {{1e-9}}, "tiny"}, {"b", {{7}, {0}, {3}}, "ten", "", true}}}});
    all.push_back({Bars{.question = "No bars"}});
    all.push_back({Bars{.question = "All nothing", .bars = {{"a", {{0}}, "0"}, {"b", {}, "none"}}}});

    StackedBar many{.question = "Where it goes", .groups = {{"used", "12.0 g", {{"first", "0.2 g", 0.2}, {"second", "0.3 g", 0.3, Fill::hatched}, {"third, with a long name", "11.0 g", 11, Fill::shaded},
                                                                                {"fourth", "0.5 g", 0.5}}},
                                                          {"stays", "1.0 g", {{"reserve", "0.4 g", 0.4, Fill::open}, {"", "", 0.3, Fill::open}, {"the last", "0.3 g", 0.3}}}},
                    .caption = "In grams."};
    all.push_back({many});
    many.groups = {{"all", "1 g", {{"one", "1 g", 1}}}};
    all.push_back({many});
    many.groups = {{"little", "0.1 g", {{"a", "0.1 g", 0.1}}}, {"nothing", "0 g", {{"b", "0 g", 0}, {"c", "-1 g", -1}}}, {"much", "50 g", {{"d", "50 g", 50, Fill::open}}}};
    all.push_back({many});
    many.groups = {};
    all.push_back({many});

    for (const int pours : {1, 2, 7, 8, 12}) {
        page::Filling pan{.question = "Poured " + std::to_string(pours) + " times"};
        for (int i = 1; i <= pours; ++i)
            pan.pours.push_back({"pour " + std::to_string(i), std::to_string(20 / i) + " mL", std::min(1.0, 0.3 + 0.2 * i), 0.95 * i / pours, std::to_string(95 * i / pours) + " %"});
        all.push_back({pan});
    }
    for (const double drawn : {0.0, 0.03, 0.5, 0.97, 1.0})
        all.push_back({Glass{.question = "Glass", .drawn = drawn, .pour_off = "pour this off", .mark = "mark", .stays = drawn < 0.6 ? "leave all of this" : "", .caption = "So far."}});

    using Doing = Clock::Doing;
    all.push_back({Clock{.question = "Round", .spans = {{0, 900, Doing::busy, "a quarter"}, {900, 1800, Doing::waiting, "half"}, {1800, 2700, Doing::acting, "three"}, {2700, 3200, Doing::busy, "late"}},
                         .middle = {"one", "two", "three"}}});
    all.push_back({Clock{.question = "To the half hour", .spans = {{0, 1800, Doing::acting, "up to here"}}, .middle = {"30 min"}}});
    all.push_back({Clock{.question = "Many at once", .spans = {{100, 140, Doing::acting, "1"}, {150, 190, Doing::acting, "2"}, {200, 240, Doing::acting, "3"}, {250, 290, Doing::acting, "4"}, {1900, 1940, Doing::acting, "5"},
                                                              {1950, 1990, Doing::acting, "6"}, {2000, 2000, Doing::busy, "no time"}}}});
    all.push_back({Clock{.question = "55 minutes", .spans = {{0, 3299, Doing::busy, "just round"}}}});
    all.push_back({Clock{.question = "A line", .spans = {{0, 3300, Doing::busy, "no longer round"}}}});
    all.push_back({Clock{.question = "Days", .spans = {{0, 600, Doing::busy, "pour"}, {600, 86400, Doing::waiting, "wait"}, {86400, 87000, Doing::acting, "pour off"}, {87000, 400000, Doing::waiting, "wait longer"}}}});
    all.push_back({Clock{.question = "No time"}});

    for (const int cloths : {1, 2, 6}) {
        Stains stains{.question = "Cloths"};
        for (int i = 0; i < cloths; ++i)
            stains.cloths.push_back({std::to_string(i), i % 2 == 0 ? "plain" : "a longer word", cloths < 2 ? 0.5 : 1.0 * i / (cloths - 1)});
        all.push_back({stains});
    }
    return all;
}

} // namespace lakebound::testing
