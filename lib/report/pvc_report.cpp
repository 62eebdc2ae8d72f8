#include "lakebound/report/pvc_report.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/library_figure.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/paint/layers.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/warning_words.hpp"
#include "lakebound/report/judgement_page.hpp"
#include "lakebound/report/record_words.hpp"
#include "page_builder.hpp"
#include "remains_facts.hpp"
#include "pvc_rescue.hpp"
#include "soft_phase_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;
using page::Place;

void show_verdict(PageBuilder& page, const PvcSubject& subject) {
    page.section("Verdict").heading_shown = false;
    if (!subject.base.judgement)
        page.add(page::Verdict{.head = "No verdict yet", .tone = page::Tone::care});
    else
        page.add(verdict_block(subject.base));
}

/// "3.2 mL (12.2 g of gum water) more than just fills the pigment".
std::string balance_text(const PvcSubject& subject) {
    const auto& medium = subject.base.request.recipe.medium;
    const auto spare = *subject.check.spare_binder;
    if (!(std::abs(spare.value()) > 0.0)) return "just what fills the pigment, nothing short and nothing spare";
    const bool short_of = spare.value() < 0.0;
    auto text = volume_text(short_of ? -spare : spare);
    if (subject.spare_medium)
        text +=
            fmt::format(" (as {} of {})", mass_text(short_of ? -*subject.spare_medium : *subject.spare_medium),
                        name_in_sentence(medium.name));
    return text + (short_of ? " short of what just fills the pigment" : " over what just fills the pigment");
}

void show_figures(PageBuilder& page, const PvcSubject& subject) {
    page.section("The figures", Place::left);
    page::Table table{.caption = "k, PVC and CPVC of this paint",
                      .columns = {{.head = "", .align = Align::left, .width = 44}, {.align = Align::right, .width = 15}}};
    const auto row = [&table](const char* sign, const char* what, const std::string& value) {
        table.rows.push_back({.cells = {{sign, what}, value}});
    };
    const auto& check = subject.check;
    const BatchChance unknown;
    const auto& u = subject.base.chance ? *subject.base.chance : unknown;
    if (check.k) row("k", "binder over what just fills", ratio_value_text(check.k->value(), u.k_uncertainty));
    if (check.pvc) row("PVC", "pigment in the dry film", percent_value_text(check.pvc->value(), u.pvc_uncertainty));
    if (check.cpvc)
        row("CPVC", "PVC at which binder just fills", percent_value_text(check.cpvc->value(), u.cpvc_uncertainty));
    if (check.reduced_pvc)
        row("Lambda", "reduced PVC: PVC over CPVC",
            ratio_value_text(check.reduced_pvc->value(), u.reduced_pvc_uncertainty));
    if (check.porosity)
        row("Air", "in the dry film",
            check.porosity->value() > 0.0 ? percent_text(check.porosity->value()) : std::string("none"));
    if (!table.rows.empty()) page.add(std::move(table));
    page.paragraph(fmt::format("Binder that stays: {}{}.", volume_text(check.dry_binder),
                               check.spare_binder ? "; that is " + balance_text(subject) : std::string()));
    if (subject.base.chance)
        page.note("± is one standard uncertainty: two times in three the truth lies within.");
}

void show_unanswered(PageBuilder& page, const PvcSubject& subject) {
    const auto sentences = unanswered_sentences(subject.check);
    if (sentences.empty()) return;
    page.section("Cannot say", Place::left);
    for (const auto& sentence : sentences)
        page.item(sentence);
}

void show_watercolour(PageBuilder& page, const PvcSubject& subject) {
    const auto& batch = subject.batch();
    const auto& extras = *batch.watercolour;
    const auto& bench = subject.base.request.bench;
    page.section("In the room", Place::left);
    auto text = fmt::format("In air of {} humidity the dry binder holds {} of water; {} of it is soft: {}.",
                            percent_text(bench.humidity.value()), volume_text(batch.volumes.held_water),
                            percent_text(extras.soft_share.value()), soft_phase_words(extras.soft_phase));
    if (subject.check.pvc)
        text += fmt::format(" With that water the PVC is {}.", percent_text(extras.pvc_in_room.value()));
    page.paragraph(text);
    const auto& guide = subject.family().plasticiser;
    if (extras.plasticiser_ratio && *extras.plasticiser_ratio < 0.005) // else it would read 0.00
        page.paragraph(fmt::format("No glycerol, honey or sugar to a gram of gum (guide: {} to {} g).",
                                   number_text(guide.least), number_text(guide.most)));
    else if (extras.plasticiser_ratio)
        page.paragraph(fmt::format("{} g of glycerol and sugars to a gram of dry gum (guide: {} to {}).",
                                   ratio_text(*extras.plasticiser_ratio), number_text(guide.least),
                                   number_text(guide.most)));
    const auto& soft = subject.family().soft_share;
    page.paragraph(fmt::format("Soft shares from {} to {} make neither brittle nor sticky pans (an estimate).",
                               significant_text(100.0 * soft.good_from.value(), 2),
                               percent_text(soft.good_to.value())));
}

