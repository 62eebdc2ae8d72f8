#include "lakebound/report/stepwise_sheet.hpp"

#include <fmt/format.h>

#include "json_pieces.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/record_words.hpp"
#include "page_builder.hpp"
#include "paint_cautions.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using json_pieces::Json;
using layout::PageBuilder;
using page::Align;

std::string last_dose_text(const LastDose& last, const Scale& scale) {
    return last.medium.value() > 0.0 ? "+ " + mass_text(last.medium, scale.step) : "nothing";
}

Json last_dose_json(const JarStory& story, const LastDose& last) {
    return {{"medium_g", in_grams(last.medium)},
            {"in_all_g", in_grams(last.in_all)},
            {"k", story.outlook.own_k(last.library_k).value()},
            {"library_k", last.library_k.value()},
            {"in_window", last.in_window.value()}};
}

} // namespace

/// The batch that lies on the slab has had its strokes: only its last dose is left.
void show_end(PageBuilder& page, const JarStory& story, const StepwisePlan& plan) {
    const LastDose& last = plan.mix.if_all_chalk;
    const Mass step = story.bench.scales.at(finest_scale(story.bench)).step;
    const auto grams_of = [step](Mass mass) { return mass_text(mass, step); };
    const bool enough = !(last.medium.value() > 0.0);
    if (wants_powder(plan.mix, story.outlook.coaching.now.chance)) {
        page.section("What to do").heading_shown = false;
        page.add(page::Verdict{.head = "Too rich by now: it wants powder",
                               .tone = page::Tone::care,
                               .chance = fmt::format("As it is the batch lies in the window: {}.", chance_text(last.in_window)),
                               .body = {page::Paragraph{"Enter it as it stands, and ask how much to work in:"}}});
        page.add(page::Command{fmt::format("lakebound-jar {} --mixed \"{}, {}\"{}", story.called(), grams_of(plan.question.powder),
                                           grams_of(last.in_all), story.asked_paint)});
        page.add(page::Command{fmt::format("lakebound-jar {} --poured \"{}\"{}", story.called(), grams_of(last.in_all), story.asked_paint)});
        layout::add_paint_cautions(page, story.family, story.swatch_materials);
        return;
    }
    page.section("What to do").heading_shown = false;
    page.add(page::Verdict{
        .head = enough ? "It is done: leave it" : "Work in the last dose, and stop",
        .tone = page::Tone::good,
        .chance = fmt::format("Then the batch lands in the window: {}.", chance_text(last.in_window)),
        .body = {page::Paragraph{enough ? "It holds as much as the strokes say that it wants."
                                        : fmt::format("{} of {} more, to k {}.", grams_of(last.medium), name_in_sentence(story.medium_name),
                                                      sufficiency_text(story.outlook.own_k(last.library_k)))}}});
    page.section("Then enter it");
    page.add(page::Command{fmt::format("lakebound-jar {} --mixed \"{}, {}\"{}", story.called(), grams_of(plan.question.powder), grams_of(last.in_all),
                                       story.asked_paint)});
    layout::add_paint_cautions(page, story.family, story.swatch_materials);
}

void show_beginning(PageBuilder& page, const JarStory& story, const StepwisePlan& plan) {
    const StepwiseDose& first = plan.mix.doses.front();
    const Scale &powder_scale = story.bench.scales.at(plan.mix.powder_scale), &scale = story.bench.scales.at(first.scale);
    if (plan.question.started) {
        page.section("Go on with");
        page::TickList list{.caption = "What to add next"};
        list.lines.push_back({.amount = mass_text(first.medium, scale.step), .name = name_in_sentence(story.medium_name), .instrument = scale.name});
        page.add(std::move(list));
        return;
    }
    if (story.card.left && *story.card.left < plan.question.powder)
        page.paragraph(fmt::format("The jar holds less than that: {}.", mass_text(*story.card.left)), page::Tone::care);
    page.section("Begin with");
    page::TickList list{.caption = "What to weigh at first"};
    list.lines.push_back({.amount = mass_text(plan.question.powder, powder_scale.step), .name = story.name, .instrument = powder_scale.name});
    list.lines.push_back({.amount = mass_text(first.medium, scale.step), .name = name_in_sentence(story.medium_name), .instrument = scale.name});
    page.add(std::move(list));
}

