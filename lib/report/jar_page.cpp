#include <algorithm>

#include <fmt/format.h>

#include "lakebound/report/jar_card.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/powder_words.hpp"
#include "lakebound/report/record_words.hpp"
#include "page_builder.hpp"
#include "remains_facts.hpp"
#include "paint_cautions.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;
using page::Tone;

std::string left_text(const JarCard& card) {
    if (!card.left) return "not weighed yet";
    return value_text(in_grams(*card.left), in_grams(card.uncertainty)) + " g";
}

std::string command(const JarStory& story, const std::string& what) {
    return "lakebound-jar " + story.called() + (what.empty() ? "" : " " + what);
}

/// Of an entry that is read as the paint that was asked about.
std::string paint_command(const JarStory& story, const std::string& what) { return command(story, what) + story.asked_paint; }

void show_verdict(PageBuilder& page, const JarStory& story) {
    const auto& coaching = story.outlook.coaching;
    page.section("Next").heading_shown = false;
    const bool coached = story.next() == NextStep::as_coached;
    const bool paint = coached && coaching.advice != CoachAdvice::measure;
    page::Verdict box{.head = next_head(story), .tone = paint ? Tone::good : Tone::care};
    const bool too_little = story.next() == NextStep::too_little;
    if (!too_little) box.chance = fmt::format("Mixed now, at k {}, the next {} lands in the window: {}.",
                             sufficiency_text(story.outlook.aim), name_in_sentence(story.family.name),
                             chance_text(coaching.now.chance));
    if (coached) box.body.push_back(page::Paragraph{coach_text(story.outlook, story.habits, story.family.process)});
    if (too_little)
        box.body.push_back(page::Paragraph{fmt::format("{} in the jar; a swatch alone takes {}. Is there more? Weigh the jar: {}", left_text(story.card),
                                                       mass_text(story.habits.swatch_powder), command(story, "--weighed \"24.0 g\""))});
    page.add(std::move(box));
}

void show_waiting(PageBuilder& page, const JarStory& story) {
    if (story.open.empty()) return;
    page.section("Waiting to be judged");
    page::Table table{.caption = "Swatches that wait",
                      .columns = {{.align = Align::left, .width = 4}, {.align = Align::left, .width = 46}, {.align = Align::left}}};
    for (const OpenSwatch& open : story.open) {
        const StoryLine& line = story.lines[open.line];
        table.rows.push_back({.cells = {std::to_string(line.number), swatch_words(story, line) + ", of " + day_text(line.entry.day),
                                        open.is_ready ? "dry: rub it now" : "dry on " + day_text(open.ready)}});
    }
    page.add(std::move(table));
    const auto dry = std::find_if(story.open.begin(), story.open.end(), [](const OpenSwatch& open) { return open.is_ready; });
    const OpenSwatch& example = dry == story.open.end() ? story.open.front() : *dry;
    page.paragraph("What it shows, in these words: chalks, does not chalk, holds, shines, cracks, stays sticky, wrinkles.");
    page.add(page::Command{command(story, story.open.size() > 1 ? fmt::format("--saw \"{} chalks\"", story.lines[example.line].number) : "--saw chalks")});
    page.note("How to rub it: lakebound-jar --swatch-test.");
}

void show_slab(PageBuilder& page, const JarStory& story) {
    if (!story.slab) return;
    page.section("On the slab");
    const StoryLine& line = story.lines[story.slab->line];
    const Mass powder = story.slab->paint.powder;
    page.paragraph(fmt::format("{} of powder with {} of {}, k {}; its last stroke, of {}: {}. That powder is counted as taken out "
                               "of the jar. How to go on from here, and what to enter at its end:",
                               mass_text(powder), mass_text(line.medium_mass), line.medium,
                               sufficiency_text(story.outlook.own_k(story.slab->paint.library_k)), day_text(line.entry.day),
                               line.sign ? word_of(*line.sign) : "not rubbed yet"));
    page.add(page::Command{paint_command(story, "--by-strokes \"" + mass_text(powder) + "\"")});
    page.note("Not to go on with it: " + command(story, fmt::format("--stroke \"{}, {}: {}\"", mass_text(powder), mass_text(line.medium_mass),
                                                                   word_of(PaintSign::thrown_away))) + story.asked_paint + ".");
}