void show_oil(PageBuilder& page, const PvcSubject& subject) {
    const auto& extras = *subject.batch().oil;
    page.section("As it cures", Place::left);
    const auto& loses = subject.family().cured_oil_loses;
    page.paragraph(fmt::format(
        "{} of binder to 100 g of pigment. Oil loses volume as it cures, {} % when refined and up to {} % when "
        "raw: the film ends at k {} to {}.",
        mass_text(grams(extras.oil_per_pigment.value() * 100.0)), significant_text(100.0 * loses.least.value(), 2),
        significant_text(100.0 * loses.most.value(), 2), sufficiency_text(extras.cured_high.k),
        sufficiency_text(extras.cured_low.k)));
    if (!subject.check.pvc) return;
    page.paragraph(fmt::format(
        "PVC goes from {} to between {} and {}, Lambda from {} to between {} and {}.",
        percent_text(subject.check.pvc->value()), percent_text(extras.cured_low.pvc.value()),
        percent_text(extras.cured_high.pvc.value()), ratio_text(subject.check.reduced_pvc->value()),
        ratio_text(extras.cured_low.reduced_pvc.value()), ratio_text(extras.cured_high.reduced_pvc.value())));
    page.paragraph(fmt::format("Oil by volume {}: order layers by this, lean to fat, never by weight.",
                               percent_text(oil_volume_fraction(*subject.check.pvc).value())));
}

void show_tempera(PageBuilder& page, const PvcSubject& subject) {
    const auto& e = subject.family().binder_index;
    page.section("Yolk as a binder", Place::left);
    page.paragraph(fmt::format(
        "Yolk binds as droplets, which reach about {} of the voids (binder index {}, {}). If it reached all, k "
        "would be {}.",
        percent_text(e.value().value()), value_text(e.value().value(), e.standard_uncertainty().value()),
        word_of(e.provenance().origin), sufficiency_text(sufficiency_if_all_reached(*subject.check.k, e.value()))));
    page.paragraph("Water in the tempera leaves again: it changes how it flows, not the PVC.");
}

void show_process(PageBuilder& page, const PvcSubject& subject) {
    if (!subject.check.k) return;
    const auto& batch = subject.batch();
    if (batch.watercolour) show_watercolour(page, subject);
    if (batch.oil && batch.oil->oil_per_pigment.value() > 0.0) show_oil(page, subject);
    if (batch.tempera) show_tempera(page, subject);
}

const char* validity_words(PackingValidity validity) {
    switch (validity) {
    case PackingValidity::holds:
        return "";
    case PackingValidity::near_equal:
        return ", and these sizes are too near each other to gain by";
    case PackingValidity::colloidal:
        return ", and below 1 um surface forces rule: the gain may not come";
    }
    return "";
}