page::Page stepwise_page(const JarStory& story, const StepwisePlan& plan) {
    const StepwiseMix& mix = plan.mix;
    const auto scale_of = [&](const StepwiseDose& dose) -> const Scale& { return story.bench.scales.at(dose.scale); };
    const std::string powder = mass_text(plan.question.powder, story.bench.scales.at(mix.powder_scale).step);
    const bool begun = plan.question.started.has_value();
    PageBuilder page({.kind = "Mixed by strokes", .name = story.name,
                      .lead = {begun ? fmt::format("{} of powder for {}, on the slab since its first stroke", powder, name_in_sentence(story.family.name))
                                     : fmt::format("{} of powder for {}, begun lean on purpose and brought up in doses of {}", powder,
                                                   name_in_sentence(story.family.name), name_in_sentence(story.medium_name))},
                      .slip = {{"Bench", story.bench_assumed ? "assumed" : story.bench.name}, {"As of", day_text(story.today)}}});
    if (mix.doses.empty()) {
        show_end(page, story, plan);
        return std::move(page).page();
    }
    const StepwiseDose& first = mix.doses.front();
    const std::string expected = fixed_text(mix.strokes_expected, 0);
    page.section("What comes of it").heading_shown = false;
    page.add(page::Verdict{
        .head = "Stop at the first stroke that does not chalk",
        .tone = page::Tone::care,
        .chance = fmt::format("Then the batch lands in the window: {}. {}, {}.", chance_text(mix.in_window),
                              begun ? "Brought there at once, without more strokes" : "Mixed at once, without strokes",
                              percent_text(story.outlook.coaching.now.chance.value())),
        .body = {page::Paragraph{fmt::format("About {} {}{} to be expected, {} at most. Each has to dry before it is rubbed: {}.",
                                             expected, begun ? "more " : "", expected == "1" ? "stroke is" : "strokes are", mix.doses.size(),
                                             waiting_text(story.habits.binders.at(static_cast<std::size_t>(story.family.process)).drying))}}});
    show_beginning(page, story, plan);

    page.section("Dose by dose");
    page::Table table{.caption = "Each dose, the chance that its stroke still chalks, and what to add where it does not",
                      .columns = {{.head = "dose", .align = Align::left, .width = 6},
                                  {.head = "add", .align = Align::right, .width = 11},
                                  {.head = "k", .align = Align::right, .width = 7},
                                  {.head = "chalks", .align = Align::right, .width = 9},
                                  {.head = "if not, add", .align = Align::right, .width = 14},
                                  {.head = "k then", .align = Align::right, .width = 9},
                                  {.head = "in window", .align = Align::right, .width = 12}}};
    int number = 0;
    const auto k = [&](BinderSufficiency library_k) { return sufficiency_text(story.outlook.own_k(library_k)); };
    for (const StepwiseDose& dose : mix.doses)
        table.rows.push_back({.cells = {std::to_string(++number), mass_text(dose.medium, scale_of(dose).step), k(dose.library_k),
                                        percent_text(dose.chalks.value()), last_dose_text(dose.if_not, scale_of(dose)),
                                        k(dose.if_not.library_k), percent_text(dose.if_not.in_window.value())}});
    page.add(std::move(table));
    const LastDose& all = mix.if_all_chalk;
    page.note(fmt::format("If every stroke chalks: {}, to k {}; {} in the window.", last_dose_text(all, scale_of(mix.doses.back())),
                          k(all.library_k), percent_text(all.in_window.value())));

    page.section("How to go on");
    page::Steps steps;
    steps.steps = {"Enter each stroke, and this sheet asked for again goes on from there; or keep the sheet until the batch is done.",
                   begun ? "Work in that dose."
                         : "Work the powder with the first dose. It is too lean to paint with, and is meant to be.",
                   fmt::format("Paint one stroke, of about {} of powder, and cover the paint from the air, with water or film on "
                               "it, until the stroke is dry. It has to keep as many days: cold, and with what your recipe "
                               "puts in against mould.", mass_text(plan.question.stroke_powder)),
                   "Rub it as lakebound-jar --swatch-test says. Chalks: work in the next dose, and a new stroke.",
                   "Does not chalk: work in the last dose beside that line, and stop. Do not take a second opinion from the "
                   "same stroke; the chances reckon with one that errs."};
    page.add(std::move(steps));

    page.section("Then enter it");
    page.paragraph("Each stroke by what the whole powder would hold at that dose, and the batch as it ended:");
    page.add(page::Command{fmt::format("lakebound-jar {} --stroke \"{}, {}: chalks\"{}", story.called(), powder,
                                       mass_text(first.in_all, scale_of(first).step), story.asked_paint)});
    page.add(page::Command{fmt::format("lakebound-jar {} --mixed \"{}, {}\"{}", story.called(), powder,
                                       mass_text(first.if_not.in_all, scale_of(first).step), story.asked_paint)});
    page::Table enter{.caption = "What the whole powder would hold at each dose, and at the end",
                      .columns = {{.head = "dose", .align = Align::left, .width = 6},
                                  {.head = "--stroke: in all", .align = Align::right, .width = 20},
                                  {.head = "--mixed, if not: in all", .align = Align::right, .width = 27}}};
    for (std::size_t i = 0; i < mix.doses.size(); ++i)
        enter.rows.push_back({.cells = {std::to_string(i + 1), mass_text(mix.doses[i].in_all, scale_of(mix.doses[i]).step),
                                        mass_text(mix.doses[i].if_not.in_all, scale_of(mix.doses[i]).step)}});
    page.add(std::move(enter));
    page.note("More than the batch took, for a stroke takes its medium along: so the record has the right k.");
    page.section("What was assumed");
    page.item("One bottle of medium throughout, and nothing dries on the slab but water.");
    page.item("The chances are those of the page theory.md, \"What a studio learns\"; every spread there is an estimate.");
    layout::add_paint_cautions(page, story.family, story.swatch_materials);
    return std::move(page).page();
}

