#include "lakebound/report/weigh_sheet.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/caution.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/judgement_page.hpp"
#include "lakebound/report/library_figure.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/order_of_work.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/report/sheet_pictures.hpp"
#include "lakebound/report/warning_words.hpp"
#include "page_builder.hpp"
#include "remains_facts.hpp"
#include "soft_phase_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;
using page::Place;
using page::Shown;

/// "6.0 g of Weld lake and Chalk".
std::string pigment_text(const BatchRequest& request, const Batch& batch) {
    std::vector<std::string> names;
    for (const auto& part : request.recipe.pigments)
        names.push_back(short_name(part.pigment.name));
    return fmt::format("{} of {}", total_text(batch.pigment, request.bench), name_list(names));
}

std::vector<Caution> cautions_of(const BatchSubject& subject) {
    const auto materials =
        materials_of(subject.request.recipe, subject.answer.batch ? &subject.answer.batch->sheet : nullptr);
    return cautions(materials, subject.request.recipe.family);
}

std::string vessel_name(const BatchSubject& subject) {
    const auto* count = std::get_if<VesselCount>(&subject.request.amount);
    return count != nullptr ? count->vessel.name : "vessel";
}

std::string amount_wanted(const BatchSubject& subject, const Shortfall& shortfall) {
    if (shortfall.vessels_wanted) return counted_name(*shortfall.vessels_wanted, vessel_name(subject));
    return total_text(shortfall.pigment_wanted, subject.request.bench) + " of pigment";
}

void show_shortfall(PageBuilder& page, const BatchSubject& subject) {
    const auto& shortfall = *subject.answer.shortfall;
    const auto& bench = subject.request.bench;
    const auto name = short_name(name_of(shortfall.id, subject.request));
    const auto wanted = amount_wanted(subject, shortfall);
    page.section("Not enough").heading_shown = false;
    page.paragraph(fmt::format("NOT ENOUGH: {}", name), page::Tone::bad);
    page.paragraph(fmt::format("You asked for {}. That takes {} of {}; there is {} to use.", wanted,
                               total_text(shortfall.needed, bench), name,
                               total_text(shortfall.available, bench)));
    if (!subject.answer.batch)
        page.paragraph("Nothing can be made of that.");
    else if (shortfall.vessels_possible && *shortfall.vessels_possible > 0)
        page.paragraph(fmt::format("The most that fits is {}. The sheet below is for that.",
                                   counted_name(*shortfall.vessels_possible, vessel_name(subject))));
    else
        page.paragraph(fmt::format("The most that fits is {} of pigment. The sheet below is for that.",
                                   total_text(shortfall.pigment_possible, bench)));
}

/// What the sheet is for: "6.0 g of Weld lake, to fill 5 half pans".
std::string what_it_is_for(const BatchSubject& subject) {
    const auto& batch = *subject.answer.batch;
    auto what = pigment_text(subject.request, batch);
    if (batch.filling && batch.filling->vessels > 0)
        what += ", to fill " + counted_name(batch.filling->vessels, batch.filling->vessel.name);
    return what;
}

page::Title title_of(const BatchSubject& subject) {
    page::Title title{.kind = "Weigh sheet", .name = subject.request.recipe.name};
    if (subject.answer.batch && !subject.answer.shortfall) title.lead = {what_it_is_for(subject)};
    if (!subject.bench_assumed) title.slip.push_back({"Bench", subject.request.bench.name});
    if (!subject.jar_name.empty()) title.slip.push_back({"Jar", subject.jar_name});
    title.slip.push_back({"Worked by", {}, true});
    return title;
}

/// What to put on and put out before hands begin: those cautions that are about these materials.
void show_guard(PageBuilder& page, const BatchSubject& subject) {
    std::vector<std::string> subjects;
    for (const auto& caution : cautions_of(subject))
        if (!caution.materials.empty()) subjects.push_back(name_in_sentence(caution.subject));
    if (subjects.empty()) return;
    page.add(page::Block(page::Guard{page::strong("Before you begin") + ", read of " + name_list(subjects) +
                                     " under " + page::emphasis("Take care") + "."},
                         Shown::html_only));
}