void show_blend(PageBuilder& page, const PvcSubject& subject) {
    if (!subject.blend) return;
    const auto& blend = *subject.blend;
    const auto& question = subject.question;
    const auto& parts = question.blend_measured ? question.blend_of : question.request.recipe.pigments;
    page.section("The blend", Place::left);
    page::Table table{.caption = "Shares of the pigments",
                      .columns = {{.align = Align::left, .width = 44},
                                  {.head = "by weight", .align = Align::right, .width = 12},
                                  {.head = "by volume", .align = Align::right, .width = 12}}};
    for (std::size_t i = 0; i < parts.size(); ++i)
        table.rows.push_back({.cells = {short_name(parts[i].pigment.name), percent_text(parts[i].share.value()),
                                        percent_text(blend.volume_shares[i].value())}});
    page.add(std::move(table));
    if (blend.source == DemandSource::measured) {
        page.paragraph(
            fmt::format("The rub-out of the blend decides: CPVC {}. Reckoned from its parts it would be {}.",
                        percent_text(blend.cpvc.value()), percent_text(blend.additive_cpvc.value())));
        return;
    }
    page.paragraph(fmt::format("Demands add up: CPVC {}, binder demand {}. That errs towards more binder.",
                               percent_text(blend.additive_cpvc.value()),
                               specific_volume_text(blend.additive_demand)));
    if (!question.with_packing) return;
    if (!blend.possible_cpvc) {
        page.paragraph("What close packing might save is not known: it needs the grain size of every one. Give "
                       "them as --median-size \"ID: 15 um\".");
        return;
    }
    page.paragraph(fmt::format(
        "Fine grains in the gaps of coarse ones might bring the CPVC up to {} and save {} of the binder "
        "(linear packing model). It holds only for a blend dispersed to single grains{}; rub out the blend "
        "before you lean on it.",
        percent_text(blend.possible_cpvc->value()), percent_text(blend.possible_saving),
        validity_words(blend.validity.value_or(PackingValidity::holds))));
}

void show_doubt(PageBuilder& page, const PvcSubject& subject) {
    if (!subject.base.chance) return;
    const auto& chance = *subject.base.chance;
    const bool all = subject.check.reduced_pvc.has_value();
    page.section("Where the doubt lies", Place::right);
    page.drawn(doubt_picture(subject.base));
    page::Table table{.caption = "Shares of the doubt",
                      .columns = {{.align = Align::left, .width = 44}, {.head = "ln k", .align = Align::right, .width = 8}}};
    if (all) {
        table.columns.push_back({.head = "ln PVC", .align = Align::right, .width = 10});
        table.columns.push_back({.head = "ln Lambda", .align = Align::right, .width = 12});
    }
    const auto row = [&](const std::string& label, const std::string& k, const std::string& pvc,
                         const std::string& lambda) {
        page::Row added{.cells = {label, k}};
        if (all) added.cells.insert(added.cells.end(), {pvc, lambda});
        table.rows.push_back(std::move(added));
    };
    row("standard deviation", significant_text(chance.sigma, 2),
        significant_text(chance.ln_pvc.standard_uncertainty, 2),
        significant_text(chance.ln_reduced_pvc.standard_uncertainty, 2));
    const auto share = [](double x) { return std::abs(x) < 0.005 ? std::string("-") : percent_text(x); };
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < chance.kinds.size(); ++i)
        if (std::max({std::abs(chance.ln_k.lines[i].share), all ? std::abs(chance.ln_pvc.lines[i].share) : 0.0,
                      all ? std::abs(chance.ln_reduced_pvc.lines[i].share) : 0.0}) >= 0.005)
            order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&chance](std::size_t a, std::size_t b) {
        return chance.ln_k.lines[a].share > chance.ln_k.lines[b].share;
    });
    for (const auto i : order) {
        std::string label = chance_input_words(chance.kinds[i]);
        if (subject.base.request.recipe.pigments.size() > 1 && !chance.subjects[i].empty())
            label += ", " + name_in_sentence(name_of(chance.subjects[i], subject.base.request));
        row(label, share(chance.ln_k.lines[i].share), share(chance.ln_pvc.lines[i].share),
            share(chance.ln_reduced_pvc.lines[i].share));
    }
    page.add(std::move(table));
    if (all) page.note("Density moves PVC and CPVC together, so it says next to nothing about binding.");
}

void show_next(PageBuilder& page, const PvcSubject& subject) {
    if (!subject.base.next) return;
    const auto& next = *subject.base.next;
    page.section("Measure next", Place::left);
    page.paragraph(next_measurement_text(subject.base));
    if (next.gains.empty() || next.advice == MeasurementAdvice::change_the_recipe) return;
    page::Table table{.caption = "What each test would tell",
                      .columns = {{.align = Align::left, .width = 44},
                                  {.head = "minutes", .align = Align::right, .width = 8},
                                  {.head = "uses", .align = Align::right, .width = 10},
                                  {.head = "in window", .align = Align::right, .width = 12}}};
    table.rows.push_back({.cells = {"as it stands", "", "", percent_text(next.now.value())}});
    table.rows.push_back({.cells = {fmt::format("aimed at k {}", sufficiency_text(next.aim)), "", "",
                                    percent_text(next.aimed_anew.value())}});
    for (const auto& gain : next.gains) {
        const auto& test = subject.base.tests.at(gain.test);
        table.rows.push_back({.cells = {test.name, plain_text(in_minutes(test.duration)),
                                        test.pigment.value() > 0.0 ? mass_text(test.pigment) : "-",
                                        percent_text(gain.after.value())}});
    }
    page.add(std::move(table));
}

