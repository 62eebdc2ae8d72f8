#include "lakebound/report/weigh_sheet.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/caution.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/library_figure.hpp"
#include "lakebound/report/name.hpp"
#include "lakebound/report/number.hpp"
#include "lakebound/report/objection_words.hpp"
#include "lakebound/report/order_of_work.hpp"
#include "lakebound/report/verdict_words.hpp"
#include "lakebound/report/warning_words.hpp"
#include "judgement_tone.hpp"
#include "soft_phase_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::Page;
using layout::Tone;

constexpr std::size_t label_width = 13;

/// "label    text", the text wrapped beside the label.
void labelled(Page& page, const std::string& label, const std::string& text) {
    page.item(layout::padded(label, label_width), text);
}

/// "6.0 g of Weld lake and Chalk".
std::string pigment_text(const BatchRequest& request, const Batch& batch) {
    std::vector<std::string> names;
    for (const auto& part : request.recipe.pigments)
        names.push_back(short_name(part.pigment.name));
    return fmt::format("{} of {}", total_text(batch.pigment, request.bench), layout::joined(names));
}

std::string vessel_name(const BatchSubject& subject) {
    const auto* count = std::get_if<VesselCount>(&subject.request.amount);
    return count != nullptr ? count->vessel.name : "vessel";
}

std::string amount_wanted(const BatchSubject& subject, const Shortfall& shortfall) {
    if (shortfall.vessels_wanted) return counted_name(*shortfall.vessels_wanted, vessel_name(subject));
    return total_text(shortfall.pigment_wanted, subject.request.bench) + " of pigment";
}

void show_shortfall(Page& page, const BatchSubject& subject) {
    const auto& shortfall = *subject.answer.shortfall;
    const auto& bench = subject.request.bench;
    const auto name = short_name(name_of(shortfall.id, subject.request));
    const auto wanted = amount_wanted(subject, shortfall);
    page.blank();
    page.paragraph(fmt::format("NOT ENOUGH: {}", name), 2, Tone::bad);
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
    page.blank();
}

/// What the sheet is for, under the title.
void show_amount(Page& page, const BatchSubject& subject) {
    if (subject.answer.batch) {
        const auto& batch = *subject.answer.batch;
        auto what = pigment_text(subject.request, batch);
        if (batch.filling && batch.filling->vessels > 0)
            what += ", to fill " + counted_name(batch.filling->vessels, batch.filling->vessel.name);
        page.paragraph(what, 14);
    }
    page.blank();
}

void show_verdict(Page& page, const BatchSubject& subject) {
    const auto& family = subject.request.recipe.family;
    const auto& judgement = *subject.judgement;
    const auto& window = family.window;
    page.line(fmt::format("  {}   k {}", layout::capitals(verdict_head(judgement, family.process)),
                          sufficiency_text(judgement.k)),
              layout::tone_of(judgement));
    for (const auto& objection : judgement.objections)
        page.paragraph(objection_text(objection, subject.request, *subject.answer.batch));
    if (judgement.objections.empty()) page.paragraph(verdict_words(judgement.verdict, family.process).detail);
    page.paragraph(
        fmt::format("k is binder over what just fills the pigment. {} holds from {} to {} (provisional).",
                    family.name, sufficiency_text(window.green_low), sufficiency_text(window.green_high)));
    page.paragraph(window_chance_text(judgement, window));
}

void show_weighing(Page& page, const Weighing& weighing, const Bench& bench) {
    constexpr std::size_t name_width = 38, scale_width = 22, margin = 17;
    const auto what = layout::wrapped(what_text(weighing), name_width);
    const auto where = layout::wrapped(bench.scales.at(weighing.scale).name, scale_width);
    for (std::size_t i = 0; i < what.size() || i < where.size(); ++i) {
        std::string row =
            i == 0
                ? "  [ ] " +
                      layout::right_aligned(is_left_out(weighing) ? "none" : amount_text(weighing, bench), 9) +
                      "  "
                : std::string(margin, ' ');
        row += layout::padded(i < what.size() ? what[i] : "", name_width);
        if (i < where.size()) row += "  " + where[i];
        page.line(row);
    }
    if (const auto syringe = syringe_text(weighing, bench); !syringe.empty())
        page.paragraph("or " + syringe, margin);
    for (const auto& remark : weighing_remarks(weighing, bench))
        page.paragraph(remark, margin);
}