page::TickLine tick_line(const Weighing& weighing, const Bench& bench) {
    page::TickLine line{.amount = is_left_out(weighing) ? "none" : amount_text(weighing, bench),
                        .name = what_text(weighing),
                        .instrument = weighing.drops ? "dropper" : bench.scales.at(weighing.scale).name,
                        .alternative = syringe_text(weighing, bench)};
    for (const auto& remark : weighing_remarks(weighing, bench))
        line.notes.emplace_back(remark);
    return line;
}

void show_weighings(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    const auto& bench = subject.request.bench;
    page.section("Weigh");
    auto slab = batch.sheet.slab;
    std::stable_sort(slab.begin(), slab.end(), [](const Weighing& a, const Weighing& b) {
        return working_order(a.part) < working_order(b.part);
    });
    page::TickList onto_slab{.caption = "What to weigh"};
    for (const auto& weighing : slab)
        onto_slab.lines.push_back(tick_line(weighing, bench));
    page.add(std::move(onto_slab));
    if (batch.sheet.medium.size() < 2) return;
    page.section("Or mix just this much medium fresh", Place::right);
    page::TickList parts{.caption = "What to weigh for the medium", .compact = true};
    for (const auto& weighing : batch.sheet.medium)
        parts.lines.push_back(tick_line(weighing, bench));
    if (batch.sheet.least_medium)
        parts.notes.push_back(
            fmt::format("Some of that is little for your bench. Rather mix {} or more, in the same shares, "
                        "and use {} of it.",
                        mass_text(*batch.sheet.least_medium), mass_text(batch.medium)));
    if (!subject.request.recipe.medium.shelf_life.empty())
        parts.notes.push_back("It keeps: " + subject.request.recipe.medium.shelf_life + ".");
    page.add(std::move(parts));
}

void show_order(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    page.section("Order of work", Place::left);
    page::Steps steps;
    for (const auto& step : order_of_work(subject.request, batch))
        steps.steps.emplace_back(step);
    if (!subject.request.recipe.note.empty()) steps.asides = {"Of the recipe: " + subject.request.recipe.note};
    page.add(std::move(steps));
}

/// For paper: the vessel pour by pour, and room for the swatch.
void show_paper_only(PageBuilder& page, const Batch& batch) {
    if (batch.filling)
        if (auto picture = pour_picture(*batch.filling)) {
            auto& section = page.section(fmt::format("One {}, pour by pour", batch.filling->vessel.name), Place::right);
            section.shown = Shown::html_only;
            section.keep_together = true;
            page.add(std::move(*picture));
        }
    page.section("Swatch").shown = Shown::html_only;
    page.add(page::Swatches{{"thin", "full", "rubbed with a tissue", "what I saw"}});
}

void show_result(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    const auto& bench = subject.request.bench;
    page.section("What comes out", Place::left).new_side = true;
    if (batch.filling && batch.filling->vessels > 0) {
        const auto& filling = *batch.filling;
        page.fact("Fills",
                 fmt::format("{}, {} full{}", counted_name(filling.vessels, filling.vessel.name),
                             percent_text(filling.vessel.fill.value()), filling.pours ? " when dry" : ""));
        page.fact("In each",
                 fmt::format("{} of wet paint with {} of pigment", volume_text(filling.wet_per_vessel),
                             mass_text(filling.pigment_per_vessel)));
        if (filling.pours) {
            const auto& pours = *filling.pours;
            page.fact("Pours",
                     pours.brim ? fmt::format("{} to the brim, or {} of a third", *pours.brim, pours.thirds)
                                : fmt::format("{} of a third", pours.thirds));
        }
        if (filling.leaves_some())
            page.fact("Left over", volume_text(filling.wet_left_over) + " of wet paint");
    }
    auto paint = fmt::format("{}, {} wet", total_text(batch.paint, bench), volume_text(batch.volumes.wet));
    if (batch.volumes.shrinks())
        paint += fmt::format("; dries to {}, {} less", volume_text(batch.volumes.cake),
                             percent_text(batch.volumes.shrinkage.value()));
    if (batch.volumes.holds_water())
        paint += fmt::format(". {} of that is water held in the room's air, which PVC leaves out",
                             volume_text(batch.volumes.held_water));
    page.fact("Paint", paint);
    page.fact("Lost",
             fmt::format("{} of the pigment ({}), to slab and muller", mass_text(batch.loss),
                         percent_text(batch.loss_share.value())));
    if (batch.left_in_jar) page.fact("In the jar", total_text(*batch.left_in_jar, bench) + " is left");
    if (batch.limiting && batch.limiting->factor >= 1.0 && !subject.request.stocks.empty()) {
        const auto times = plain_text(batch.limiting->factor);
        page.fact("Stocks", fmt::format("enough for {} such {}; {} runs out first", times, times == "1" ? "batch" : "batches",
                                        name_in_sentence(name_of(batch.limiting->id, subject.request))));
    }
    if (batch.watercolour)
        page.fact("When dry",
                 fmt::format("{} in air of {} humidity (soft share {}, an estimate)",
                             soft_phase_words(batch.watercolour->soft_phase),
                             percent_text(bench.humidity.value()),
                             percent_text(batch.watercolour->soft_share.value())));
    if (batch.oil)
        page.fact("Oil",
                 fmt::format("{} per 100 g of pigment. Oil shrinks as it cures: k {} to {} then",
                             mass_text(grams(batch.oil->oil_per_pigment.value() * 100.0)),
                             sufficiency_text(batch.oil->cured_high.k),
                             sufficiency_text(batch.oil->cured_low.k)));
    if (batch.tempera)
        page.fact("Keeps",
                 fmt::format("the medium {} hours in the cold, the tempered paint this session",
                             significant_text(in_hours(batch.tempera->medium_keeps), 2)));
}