void show_sources(PageBuilder& page, const PvcSubject& subject) {
    auto lines = subject.question.assumed;
    for (auto& line : library_figure_lines(subject.base.request))
        lines.push_back(std::move(line));
    if (subject.question.oil_absorption_known)
        for (auto& line : taken_as_read_lines(subject.base.request))
            lines.push_back(std::move(line));
    if (lines.empty()) return;
    page.section("Taken for granted", Place::left);
    for (const auto& line : lines)
        page.item(line);
    page.paragraph("An estimate, no certificate: test a swatch first.");
}

const char* answer_words(QuickAnswer answer) {
    switch (answer) {
    case QuickAnswer::k:
        return "the figure k"; // a symbol is never a capital at the head of a sentence
    case QuickAnswer::verdict:
        return "the verdict";
    case QuickAnswer::binder_balance:
        return "binder short or spare";
    case QuickAnswer::pvc:
        return "PVC";
    case QuickAnswer::cpvc:
        return "CPVC";
    case QuickAnswer::reduced_pvc:
        return "reduced PVC";
    case QuickAnswer::porosity:
        return "air in the film";
    }
    return "";
}

} // namespace

std::vector<std::string> unanswered_sentences(const QuickCheck& check) {
    const auto waiting = [&check](QuickNeed need) {
        std::vector<std::string> names;
        for (const auto& each : check.unanswered)
            if (each.needs == need) names.emplace_back(answer_words(each.answer));
        return names;
    };
    std::vector<std::string> sentences;
    if (const auto names = waiting(QuickNeed::oil_absorption); !names.empty())
        sentences.push_back(
            fmt::format("{} {} the oil absorption of the pigment: a rub-out of ten minutes gives it "
                        "(--oil-absorption \"68 g/100g\").",
                        layout::capitalised(name_list(names)), names.size() == 1 ? "needs" : "need"));
    if (const auto names = waiting(QuickNeed::pigment_density); !names.empty())
        sentences.push_back(
            fmt::format("{} {} the density of the pigment (--density \"1.88 g/cm3\").{}",
                        layout::capitalised(name_list(names)), names.size() == 1 ? "needs" : "need",
                        check.k ? " k and the verdict do not: density cancels out of them." : ""));
    return sentences;
}

void show_remains(PageBuilder& page, const PvcSubject& subject) {
    const Batch& batch = subject.batch();
    if (!batch.remains) return;
    page.section("What its bath left in the jar", Place::left);
    layout::add_remains(page, subject.base.request.jar.value().remains, *batch.remains);
    for (const auto& warning : batch.warnings)
        if (is_of_remains(warning.kind)) page.item(warning_text(warning, subject.base.request), '!');
}

/// What the record teaches, in place of what single tests would bring.
void show_record(PageBuilder& page, const JarOutlook& outlook) {
    page.section("What your record says", Place::left);
    for (const WorthLine& line : worth_lines(outlook))
        page.fact(percent_text(line.chance.value()), line.what);
    for (const auto& line : outlook_warnings(outlook))
        page.item(line, '!');
}

page::Page pvc_page(const PvcSubject& subject, const JarOutlook* outlook) {
    PageBuilder page({.kind = "PVC limits", .name = subject.question.title, .form = page::TitleForm::below});
    show_verdict(page, subject);
    show_figures(page, subject);
    if (subject.base.judgement && subject.base.chance) {
        auto& section = page.section("How much medium holds", Place::right);
        section.shown = page::Shown::html_only;
        section.keep_together = true;
        page.drawn(medium_picture(subject.base));
    }
    show_unanswered(page, subject);
    layout::add_rescue(page, subject);
    show_process(page, subject);
    show_blend(page, subject);
    show_remains(page, subject);
    show_doubt(page, subject);
    show_next(page, subject);
    if (outlook) show_record(page, *outlook);
    show_sources(page, subject);
    return std::move(page).page();
}

std::string pvc_report_text(const PvcSubject& subject, const TextOptions& options) {
    return page::write_text(pvc_page(subject), options);
}

} // namespace lakebound
