#include "lakebound/report/explain.hpp"

#include <cmath>

#include <fmt/format.h>

#include "lakebound/paint/working.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/warning_words.hpp"
#include "page_builder.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;

const char* topic_words(WorkingTopic topic) {
    switch (topic) {
    case WorkingTopic::demand:
        return "What the pigment wants";
    case WorkingTopic::aim:
        return "What the paint aims at";
    case WorkingTopic::medium:
        return "What the medium brings";
    case WorkingTopic::sizing:
        return "How much of each";
    case WorkingTopic::film:
        return "The dry film";
    case WorkingTopic::volumes:
        return "Wet and dry";
    case WorkingTopic::vessels:
        return "Into the vessels";
    case WorkingTopic::weighing:
        return "As weighed";
    case WorkingTopic::family:
        return "Of this kind of paint";
    }
    return "";
}

/// Five significant digits, without zeros that say nothing.
std::string result_text(double x) {
    auto text = significant_text(x, 5);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

void show_step(PageBuilder& page, const WorkingStep& step) {
    page::Formula formula{.name = layout::capitalised(step.name), .symbol = step.symbol};
    if (!step.formula.empty()) formula.lines.push_back(step.formula);
    if (!step.substituted.empty()) formula.lines.push_back(step.substituted);
    formula.lines.push_back(result_text(step.result) + (step.unit.empty() ? "" : " " + step.unit));
    page.add(std::move(formula));
}

void show_chance(PageBuilder& page, const BatchSubject& subject) {
    const auto& chance = *subject.chance;
    page.section("How sure");
    page.paragraph(
        "Every input is uncertain; each moves ln k by its own standard uncertainty times its sensitivity. "
        "The squares add up to sigma squared.");
    page::Table table{.caption = "What each input does to ln k",
                      .columns = {{.head = "input", .align = Align::left, .width = 52},
                                  {.head = "in ln k", .align = Align::right, .width = 10},
                                  {.head = "share", .align = Align::right, .width = 14}}};
    for (std::size_t i = 0; i < chance.ln_k.lines.size(); ++i) {
        const auto& line = chance.ln_k.lines[i];
        if (!(line.share > 0.0)) continue;
        std::string what = chance_input_words(chance.kinds.at(i));
        if (!chance.subjects.at(i).empty())
            what += ", " + short_name(name_of(chance.subjects[i], subject.request));
        table.rows.push_back(
            {.cells = {what, significant_text(std::abs(line.contribution), 2), percent_text(line.share)}});
    }
    page.add(std::move(table));
    const auto& judgement = *subject.judgement;
    const auto& window = subject.request.recipe.family.window;
    const auto sigma = significant_text(chance.sigma, 3), k = significant_text(judgement.k.value(), 4);
    page.add(page::Formula{"The standard deviation of ln k", "sigma", {sigma}});
    page.add(page::Formula{
        "The chance of landing in the window",
        "P",
        {fmt::format("Phi(ln({} / {}) / {}) - Phi(ln({} / {}) / {}){}", plain_text(window.green_high.value()), k, sigma,
                     plain_text(window.green_low.value()), k, sigma,
                     chance.doubt.is_normal() ? "" : ", and the skewness of the doubt"),
         percent_text(judgement.chances.in_window.value())}});
}

} // namespace

page::Page explanation_page(const BatchSubject& subject) {
    PageBuilder page({.kind = "How it is worked out", .name = subject.request.recipe.name});
    if (!subject.answer.batch) return std::move(page).page();
    std::optional<WorkingTopic> topic;
    for (const auto& step : working(subject.request, *subject.answer.batch)) {
        if (topic != step.topic) page.section(topic_words(step.topic));
        topic = step.topic;
        show_step(page, step);
    }
    if (subject.chance) show_chance(page, subject);
    return std::move(page).page();
}

std::string explanation_text(const BatchSubject& subject, const TextOptions& options) {
    if (!subject.answer.batch) return {};
    return page::write_text(explanation_page(subject), options);
}

} // namespace lakebound