void show_jar(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    const auto shares = jar_shares(subject.request, batch);
    if (!shares) return;
    auto& section = page.section(fmt::format("The jar, {}", total_text(shares->in_jar, subject.request.bench)), Place::left);
    section.shown = Shown::html_only;
    section.keep_together = true;
    page.add(jar_picture(*shares, batch, subject.request.bench));
}

void show_figures(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    page.section("The figures", Place::left);
    page::Table table{.caption = "k, PVC and CPVC of this batch",
                      .columns = {{.align = Align::left, .width = 44},
                                  {.head = "as weighed", .align = Align::right, .width = 15},
                                  {.head = "as computed", .align = Align::right, .width = 14}}};
    const auto row = [&table](const char* sign, const char* what, const std::string& weighed,
                              const std::string& computed) {
        table.rows.push_back({.cells = {{sign, what}, weighed, computed}});
    };
    const auto& weighed = batch.sheet.film;
    const auto& exact = batch.film;
    const BatchChance unknown;
    const auto& u = subject.chance ? *subject.chance : unknown;
    row("k", "binder over what just fills", ratio_value_text(weighed.k.value(), u.k_uncertainty),
        sufficiency_text(exact.k));
    row("PVC", "pigment in the dry film", percent_value_text(weighed.pvc.value(), u.pvc_uncertainty),
        percent_text(exact.pvc.value()));
    row("CPVC", "PVC at which binder just fills", percent_value_text(weighed.cpvc.value(), u.cpvc_uncertainty),
        percent_text(exact.cpvc.value()));
    row("Lambda", "reduced PVC: PVC over CPVC",
        ratio_value_text(weighed.reduced_pvc.value(), u.reduced_pvc_uncertainty),
        ratio_text(exact.reduced_pvc.value()));
    page.add(std::move(table));
    if (subject.chance)
        page.note("± is one standard uncertainty: two times in three the truth lies within.");
}

void show_remains(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    if (!batch.remains) return;
    page.section("What its bath left in the jar", Place::left);
    layout::add_remains(page, subject.request.jar.value().remains, *batch.remains);
}

/// For paper and screen: how much medium holds, and where the doubt lies.
void show_charts(PageBuilder& page, const BatchSubject& subject) {
    if (!subject.judgement || !subject.chance) return;
    for (auto [heading, picture] : {std::pair{"How much medium holds", medium_picture(subject)},
                                    std::pair{"Where the doubt lies", doubt_picture(subject)}}) {
        auto& section = page.section(heading, Place::right);
        section.shown = Shown::html_only;
        section.keep_together = true;
        page.add(std::move(picture));
    }
}