/// What can be done with a batch that was just said to fail.
void show_mending(PageBuilder& page, const JarStory& story) {
    const auto batch = batch_to_mend(story);
    if (!batch) return;
    page.section("To mend what is left of it");
    page.paragraph("As long as it is whole and can be worked again, what to put to it, by what is known now:");
    page.add(page::Command{command(story, "--poured \"" + mass_text(story.lines[*batch].medium_mass) + "\"")});
    page.note("Of the whole batch; of half of it take half. Paint that is dry is ground again with water first.");
}

void show_to_do(PageBuilder& page, const JarStory& story) {
    if (story.next() != NextStep::as_coached) return;
    const auto& coaching = story.outlook.coaching;
    if (coaching.advice != CoachAdvice::measure) {
        page.section("To weigh it out");
        const bool named = !story.recipe_id.empty();
        page.add(page::Command{fmt::format("lakebound-batch {} --jar {}{}{} --k {}", named ? story.recipe_id : "RECIPE", story.called(),
                                           named && !story.recipe_has_medium ? " --medium " + story.medium_id : "",
                                           story.bottle.empty() ? "" : " --bottle \"" + story.bottle + "\"",
                                           sufficiency_text(story.outlook.aim))});
        page.note(fmt::format("{}Mix by that sheet; once it is made, the same command with --keep enters it. Use the medium from "
                              "the bottle that the swatches were painted with: another lot costs two points in a hundred.",
                              named ? "" : "RECIPE is one of your own, or of lakebound-batch --list. "));
        return;
    }
    const StepCost& cost = coaching.steps.at(*coaching.recommended).cost;
    switch (cost.kind) {
    case StepKind::rub_out:
        page.section("The rub-out");
        page.paragraph("Drop linseed oil onto weighed powder and work it, until the heap just hangs together as one "
                       "firm dough (page rub-out-in-ten-minutes.md). Weigh the dropper bottle before and after.");
        page.add(page::Command{command(story, "--rub-out \"2.00 g, 1.50 g\"")});
        page.note("First the powder, then the oil; or drops, as in --rub-out \"2.00 g, 43 drops\" --dropper \"50 drops, 1.81 g\". Who has "
                  "no oil at hand can begin a batch lean and ask the paint itself: " + paint_command(story, "--by-strokes \"6 g\"") + ".");
        return;
    case StepKind::solids_test:
        page.section("The solids of the medium");
        page.paragraph("Dry a weighed sample of the medium to constant weight: lakebound-pvc --reading turns it into a "
                       "figure for the medium's own file.");
        return;
    case StepKind::swatches:
        break;
    }
    page.section(cost.swatches == 1 ? "The swatch" : "The swatches");
    page::TickList list{.caption = "What to weigh for each"};
    int number = 0;
    for (const SwatchWeighing& swatch : story.outlook.swatches) {
        const Scale& scale = story.bench.scales.at(swatch.scale);
        page::TickLine line{.amount = mass_text(swatch.medium, scale.step),
                            .name = fmt::format("{} to {} of powder", name_in_sentence(story.medium_name),
                                                mass_text(swatch.powder, scale.step)),
                            .instrument = scale.name};
        const std::string k = "k " + sufficiency_text(story.outlook.own_k(swatch.library_k));
        line.notes.emplace_back(story.outlook.swatches.size() > 1 ? fmt::format("swatch {}, {}", ++number, k) : k);
        list.lines.push_back(std::move(line));
    }
    page.add(std::move(list));
    page.paragraph("Painted as weighed here, or of other masses (powder, then medium):");
    page.add(page::Command{paint_command(story, "--as-planned") + story.asked_wish});
    const SwatchWeighing& first = story.outlook.swatches.front();
    const Scale& scale = story.bench.scales.at(first.scale);
    page.add(page::Command{paint_command(story, fmt::format("--swatch \"{}, {}\"", mass_text(first.powder, scale.step),
                                                      mass_text(first.medium, scale.step)))});
}