std::string stepwise_json(const JarStory& story, const StepwisePlan& plan) {
    Json json = json_pieces::envelope("stepwise", stepwise_json_version);
    json["id"] = story.id;
    json["family"] = story.family.id;
    json["medium"] = story.medium_id;
    json["pigment_g"] = in_grams(plan.question.powder);
    json["stroke_pigment_g"] = in_grams(plan.question.stroke_powder);
    json["in_window"] = plan.mix.in_window.value();
    json["strokes_expected"] = plan.mix.strokes_expected;
    if (plan.question.started)
        json["on_slab"] = {{"library_k", plan.question.started->library_k.value()},
                           {"strokes", plan.question.started->strokes},
                           {"chalks", plan.question.started->chalks}};
    json["doses"] = Json::array();
    for (const StepwiseDose& dose : plan.mix.doses)
        json["doses"].push_back({{"medium_g", in_grams(dose.medium)},
                                 {"scale", story.bench.scales.at(dose.scale).name},
                                 {"in_all_g", in_grams(dose.in_all)},
                        {"k", story.outlook.own_k(dose.library_k).value()},
                                 {"library_k", dose.library_k.value()},
                                 {"reached", dose.reached.value()},
                                 {"chalks", dose.chalks.value()},
                                 {"if_not", last_dose_json(story, dose.if_not)}});
    json["if_all_chalk"] = last_dose_json(story, plan.mix.if_all_chalk);
    return json_pieces::json_text(json);
}

} // namespace lakebound