/// Beside an additive left out, and beside the parts of a medium mixed fresh, it is said already.
bool said_beside_weighing(const BatchWarning& warning, const Batch& batch) {
    if (warning.kind == WarningKind::medium_part_below_minimum) return true;
    if (warning.kind != WarningKind::below_scale_minimum) return false;
    const auto& slab = batch.sheet.slab;
    const auto line = std::find_if(slab.begin(), slab.end(), [&warning](const Weighing& weighing) {
        return weighing.id == warning.subject && weighing.below_minimum;
    });
    return line != slab.end() && is_left_out(*line);
}

void show_warnings(PageBuilder& page, const BatchSubject& subject, const Batch& batch) {
    std::vector<std::string> lines;
    for (const auto& warning : batch.warnings)
        if (!said_beside_weighing(warning, batch)) lines.push_back(warning_text(warning, subject.request));
    if (lines.empty()) return;
    page.section("Look out", Place::right);
    for (const auto& line : lines)
        page.item(line, '!');
}

void show_sources(PageBuilder& page, const BatchSubject& subject, const Batch&) {
    page.section("Not measured, taken from the library", Place::right);
    for (const auto& line : library_figure_lines(subject.request))
        page.item(line);
    if (subject.bench_assumed)
        page.item(fmt::format("No bench file was found: a kitchen scale of {} and the usual loss on the slab were assumed.",
                              quantity_text(subject.request.bench.scales.front().step, "g")));
}

void show_next(PageBuilder& page, const BatchSubject& subject) {
    if (!subject.next || !subject.chance) return;
    page.section("Measure next", Place::right);
    page.paragraph(largest_doubt_text(subject));
    page.paragraph(next_measurement_text(subject));
}

/// What the record teaches of this paint, in place of what single tests would bring.
void show_record(PageBuilder& page, const BatchSubject& subject, const SheetRecord& record) {
    page.section("What your record says", Place::right);
    const auto worth = worth_lines(record.outlook);
    if (worth.size() > 1)
        page.paragraph(fmt::format("Aimed where it is likeliest, the window was met {} by the library alone; with {}: {}.",
                                   percent_text(worth.front().chance.value()), worth.back().what,
                                   percent_text(worth.back().chance.value())));
    const auto& coaching = record.outlook.coaching;
    page.paragraph(coach_head(coaching) + ". " + coach_text(record.outlook, record.habits, subject.request.recipe.family.process));
    for (const auto& line : outlook_warnings(record.outlook))
        page.item(line, '!');
    if (record.kept.empty())
        page.paragraph("Once it is made, add --keep, so that the jar remembers it.");
    else
        page.paragraph(fmt::format("Kept in {}. When it has been used: lakebound-jar {} --went holds.", record.kept, record.jar_id));
    if (!record.remark.empty()) page.item(record.remark, '!');
}

void show_cautions(PageBuilder& page, const BatchSubject& subject) {
    page.section("Take care");
    page::Cautions block;
    for (const auto& caution : cautions_of(subject)) {
        std::vector<std::string> names;
        for (const auto& name : caution.materials)
            names.push_back(names.empty() ? layout::capitalised(short_name(name)) : name_in_sentence(name));
        block.cautions.push_back({caution.subject, name_list(names), caution.text});
    }
    page.add(std::move(block));
}

} // namespace

page::Page weigh_sheet_page(const BatchSubject& subject, const SheetRecord* record) {
    PageBuilder page(title_of(subject));
    if (subject.answer.shortfall) show_shortfall(page, subject);
    if (!subject.answer.batch) return std::move(page).page();
    const auto& batch = *subject.answer.batch;
    if (subject.answer.shortfall) page.add(page::Lead{what_it_is_for(subject)});
    page.section("Verdict").heading_shown = false;
    page.add(verdict_block(subject));
    show_guard(page, subject);
    show_weighings(page, subject, batch);
    show_order(page, subject, batch);
    show_paper_only(page, batch);
    show_result(page, subject, batch);
    show_jar(page, subject, batch);
    show_figures(page, subject, batch);
    show_remains(page, subject, batch);
    show_charts(page, subject);
    show_warnings(page, subject, batch);
    show_sources(page, subject, batch);
    if (record) show_record(page, subject, *record);
    else show_next(page, subject);
    show_cautions(page, subject);
    return std::move(page).page();
}

std::string weigh_sheet_text(const BatchSubject& subject, const TextOptions& options) {
    return page::write_text(weigh_sheet_page(subject), options);
}

} // namespace lakebound
