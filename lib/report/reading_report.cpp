#include "lakebound/report/reading_report.hpp"

#include <cmath>
#include <type_traits>

#include <fmt/format.h>

#include "json_pieces.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/quantity/rounded_text.hpp"
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

Outcome outcome_of(const RubOutSeries& series, const BenchPractice& practice) {
    const auto read = series.dropper
                          ? oil_absorption_by_rub_out(series.rub_outs, *series.dropper, practice.rub_out)
                          : oil_absorption_by_rub_out(series.rub_outs, practice.rub_out);
    auto result =
        outcome("oil_absorption", "oil_absorption_g_per_100g", read.mean, in_grams_per_100_grams, "g/100g");
    result.json["repeat_spread"] = read.repeat_spread;
    if (read.as_far_apart) result.json["chance_as_far_apart"] = read.as_far_apart->value();
    result.json["readings_disagree"] = read.disagree;
    if (read.each.size() > 1) {
        std::vector<std::string> each;
        for (const auto& one : read.each) {
            result.each.push_back(in_grams_per_100_grams(one));
            each.push_back(significant_text(result.each.back(), 3));
        }
        result.remarks.push_back(fmt::format("{} rub-outs: {} g/100g; their geometric mean.", each.size(),
                                             layout::joined(each)));
        if (read.disagree)
            result.remarks.push_back(fmt::format(
                "These lie farther apart than one hand and one powder make them: {}. Is one of them a slip, or of "
                "another powder? Till that is known the figure is as loose as they are.",
                chance_text(*read.as_far_apart)));
    } else {
        result.remarks.push_back("One rub-out: judging its end by eye and feel makes most of the doubt. Two more "
                                 "bring it down to 7 %.");
    }
    if (series.dropper) {
        const auto drop = drop_mass(*series.dropper);
        result.remarks.push_back(
            fmt::format("A drop weighs {} g.", significant_text(in_grams(drop.value()), 3)));
        const auto step = one_drop_of_oil_absorption(*series.dropper, series.rub_outs.front().pigment);
        if (in_grams_per_100_grams(step) > 3.0)
            result.remarks.push_back(fmt::format("One drop makes {} g/100g: take more pigment next time.",
                                                 significant_text(in_grams_per_100_grams(step), 2)));
    }
    return result;
}

Outcome outcome_of(const Pyknometer& test) {
    auto result = outcome("density", "density_g_per_cm3", density_by_pyknometer(test),
                          in_grams_per_cubic_centimetre, "g/cm3");
    if (air_dominates(test))
        result.remarks.push_back(
            "A bubble of 0.05 mL left in the powder would move this by more than the scale "
            "does: wet it well and tap the air out.");
    return result;
}

Outcome outcome_of(const Displacement& test) {
    auto result = outcome("density", "density_g_per_cm3", density_by_displacement(test),
                          in_grams_per_cubic_centimetre, "g/cm3");
    result.remarks.push_back("Air left in the powder makes this too low, and repeating does not show it.");
    return result;
}

Outcome outcome_of(const TappedFillReading& reading) {
    return outcome("tapped_density", "tapped_density_g_per_cm3",
                   tapped_density(reading.fill, reading.powder, reading.scale), in_grams_per_cubic_centimetre,
                   "g/cm3");
}

Outcome outcome_of(const MediumSolidsReading& reading) {
    auto result = outcome("non_volatile", "non_volatile_percent", non_volatile_by_drying(reading.test),
                          in_percent, "% w/w");
    result.remarks.push_back("For the file of an ingredient. Dried to constant mass? Two weighings a day apart "
                             "must agree within 0.5 %.");
    return result;
}

Outcome outcome_of(const MoistureReading& reading) {
    auto result =
        outcome("moisture", "moisture_percent", moisture_by_drying(reading.test), in_percent, "% w/w");
    result.remarks.push_back("Of the powder as weighed. Dried to constant mass? Two weighings a day apart must "
                             "agree within 0.5 %.");
    return result;
}

Outcome outcome_of(const BenchReading& reading, const BenchPractice& practice) {
    return std::visit(
        [&practice](const auto& test) {
            if constexpr (std::is_same_v<std::decay_t<decltype(test)>, RubOutSeries>)
                return outcome_of(test, practice);
            else
                return outcome_of(test);
        },
        reading.test);
}

} // namespace

std::string reading_text(const BenchReading& reading, const BenchPractice& practice) {
    const auto result = outcome_of(reading, practice);
    std::string text;
    const auto comment = [&text](const std::string& sentence) {
        for (const auto& line : layout::wrapped(sentence, layout::page_width - 2))
            text += "# " + line + "\n";
    };
    comment(reading.name);
    for (const auto& remark : result.remarks)
        comment(remark);
    return text + result.key + ": " + result.value + "\n";
}

page::Page reading_page(const BenchReading& reading, const BenchPractice& practice) {
    const auto result = outcome_of(reading, practice);
    layout::PageBuilder page({.kind = "Bench reading", .name = reading.name, .form = page::TitleForm::after_colon});
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

std::string reading_json(const BenchReading& reading, const BenchPractice& practice) {
    auto result = outcome_of(reading, practice);
    Json json = json_pieces::envelope("bench_reading", reading_json_version);
    json["name"] = reading.name;
    json.update(result.json);
    json["text"] = result.value;
    json["remarks"] = result.remarks;
    return json_pieces::json_text(json);
}

} // namespace lakebound