void show_weighings(Page& page, const BatchSubject& subject, const Batch& batch) {
    const auto& bench = subject.request.bench;
    page.heading("Weigh");
    auto slab = batch.sheet.slab;
    std::stable_sort(slab.begin(), slab.end(), [](const Weighing& a, const Weighing& b) {
        return working_order(a.part) < working_order(b.part);
    });
    for (const auto& weighing : slab)
        show_weighing(page, weighing, bench);
    if (batch.sheet.medium.size() < 2) return;
    page.heading("Or mix just this much medium fresh");
    for (const auto& weighing : batch.sheet.medium)
        show_weighing(page, weighing, bench);
    if (batch.sheet.least_medium)
        page.paragraph(
            fmt::format("Some of that is little for your scale. Rather mix {} or more, in the same shares, "
                        "and use {} of it.",
                        mass_text(*batch.sheet.least_medium), mass_text(batch.medium)),
            17);
    if (!subject.request.recipe.medium.shelf_life.empty())
        page.paragraph("It keeps: " + subject.request.recipe.medium.shelf_life + ".", 17);
}

void show_order(Page& page, const BatchSubject& subject, const Batch& batch) {
    page.heading("Order of work");
    int number = 0;
    for (const auto& step : order_of_work(subject.request, batch))
        page.item(fmt::format("{:>2}.", ++number), step);
    if (!subject.request.recipe.note.empty())
        page.paragraph("Of the recipe: " + subject.request.recipe.note, 6);
}

void show_result(Page& page, const BatchSubject& subject, const Batch& batch) {
    const auto& bench = subject.request.bench;
    page.heading("What comes out");
    if (batch.filling && batch.filling->vessels > 0) {
        const auto& filling = *batch.filling;
        labelled(page, "Fills",
                 fmt::format("{}, {} full{}", counted_name(filling.vessels, filling.vessel.name),
                             percent_text(filling.vessel.fill.value()), filling.pours ? " when dry" : ""));
        labelled(page, "In each",
                 fmt::format("{} of wet paint with {} of pigment", volume_text(filling.wet_per_vessel),
                             mass_text(filling.pigment_per_vessel)));
        if (filling.pours) {
            const auto& pours = *filling.pours;
            labelled(page, "Pours",
                     pours.brim ? fmt::format("{} to the brim, or {} of a third", *pours.brim, pours.thirds)
                                : fmt::format("{} of a third", pours.thirds));
        }
        if (in_millilitres(filling.wet_left_over) >= 0.05)
            labelled(page, "Left over", volume_text(filling.wet_left_over) + " of wet paint");
    }
    auto paint = fmt::format("{}, {} wet", total_text(batch.paint, bench), volume_text(batch.volumes.wet));
    if (batch.volumes.shrinkage.value() > 0.005)
        paint += fmt::format("; dries to {}, {} less", volume_text(batch.volumes.cake),
                             percent_text(batch.volumes.shrinkage.value()));
    if (in_millilitres(batch.volumes.held_water) >= 0.05)
        paint += fmt::format(". {} of that is water held in the room's air, which PVC leaves out",
                             volume_text(batch.volumes.held_water));
    labelled(page, "Paint", paint);
    labelled(page, "Lost",
             fmt::format("{} of the pigment ({}), to slab and muller", mass_text(batch.loss),
                         percent_text(batch.loss_share.value())));
    if (batch.left_in_jar) labelled(page, "In the jar", total_text(*batch.left_in_jar, bench) + " is left");
    if (batch.limiting && batch.limiting->factor >= 1.0 && !subject.request.stocks.empty())
        labelled(page, "Stocks",
                 fmt::format("enough for {} such batches; {} runs out first",
                             plain_text(batch.limiting->factor),
                             name_in_sentence(name_of(batch.limiting->id, subject.request))));
    if (batch.watercolour)
        labelled(page, "When dry",
                 fmt::format("{} in air of {} humidity (soft share {}, an estimate)",
                             soft_phase_words(batch.watercolour->soft_phase),
                             percent_text(bench.humidity.value()),
                             percent_text(batch.watercolour->soft_share.value())));
    if (batch.oil)
        labelled(page, "Oil",
                 fmt::format("{} per 100 g of pigment. Oil shrinks as it cures: k {} to {} then",
                             mass_text(grams(batch.oil->oil_per_pigment.value() * 100.0)),
                             sufficiency_text(batch.oil->cured_high.k),
                             sufficiency_text(batch.oil->cured_low.k)));
    if (batch.tempera)
        labelled(page, "Keeps",
                 fmt::format("the medium {} hours in the cold, the tempered paint this session",
                             significant_text(in_hours(batch.tempera->medium_keeps), 2)));
}

