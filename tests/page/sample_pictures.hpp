#pragma once
// One picture of each kind, for the tests and the demonstration page.

#include <vector>

#include "lakebound/page/picture.hpp"

namespace lakebound::testing {

inline std::vector<page::Picture> sample_pictures() {
    using namespace page;
    Chart medium{.question = "k over the amount of medium",
                 .x = {.name = "medium", .unit = "g", .low = 16, .high = 36},
                 .y = {.name = "k", .low = 0.8, .high = 2.0}};
    medium.bands = {{1.2, 1.8, "holds, 1.20 to 1.80"}};
    medium.limits = {{1.0, "underbound below 1.00"}};
    medium.series = {{"", {{16, 0.87}, {36, 1.96}}},
                     {"", {{16, 0.99}, {32, 2.0}}, Stroke::thin_dashed},
                     {"", {{17, 0.8}, {36, 1.72}}, Stroke::thin_dashed}};
    medium.marks = {{.at = {25.7, 1.4},
                     .symbol = Symbol::diamond,
                     .label = "this batch, k 1.40",
                     .likely = Interval{1.22, 1.6},
                     .nearly_sure = Interval{1.13, 1.74},
                     .dropped = true}};
    medium.graduation = Graduation{"of 100 mixes, so many land in the window",
                                   {{16, "1"}, {20, "23"}, {24, "74"}, {28, "86"}, {32, "59"}, {36, "25"}}};
    Chart sieve{.question = "Share finer, by size",
                .x = {.name = "screen", .unit = "um", .low = 10, .high = 500, .scale = Scale::logarithmic},
                .y = {.name = "passing", .low = 0.01, .high = 0.99, .scale = Scale::probability}};
    sieve.series = {{"", {{45, 0.279}, {75, 0.426}, {106, 0.569}, {150, 0.72}, {250, 0.885}}},
                    {"no screen looked", {{10, 0.06}, {45, 0.279}}, Stroke::dashed}};
    sieve.marks = {{.at = {45, 0.279}, .label = "now 27.9 %"}, {.at = {75, 0.426}}, {.at = {250, 0.885}}};
    sieve.limits = {{45, "wanted 99.5 %", true}};
    DotPlot dots{.question = "Where twenty mixes would land",
                 .axis = {.name = "k", .low = 0.7, .high = 2.0},
                 .window = {1.2, 1.8, "holds"},
                 .limits = {{1.0, "underbound"}},
                 .values = {1.08, 1.17, 1.21, 1.23, 1.26, 1.29, 1.31, 1.34, 1.36, 1.39, 1.41, 1.44, 1.46, 1.49, 1.52, 1.55,
                            1.59, 1.64, 1.7, 1.83},
                 .caption = "Each dot is one mix in 20; open: misses."};
    Bars doubt{.question = "Where the doubt in k comes from",
               .bars = {{"step from the oil rub-out to this binder", {{58, Fill::hatched}}, "58 %"},
                        {"oil absorption of the lake, measured", {{20}}, "20 %"},
                        {"scales and all the rest", {{0.4}}, "under 1 %"}},
               .full = 100};
    Bars ways{.question = "Ways compared",
              .bars = {{"wet screening in rounds", {{104}, {40, Fill::hatched}}, "97 %", "2 h 24 min", true},
                       {"one long grind, then levigation", {{227}, {16, Fill::hatched}}, "94 %", "4 h 3 min"}}};
    StackedBar jar{.question = "The jar, 24.0 g",
                   .groups = {{"this batch", "6.0 g",
                               {{"in the pans", "4.7 g", 4.7}, {"left over", "0.6 g", 0.6, Fill::shaded},
                                {"to the slab", "0.8 g", 0.8, Fill::hatched}}},
                              {"stays", "18.0 g", {{"", "", 17.5, Fill::open}, {"reserve", "0.5 g", 0.5, Fill::shaded}}}}};
    Filling pan{.question = "One half pan, pour by pour",
                .pours = {{"pour 1", "2.0 mL", 1.0, 0.4, "40 %"}, {"pour 2", "1.2 mL", 1.0, 0.63, "63 %"},
                          {"pour 3", "0.7 mL", 1.0, 0.78, "78 %"}, {"pour 4", "0.4 mL", 1.0, 0.87, "87 %"},
                          {"pour 5", "0.2 mL", 0.96, 0.9, "90 %"}},
                .caption = "Solid: left by this pour; hatched: dries off."};
    Glass glass{.question = "What is poured off", .drawn = 0.8, .pour_off = "pour off 80 mm", .mark = "mark, 80 mm down",
                .stays = "leave 20 mm"};
    Clock clock{.question = "Pour-offs beside the kitchen clock",
                .spans = {{0, 180, Clock::Doing::busy}, {180, 336, Clock::Doing::waiting},
                          {336, 396, Clock::Doing::acting, "pour 1: 5:36"}, {396, 576, Clock::Doing::busy},
                          {576, 733, Clock::Doing::waiting}, {733, 793, Clock::Doing::acting, "pour 2: 12:13"}},
                .middle = {"start with", "the first fill", "done 13 min"}};
    Stains stains{.question = "The tissue after ten strokes",
                  .cloths = {{"0", "clean", 0}, {"1", "a breath", 0.04}, {"2", "a stain", 0.3}, {"3", "loose", 0.8}},
                  .caption = "Chalks is 2 or 3."};
    auto long_clock = clock;
    long_clock.spans.push_back({793, 7000, Clock::Doing::waiting, "let it settle"});
    return {{medium}, {sieve}, {dots}, {doubt}, {ways}, {jar}, {pan}, {glass}, {clock}, {long_clock}, {stains}};
}

} // namespace lakebound::testing
