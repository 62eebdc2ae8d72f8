#include "lakebound/report/reading_report.hpp"

#include <cmath>

#include <fmt/format.h>

#include "json_pieces.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/report/chance_words.hpp"
#include "page_builder.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using json_pieces::estimate_json;
using json_pieces::Json;

/// What a reading comes to: one figure of the jar's file, or of an ingredient's.
struct Outcome {
    std::string key;                  ///< of the file: "oil_absorption"
    std::string value;                ///< "68.8 x/ 1.11 g/100g"
    std::vector<std::string> remarks; ///< sentences
    std::vector<double> each;         ///< of several rub-outs, g/100g
    Json json;
};

template <class Q, class Getter>
std::string figure_text(const Estimate<Q>& estimate, Getter in_unit, const char* unit) {
    const double value = in_unit(estimate.value());
    const auto& spread = estimate.distribution();
    if (spread.shape == Shape::lognormal)
        return fmt::format("{} x/ {} {}", significant_text(value, 3),
                           significant_text(std::exp(spread.scale), 3), unit);
    const double u = value / canonical(estimate.value()) * canonical(estimate.standard_uncertainty());
    const auto texts = value_and_uncertainty(value, u);
    return fmt::format("{} +- {} {}", texts.value, texts.uncertainty, unit);
}

template <class Q, class Getter> Outcome
outcome(const char* key, const char* json_key, const Estimate<Q>& estimate, Getter in_unit, const char* unit) {
    Outcome result{key, figure_text(estimate, in_unit, unit), {}, {}, {}};
    result.json["figure"] = key;
    result.json[json_key] = estimate_json(estimate, in_unit);
    return result;
}

double in_percent(MassFraction x) { return x.value() * 100.0; }

Outcome outcome_of(const RubOutRead& read) {
    const auto& rub_outs = read.result;
    auto result =
        outcome("oil_absorption", "oil_absorption_g_per_100g", rub_outs.mean, in_grams_per_100_grams, "g/100g");
    result.json["repeat_spread"] = rub_outs.repeat_spread;
    if (rub_outs.as_far_apart) result.json["chance_as_far_apart"] = rub_outs.as_far_apart->value();
    result.json["readings_disagree"] = rub_outs.disagree;
    if (rub_outs.each.size() > 1) {
        std::vector<std::string> each;
        for (const auto& one : rub_outs.each) {
            result.each.push_back(in_grams_per_100_grams(one));
            each.push_back(significant_text(result.each.back(), 3));
        }
        result.remarks.push_back(fmt::format("{} rub-outs: {} g/100g; their geometric mean.", each.size(),
                                             name_list(each)));
        if (rub_outs.disagree)
            result.remarks.push_back(fmt::format(
                "These lie farther apart than one hand and one powder make them: {}. Is one of them a slip, or of "
                "another powder? Till that is known the figure is as loose as they are.",
                chance_text(*rub_outs.as_far_apart)));
    }
    if (read.after_two_more)
        result.remarks.push_back(fmt::format("One rub-out{} Two more bring {} to {}.",
                                             read.end_point_leads
                                                 ? ": judging its end by eye and feel makes most of the doubt."
                                                 : ".",
                                             read.end_point_leads ? "it down" : "its doubt",
                                             percent_text(*read.after_two_more)));
    if (read.drop)
        result.remarks.push_back(
            fmt::format("A drop weighs {} g.", significant_text(in_grams(read.drop->value()), 3)));
    if (read.drops_too_coarse)
        result.remarks.push_back(fmt::format("One drop makes {} g/100g: take more pigment next time.",
                                             significant_text(in_grams_per_100_grams(*read.one_drop), 2)));
    return result;
}

Outcome outcome_of(const PyknometerRead& read) {
    auto result =
        outcome("density", "density_g_per_cm3", read.density, in_grams_per_cubic_centimetre, "g/cm3");
    if (read.air_dominates)
        result.remarks.push_back(fmt::format(
            "A bubble of {:.2g} mL left in the powder would move this by more than the scale does: wet it well and "
            "tap the air out.",
            in_millilitres(bubble_left)));
    return result;
}

Outcome outcome_of(const DisplacementRead& read) {
    auto result =
        outcome("density", "density_g_per_cm3", read.density, in_grams_per_cubic_centimetre, "g/cm3");
    result.remarks.push_back("Air left in the powder makes this too low, and repeating does not show it.");
    return result;
}

Outcome outcome_of(const TappedFillRead& read) {
    return outcome("tapped_density", "tapped_density_g_per_cm3", read.tapped_density, in_grams_per_cubic_centimetre,
                   "g/cm3");
}

/// Of a sample that was dried.
std::string dried_remark(const char* of_what, Share within) {
    return fmt::format("{} Dried to constant mass? Two weighings a day apart must agree within {:.2g} %.", of_what,
                       100.0 * within.value());
}

Outcome outcome_of(const MediumSolidsRead& read) {
    auto result = outcome("non_volatile", "non_volatile_percent", read.non_volatile, in_percent, "% w/w");
    result.remarks.push_back(dried_remark("For the file of an ingredient.", read.constant_within));
    return result;
}

Outcome outcome_of(const MoistureRead& read) {
    auto result = outcome("moisture", "moisture_percent", read.moisture, in_percent, "% w/w");
    result.remarks.push_back(dried_remark("Of the powder as weighed.", read.constant_within));
    return result;
}

Outcome outcome_of(const ReadingAnswer& answer) {
    return std::visit([](const auto& read) { return outcome_of(read); }, answer.read);
}

} // namespace

std::string reading_text(const ReadingAnswer& answer) {
    const auto result = outcome_of(answer);
    std::string text;
    const auto comment = [&text](const std::string& sentence) {
        for (const auto& line : layout::wrapped(sentence, layout::page_width - 2))
            text += "# " + line + "\n";
    };
    comment(answer.name);
    for (const auto& remark : result.remarks)
        comment(remark);
    return text + result.key + ": " + result.value + "\n";
}

page::Page reading_page(const ReadingAnswer& answer) {
    const auto result = outcome_of(answer);
    layout::PageBuilder page({.kind = "Bench reading", .name = answer.name, .form = page::TitleForm::after_colon});
    page.section("What it tells");
    page.add(page::Lead{result.value});
    for (const auto& remark : result.remarks)
        page.paragraph(remark);
    if (!result.each.empty()) {
        page::Bars bars{.question = "Each rub-out"};
        for (std::size_t i = 0; i < result.each.size(); ++i)
            bars.bars.push_back({.label = fmt::format("rub-out {}", i + 1),
                                 .segments = {{.value = result.each[i]}},
                                 .value = significant_text(result.each[i], 3) + " g/100g"});
        page.section("Each rub-out").keep_together = true;
        page.drawn({std::move(bars)});
    }
    page.section("The line for the file");
    page.add(page::Command{result.key + ": " + result.value});
    return std::move(page).page();
}

std::string reading_json(const ReadingAnswer& answer) {
    auto result = outcome_of(answer);
    Json json = json_pieces::envelope("bench_reading", reading_json_version);
    json["name"] = answer.name;
    json.update(result.json);
    json["text"] = result.value;
    json["remarks"] = result.remarks;
    return json_pieces::json_text(json);
}

} // namespace lakebound