void show_known(PageBuilder& page, const JarStory& story) {
    const JarOutlook& o = story.outlook;
    page.section("What is known", page::Place::left);
    page.fact("In the jar", left_text(story.card) + (story.card.from_its_file && story.card.left_from.empty() ? ", by its file" : ""));
    page.fact("Binder", fmt::format("{} times what the library expects, in {} ({} to {}, nine in ten)",
                                    significant_text(o.demand_over_library, 3), name_in_sentence(story.medium_name),
                                    significant_text(o.demand_low, 3), significant_text(o.demand_high, 3)));
    page.fact("Oil", fmt::format("{} x/ {}, by {}", oil_absorption_text(o.oil_absorption.value()),
                                 significant_text(std::exp(o.oil_absorption_spread), 3),
                                 o.own_readings.readings > 0 ? "its rub-outs" : o.own_paints.paints > 0 ? "its swatches"
                                 : story.kin > 0              ? "its kin and its kind"
                                                              : "its kind"));
    page.fact("Edge", fmt::format("a swatch begins to chalk about k {}, by this jar's own figure",
                                  sufficiency_text(o.own_k(o.coaching.even_bet))));
    const MeasuredEntry& m = story.card.measured;
    if (m.density) page.fact("Density", density_text(m.density->value()));
    if (m.tapped_density) page.fact("Tapped", density_text(m.tapped_density->value()));
    if (m.moisture) page.fact("Moisture", percent_text(m.moisture->value().value()));
    if (m.median_size) page.fact("Median size", size_text(m.median_size->value()));
    layout::add_remains(page, story.lake, story.remains);
    layout::add_colour(page, story.colour);
    if (story.card.settled) page.fact("Clumps", clumps_text(*story.card.settled));
    if (!story.bottle.empty()) page.fact("Bottle", story.bottle);
    if (story.plant != story.id)
        page.fact("Plant", fmt::format("{}, {} other {} of it", story.plant, story.kin, story.kin == 1 ? "jar" : "jars"));
}

void show_worth(PageBuilder& page, const JarStory& story) {
    page.section("What each part of the record is worth", page::Place::right);
    page::Table table{.caption = "Chance of the window with more and more of the record",
                      .columns = {{.align = Align::left, .width = 50},
                                  {.head = "in the window", .align = Align::right, .width = 15}}};
    for (const WorthLine& line : worth_lines(story.outlook))
        table.rows.push_back({.cells = {line.what, percent_text(line.chance.value())}});
    page.add(std::move(table));
}

void show_steps(PageBuilder& page, const JarStory& story) {
    const auto& steps = story.outlook.coaching.steps;
    if (steps.empty()) return;
    page.section("What a test would bring");
    page::Table table{.caption = "Each test, what it costs and the chance expected after it",
                      .columns = {{.align = Align::left, .width = 32},
                                  {.head = "costs", .align = Align::left, .width = 38},
                                  {.head = "then", .align = Align::right, .width = 8}},
                      .chosen_word = "advised"};
    for (std::size_t i = 0; i < steps.size(); ++i)
        table.rows.push_back({.cells = {step_words(steps[i].cost), cost_text(steps[i].cost), percent_text(steps[i].value.value())},
                              .chosen = story.outlook.coaching.recommended == i});
    page.add(std::move(table));
}

void show_story(PageBuilder& page, const JarStory& story) {
    std::vector<page::Row> rows;
    for (const StoryLine& line : story.lines)
        if (!std::holds_alternative<OutcomeEntry>(line.entry.what))
            rows.push_back({.cells = {day_text(line.entry.day), happened_text(story, line)}});
    if (rows.empty()) return;
    page.section("What happened");
    page::Table table{.caption = "Entries of this jar by day", .columns = {{.align = Align::left, .width = 12}, {.align = Align::left}}};
    table.rows = std::move(rows);
    page.add(std::move(table));
}

} // namespace

