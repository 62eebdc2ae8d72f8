#include "lakebound/report/explain.hpp"

#include <cmath>

#include <fmt/format.h>

#include "lakebound/paint/working.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/name.hpp"
#include "lakebound/report/number.hpp"
#include "lakebound/report/warning_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::Page;

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

/// The lines that follow the first "=" stand under it.
void show_step(Page& page, const WorkingStep& step) {
    page.paragraph(layout::capitalised(step.name), 2);
    const auto symbol = layout::right_aligned(step.symbol, 12);
    const auto result = result_text(step.result) + (step.unit.empty() ? "" : " " + step.unit);
    bool first = true;
    const auto line = [&](const std::string& text) {
        page.item(first ? symbol + " =" : layout::right_aligned("=", 14), text);
        first = false;
    };
    if (!step.formula.empty()) line(step.formula);
    if (!step.substituted.empty()) line(step.substituted);
    line(result);
}

void show_chance(Page& page, const BatchSubject& subject) {
    const auto& chance = *subject.chance;
    page.heading("How sure");
    page.paragraph(
        "Every input is uncertain; each moves ln k by its own standard uncertainty times its sensitivity. "
        "The squares add up to sigma squared.");
    page.line("  " + layout::padded("input", 52) + layout::right_aligned("in ln k", 10) +
              layout::right_aligned("share", 14));
    for (std::size_t i = 0; i < chance.ln_k.lines.size(); ++i) {
        const auto& line = chance.ln_k.lines[i];
        if (!(line.share > 0.0)) continue;
        std::string what = chance_input_words(chance.kinds.at(i));
        if (!chance.subjects.at(i).empty())
            what += ", " + short_name(name_of(chance.subjects[i], subject.request));
        const auto names = layout::wrapped(what, 50);
        for (std::size_t j = 0; j < names.size(); ++j)
            page.line("  " + layout::padded(names[j], 52) +
                      (j > 0 ? ""
                             : layout::right_aligned(significant_text(std::abs(line.contribution), 2), 10) +
                                   layout::right_aligned(percent_text(line.share), 14)));
    }
    page.blank();
    page.item(layout::right_aligned("sigma =", 14),
              significant_text(chance.sigma, 3) + ", the standard deviation of ln k");
    const auto& judgement = *subject.judgement;
    const auto& window = subject.request.recipe.family.window;
    const auto sigma = significant_text(chance.sigma, 3), k = significant_text(judgement.k.value(), 4);
    page.item(layout::right_aligned("P =", 14),
              fmt::format("Phi(ln({} / {}) / {}) - Phi(ln({} / {}) / {}){}", plain_text(window.green_high.value()),
                          k, sigma, plain_text(window.green_low.value()), k, sigma,
                          chance.doubt.is_normal() ? "" : ", and the skewness of the doubt"));
    page.item(layout::right_aligned("=", 14),
              percent_text(judgement.chances.in_window.value()) + ", the chance of landing in the window");
}

} // namespace

std::string explanation_text(const BatchSubject& subject, const TextOptions& options) {
    if (!subject.answer.batch) return {};
    Page page(options.colour);
    page.line("HOW IT IS WORKED OUT   " + subject.request.recipe.name, layout::Tone::heading);
    std::optional<WorkingTopic> topic;
    for (const auto& step : working(subject.request, *subject.answer.batch)) {
        if (topic != step.topic) page.heading(topic_words(step.topic));
        topic = step.topic;
        show_step(page, step);
    }
    if (subject.chance) show_chance(page, subject);
    return page.text();
}

} // namespace lakebound
