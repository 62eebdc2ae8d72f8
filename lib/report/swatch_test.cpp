#include "lakebound/report/swatch_test.hpp"

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/record_words.hpp"
#include "page_builder.hpp"
#include "paint_cautions.hpp"
#include "process_words.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Place;

} // namespace

page::Page swatch_test_page(const Family& family, const LearningHabits& habits, std::span<const HazardousMaterial> materials) {
    const Process process = family.process;
    const auto& binder = habits.binders.at(static_cast<std::size_t>(process));
    PageBuilder page({.kind = "Swatch test", .name = "so that two people judge alike"});
    page.section("Paint it", Place::left);
    page::Steps paint;
    paint.steps = {"Weigh powder and medium as the jar's card says, and write the masses on the back of the sheet.",
                   layout::process_words(process).swatch_work,
                   fmt::format("Paint one even stroke, two fingers wide and as long as a hand is broad, on {}: so thin that a "
                               "pencil line under it still shows.", layout::process_words(process).ground),
                   fmt::format("Let it dry lying flat, in air of 40 to 60 % humidity, for {}; longer in damp. Not on a "
                               "heater and not in the sun.", waiting_text(binder.drying))};
    page.add(std::move(paint));
    page.section("Rub it", Place::left);
    page::Steps rub;
    rub.steps = {"Fold a dry white paper tissue in four and lay it over the tip of one finger.",
                 "Press as hard as half a kilogram: learn it with the finger on the kitchen scale.",
                 "Ten strokes of a finger's length, there and back is two, in five seconds.",
                 "Look at the tissue in daylight beside a clean one."};
    page.add(std::move(rub));
    page.section("What counts", Place::right);
    page.drawn({page::Stains{.question = "The tissue after ten strokes",
                             .cloths = {{"0", "clean", 0.0}, {"1", "a breath", 0.03}, {"2", "a stain", 0.30}, {"3", "loose", 0.80}},
                             .caption = "0 and 1: does not chalk. 2 and 3: chalks."}});
    page::Table table{.caption = "What the tissue shows and what to enter",
                      .columns = {{.align = page::Align::left, .width = 44}, {.head = "enter", .align = page::Align::left}}};
    table.rows = {{.cells = {"0  clean", "does not chalk"}},
                  {.cells = {"1  a breath that shows only beside a clean one", "does not chalk"}},
                  {.cells = {"2  a stain that shows across the room", "chalks"}},
                  {.cells = {"3  loose colour, and the stroke grows pale", "chalks"}}};
    page.add(std::move(table));
    page.section("Look at it as well", Place::right);
    page.item("Held flat against a window: a shine like varnish, where your paint is matt: shines.");
    page.item("At arm's length: cracks that can be counted: cracks.");
    for (const char* sign : layout::process_words(process).too_much) page.item(sign);
    page.item("Neither chalk nor any of these, and you looked for all of them: holds.");
    page.section("Then").heading_shown = false;
    page.add(page::Command{"lakebound-jar JAR --saw chalks"});
    page.note("When in doubt between 1 and 2, rub a second place and take what that shows. Judge all swatches of a jar the same "
              "way, by the same light: a test that leans is worse than one that scatters. The strokes, the weight and the "
              "scores are common practice, no source.");
    layout::add_paint_cautions(page, family, materials);
    return std::move(page).page();
}

} // namespace lakebound