void show_figures(Page& page, const BatchSubject& subject, const Batch& batch) {
    page.heading("The figures");
    const auto row = [&](const char* label, const std::string& weighed, const std::string& computed) {
        page.line("  " + layout::padded(label, 44) + layout::right_aligned(weighed, 15) +
                  layout::right_aligned(computed, 14));
    };
    const auto& weighed = batch.sheet.film;
    const auto& exact = batch.film;
    const BatchChance unknown;
    const auto& u = subject.chance ? *subject.chance : unknown;
    row("", "as weighed", "as computed");
    row("k       binder over what just fills", ratio_value_text(weighed.k.value(), u.k_uncertainty),
        sufficiency_text(exact.k));
    row("PVC     pigment in the dry film", percent_value_text(weighed.pvc.value(), u.pvc_uncertainty),
        percent_text(exact.pvc.value()));
    row("CPVC    PVC at which binder just fills", percent_value_text(weighed.cpvc.value(), u.cpvc_uncertainty),
        percent_text(exact.cpvc.value()));
    row("Lambda  reduced PVC: PVC over CPVC",
        ratio_value_text(weighed.reduced_pvc.value(), u.reduced_pvc_uncertainty),
        ratio_text(exact.reduced_pvc.value()));
    if (subject.chance)
        page.paragraph("± is one standard uncertainty: two times in three the truth lies within.");
}

/// Beside an additive left out, and beside the parts of a medium mixed fresh, it is said already.
bool said_beside_weighing(const BatchWarning& warning, const Batch& batch) {
    if (warning.kind != WarningKind::below_scale_minimum) return false;
    const auto& slab = batch.sheet.slab;
    const auto line = std::find_if(slab.begin(), slab.end(), [&warning](const Weighing& weighing) {
        return weighing.id == warning.subject && weighing.below_minimum;
    });
    return line == slab.end() ? batch.sheet.least_medium.has_value() : is_left_out(*line);
}

void show_warnings(Page& page, const BatchSubject& subject, const Batch& batch) {
    std::vector<std::string> lines;
    for (const auto& warning : batch.warnings)
        if (!said_beside_weighing(warning, batch)) lines.push_back(warning_text(warning, subject.request));
    if (lines.empty()) return;
    page.heading("Look out");
    for (const auto& line : lines)
        page.item("!", line);
}

void show_sources(Page& page, const BatchSubject& subject, const Batch&) {
    page.heading("Not measured, taken from the library");
    for (const auto& line : library_figure_lines(subject.request))
        page.item("-", line);
    if (subject.bench_assumed)
        page.item(
            "-",
            "No bench file was found: a kitchen scale of 0.1 g and the usual loss on the slab were assumed.");
}

void show_next(Page& page, const BatchSubject& subject) {
    if (!subject.next || !subject.chance) return;
    page.heading("Measure next");
    page.paragraph(largest_doubt_text(subject));
    page.paragraph(next_measurement_text(subject));
}

void show_cautions(Page& page, const BatchSubject& subject) {
    page.heading("Take care");
    const auto materials =
        materials_of(subject.request.recipe, subject.answer.batch ? &subject.answer.batch->sheet : nullptr);
    for (const auto& caution : cautions(materials, subject.request.recipe.family.process)) {
        std::vector<std::string> names;
        for (const auto& name : caution.materials)
            names.push_back(names.empty() ? layout::capitalised(short_name(name)) : name_in_sentence(name));
        labelled(page, caution.subject,
                 names.empty() ? caution.text : layout::joined(names) + ". " + caution.text);
    }
}

} // namespace

std::string weigh_sheet_text(const BatchSubject& subject, const TextOptions& options) {
    Page page(options.colour);
    page.line("WEIGH SHEET   " + subject.request.recipe.name, Tone::heading);
    if (subject.answer.shortfall) show_shortfall(page, subject);
    show_amount(page, subject);
    if (!subject.answer.batch) return page.text();
    const auto& batch = *subject.answer.batch;
    show_verdict(page, subject);
    show_weighings(page, subject, batch);
    show_order(page, subject, batch);
    show_result(page, subject, batch);
    show_figures(page, subject, batch);
    show_warnings(page, subject, batch);
    show_sources(page, subject, batch);
    show_next(page, subject);
    show_cautions(page, subject);
    return page.text();
}

} // namespace lakebound