page::Page jar_page(const JarStory& story, const JarAnswerWords& words) {
    page::Title title{.kind = "Jar", .name = story.name};
    title.lead = {fmt::format("{} left; as {}, with {}", left_text(story.card), name_in_sentence(story.family.name),
                              name_in_sentence(story.medium_name))};
    title.slip = {{"Bench", story.bench_assumed ? "assumed" : story.bench.name}, {"As of", day_text(story.today)}};
    PageBuilder page(std::move(title));
    if (!words.kept.empty()) {
        page.section("Kept").heading_shown = false;
        page.paragraph((words.taken_back.empty() ? "" : "Taken back: " + words.taken_back + ". ") + "Kept in " + words.kept + ".", Tone::good);
        for (const std::string& remark : words.remarks)
            page.note(remark);
    }
    show_verdict(page, story);
    const auto warnings = record_warnings(story);
    if (!warnings.empty()) {
        page.section("Look out");
        for (const auto& line : warnings)
            page.item(line, '!');
    }
    show_waiting(page, story);
    show_slab(page, story);
    if (!words.kept.empty()) show_mending(page, story);
    show_to_do(page, story);
    if (!words.kept.empty()) { // what was entered is answered in short; the card has the rest
        page.note("The whole card: " + paint_command(story, "") + story.asked_wish + ".");
        const bool at_the_bench = story.next() == NextStep::as_coached && story.outlook.coaching.recommended;
        if (at_the_bench) layout::add_paint_cautions(page, story.family, story.rub_out_materials);
        return std::move(page).page();
    }
    show_known(page, story);
    show_worth(page, story);
    show_steps(page, story);
    show_story(page, story);
    page.section("What was assumed");
    page.item("The chance is of the window of the family, and true for a maker like those of the page theory.md, \"What a "
              "studio learns\"; every spread there is an estimate.");
    if (!story.batches.empty())
        page.item("The k of every paint above is by what is known of the jar now; the sheet of its day may have said another.");
    if (story.bench_assumed)
        page.item(fmt::format("No bench file was found: a kitchen scale of {} was assumed.",
                              quantity_text(story.bench.scales.front().step, "g")));
    layout::add_paint_cautions(page, story.family, story.rub_out_materials);
    return std::move(page).page();
}

page::Page poured_page(const JarStory& story, const PouredQuestion& q, const PouredAnswer& answer) {
    const auto of_step = [](Mass mass) { return mass_text(mass, grams(0.01)); };
    const std::string medium = name_in_sentence(story.medium_name);
    PageBuilder page({.kind = "Poured", .name = story.name,
                      .lead = {fmt::format("{} of medium to {} of powder, where the sheet said {}", mass_text(q.poured),
                                           mass_text(q.powder), mass_text(q.planned))}});
    page.section("What now").heading_shown = false;
    page::Verdict box{.head = answer.leave_it                                        ? "Leave it"
                              : answer.rescue.action == RescueAction::add_pigment    ? "Add powder"
                                                                                     : "Add medium",
                      .tone = answer.leave_it ? Tone::good : Tone::care};
    box.chance = fmt::format("k is {} now, {} by the sheet. Chance of the window: {}; by the sheet {}.",
                             sufficiency_text(answer.now), sufficiency_text(answer.planned),
                             chance_text(answer.in_window_now), percent_text(answer.in_window_planned.value()));
    if (answer.leave_it) {
        box.body.push_back(page::Paragraph{"What could be added would bring less than a point in a hundred."});
    } else {
        const bool powder = answer.rescue.action == RescueAction::add_pigment;
        box.body.push_back(page::Paragraph{
            fmt::format("Work in {} of {} more: k comes to {}, and the chance to {}.",
                        mass_text(powder ? answer.rescue.pigment : answer.rescue.medium), powder ? "the powder" : medium,
                        sufficiency_text(answer.rescue.after), percent_text(answer.in_window_then.value()))});
        if (!answer.rescue.jar_holds_enough)
            box.body.push_back(page::Paragraph{fmt::format("The jar is {} short of that, its reserve kept.",
                                                           mass_text(answer.rescue.pigment_short))});
    }
    page.add(std::move(box));
    const StoryLine& batch = story.lines[story.batches.at(q.batch)];
    if (batch.sign) { // judged in use: the batch as it was keeps its verdict
        page.section("Then");
        if (answer.more_powder.value() > 0.0)
            page.add(page::Command{fmt::format("lakebound-jar {} --drew \"{}\" --note \"into that batch\"", story.called(), of_step(answer.more_powder))});
        page.paragraph(fmt::format("The record keeps the batch as it was, and what it did. What it does now teaches as well: paint a swatch "
                                   "of it, and enter that by what {} of its powder would hold:", of_step(q.swatch_powder)));
        page.add(page::Command{fmt::format("lakebound-jar {} --swatch \"{}, {}\" --as {} --with {}", story.called(), of_step(q.swatch_powder),
                                           of_step(answer.swatch_medium), story.family.id, batch.medium)});
    } else if (answer.mixed_medium != q.planned || answer.mixed_powder != q.powder) {
        page.section("Then");
        page.paragraph(answer.leave_it ? "The record still holds the batch as the sheet had it. Take that entry back, and enter "
                                         "what was really mixed:"
                                       : "Once that is worked in, take the entry of the batch back, and enter what was really "
                                         "mixed:");
        page.add(page::Command{fmt::format("lakebound-jar {} --undo {}", story.called(), batch.name)});
        page.add(page::Command{fmt::format("lakebound-jar {} --mixed \"{}, {}\" --as {} --with {}", story.called(),
                                           of_step(answer.mixed_powder), of_step(answer.mixed_medium), story.family.id, batch.medium)});
    }
    layout::add_paint_cautions(page, story.family, story.rub_out_materials);
    return std::move(page).page();
}

