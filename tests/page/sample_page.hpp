#pragma once
// A page with every kind of block in it, for the tests of both writers.

#include <string>

#include "lakebound/page/page.hpp"

namespace lakebound::testing {

/// Every text that a person may have typed is `typed`, where it is not empty.
inline page::Page sample_page(const std::string& typed = {}) {
    using namespace page;
    const auto name = [&typed](const char* usual) { return typed.empty() ? std::string(usual) : typed; };
    Page page;
    page.title.kind = "Weigh sheet";
    page.title.name = name("Lake watercolour in half pans");
    page.title.lead = {"6.0 g of Weld lake, to fill 5 half pans"};
    page.title.slip = {{"Bench", name("Reedmere bench")}, {"Worked by", {}, true}};

    Verdict verdict;
    verdict.head = "Should hold";
    verdict.figure = "k 1.40";
    verdict.tone = Tone::good;
    verdict.seal = Verdict::Seal::holds;
    verdict.chance = strong("85 of 100") + " mixes made like this land in the window.";
    verdict.body = {Paragraph{"Enough gum to bind, not so much that it shines."}, Note{"k is binder over what just fills."}};
    page.sections.push_back({.heading = "Verdict", .blocks = {verdict}, .heading_shown = false});
    page.sections.push_back({.blocks = {Block(Guard{strong("Before you begin:") + " mask on."}, Shown::html_only)}});

    TickList weigh{.caption = "What to weigh"};
    weigh.lines = {{"6.0 g", name("Weld lake, Reedmere"), "kitchen scale"},
                   {"0.26 g", "Clove oil, 5 % w/w in ethanol", "pocket scale", {},
                    {"Only 0.013 g of it is wanted, too little for the scale: mix 1 part with 19 parts of ethanol by "
                     "weight, at least 3.3 g in all, and weigh that."}},
                   {"25.7 g", "Gum water with glycerol and honey", name("kitchen scale"),
                    "23.0 mL in the 10 mL syringe, 3 fills"}};
    weigh.notes = {"It keeps: weeks to a month, in the refrigerator."};
    page.sections.push_back({.heading = "Weigh", .blocks = {weigh}});

    Steps steps{.steps = {"Mask on. Weigh 6.0 g of " + name("Weld lake") + " onto the slab.",
                          "Wet it: work in 3.0 g of water, a little at a time, with the knife."},
                .asides = {"Of the recipe: " + name("A lake needs much liquid.")}};
    page.sections.push_back({.heading = "Order of work", .blocks = {steps}, .place = Place::left});

    Table table{.caption = "What lies where",
                .columns = {{.head = "screen", .align = Align::left, .width = 15},
                            {.head = "kept", .unit = "g", .width = 9},
                            {.head = "share", .align = Align::right, .unit = "%", .width = 18},
                            {.head = "passing", .unit = "%", .width = 12, .strong = true},
                            {.width = 22, .bar = true}}};
    table.rows = {{.cells = {"250 um", "0.4", "2.0 ± 0.2", "98.0", Cell::bar(0.98)}},
                  {.cells = {name("150 um"), "12.15", "10.7 ± 0.2", "87", Cell::bar(0.87)}, .chosen = true},
                  {.cells = {"pan", "4.0", "20.3 ± 0.2"}, .total = true}};
    table.notes = {"One weighing on this scale of 0.1 g steps is sure to ± 0.041 g."};
    page.sections.push_back({.heading = "What lies where", .blocks = {table}, .place = Place::right});

    page.sections.push_back({.heading = "What comes out",
                             .blocks = {Facts{{{"Fills", "5 half pans, 90 % full when dry"},
                                               {"In the jar", "18.0 g is left"}}},
                                        Bullets{{"All figures of gum arabic."}}, Bullets{{"Too little."}, '!'},
                                        Watch{loud("Keep the water:") + " it carries the fine pigment."},
                                        Paragraph{"To part at 25 um, with the depth of your water:"},
                                        Command{"lakebound-settle --depth \"100 mm\" --cut \"25 um\""},
                                        Formula{"Binder demand", "q", {"OA / (100 rho_o)", "0.80645 mL/g"}},
                                        Preformatted{{"median_size: 80 um"}}, Lead{"22.8 g"}},
                             .new_side = true,
                             .keep_together = true});
    page.sections.push_back({.heading = "Swatch", .blocks = {Swatches{{"thin", "full"}}}, .shown = Shown::html_only});
    page.sections.push_back(
        {.heading = "Take care",
         .blocks = {Cautions{{{"Vapour", "Ethanol", "Burns and catches fire from a distance."},
                              {"Kitchen", {}, "Keep slab, jars and tools apart from food for good."}}},
                    Foot{"lakebound-batch 0.1.0:", "lakebound-batch lake-watercolour-half-pans --pigment \"6 g\""}}});
    return page;
}

} // namespace lakebound::testing