StudioLine studio_line(const JarStory& story) {
    return {story.id, story.name, story.plant, story.card.left, story.card.uncertainty, story.lines.size(),
            story.outlook.coaching.now.chance, story.family.id, next_head(story), next_key(story)};
}

page::Page new_jar_page(const Jar& jar, const std::string& path) {
    PageBuilder page({.kind = "Jar", .name = jar.name});
    page.section("Begun").heading_shown = false;
    page.paragraph("Begun in " + path + ": a file of yours, to be edited as you like.", Tone::good);
    page.section("Taken from the library until you measure it");
    for (const auto& figure : jar.library_defaults)
        page.item(figure);
    page.section("Next").heading_shown = false;
    page.add(page::Command{"lakebound-jar " + jar.id});
    return std::move(page).page();
}

page::Page new_bench_page(const Bench& bench, const std::string& path) {
    PageBuilder page({.kind = "Bench", .name = bench.name});
    page.section("Begun").heading_shown = false;
    page.paragraph("Begun in " + path + ": a file of yours, to be edited as you like.", Tone::good);
    page.section("What it says");
    for (const Scale& scale : bench.scales)
        page.item(scale.name);
    page.item(fmt::format("slab loss {} and {} of the pigment, assumed", mass_text(bench.slab_loss.fixed),
                          percent_text(bench.slab_loss.share.value())));
    page.item("no syringe, no dropper: add those that you have");
    page.section("Next").heading_shown = false;
    page.add(page::Command{"lakebound-jar weld --new \"alumina-lake, 24.0 g\""});
    return std::move(page).page();
}

page::Page studio_page(const std::string& studio, const std::vector<StudioLine>& lines) {
    PageBuilder page({.kind = "Studio", .name = studio});
    page.section("Jars").heading_shown = false;
    if (lines.empty()) {
        page.paragraph("No jar yet. Begin one: lakebound-jar weld --new \"alumina-lake, 24.0 g\"");
        return std::move(page).page();
    }
    page::Table table{.caption = "Jars of the studio",
                      .columns = {{.head = "jar", .align = Align::left, .width = 18},
                                  {.head = "left", .align = Align::right, .width = 12},
                                  {.head = "as", .align = Align::left, .width = 17},
                                  {.head = "chance", .align = Align::right, .width = 8},
                                  {.head = "next", .align = Align::left}}};
    for (const StudioLine& line : lines)
        table.rows.push_back(
            {.cells = {line.id,
                       line.left ? value_text(in_grams(*line.left), in_grams(line.uncertainty)) + " g" : "-",
                       line.family,
                       percent_text(line.in_window.value()),
                       line.next}});
    page.add(std::move(table));
    page.note("Chance: that the next mix lands in the window, as the paint that the jar was last used for.");
    return std::move(page).page();
}

} // namespace lakebound
