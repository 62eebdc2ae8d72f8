#include "lakebound/report/chance_words.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lakebound/report/name.hpp"
#include "lakebound/report/number.hpp"
#include "lakebound/report/verdict_words.hpp"
#include "lakebound/report/warning_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

const char* chance_input_words(ChanceInput input) noexcept {
    switch (input) {
    case ChanceInput::oil_absorption:
        return "oil absorption";
    case ChanceInput::test_oil_density:
        return "density of the rub-out oil";
    case ChanceInput::pigment_density:
        return "density";
    case ChanceInput::moisture:
        return "moisture";
    case ChanceInput::pigment_weighing:
        return "weighing";
    case ChanceInput::binder_weighing:
        return "weighing of the binder";
    case ChanceInput::binder_index:
        return "binder index";
    case ChanceInput::binder_solids:
        return "solids of the binder";
    case ChanceInput::binder_density:
        return "density of the binder";
    case ChanceInput::method_transfer:
        return "step from the oil rub-out to this binder";
    }
    return "";
}

const char* chance_input_key(ChanceInput input) noexcept {
    switch (input) {
    case ChanceInput::oil_absorption:
        return "oil_absorption";
    case ChanceInput::test_oil_density:
        return "test_oil_density";
    case ChanceInput::pigment_density:
        return "pigment_density";
    case ChanceInput::moisture:
        return "moisture";
    case ChanceInput::pigment_weighing:
        return "pigment_weighing";
    case ChanceInput::binder_weighing:
        return "binder_weighing";
    case ChanceInput::binder_index:
        return "binder_index";
    case ChanceInput::binder_solids:
        return "binder_solids";
    case ChanceInput::binder_density:
        return "binder_density";
    case ChanceInput::method_transfer:
        return "method_transfer";
    }
    return "";
}

Probability chance_of_failing_low(const BatchSubject& subject) {
    const auto& family = subject.request.recipe.family;
    const auto& chances = subject.chance.value().chances;
    return family.window.amber_low < BinderSufficiency::of(1.0) ? chances.below_amber : chances.underbound;
}

std::string verdict_head(const BatchSubject& subject) {
    const auto& family = subject.request.recipe.family;
    const auto given = verdict_as_weighed(subject.answer.batch.value(), family);
    const auto head = verdict_words(given, family.process).head;
    const bool doubtful = subject.chance && chance_of_failing_low(subject) >= Probability::of(0.1);
    return given == Verdict::green && doubtful ? head + ", not surely" : head;
}

std::string failing_low_text(const BatchSubject& subject) {
    const auto& family = subject.request.recipe.family;
    const auto chance = chance_text(chance_of_failing_low(subject));
    if (family.window.amber_low < BinderSufficiency::of(1.0))
        return fmt::format("Chance that it powders (k below {}): {}.",
                           sufficiency_text(family.window.amber_low), chance);
    return fmt::format("Chance that it is underbound (k below 1): {}.", chance);
}

std::string largest_doubt_text(const BatchSubject& subject) {
    const auto& chance = subject.chance.value();
    const auto& lines = chance.ln_k.lines;
    const auto largest = std::max_element(lines.begin(), lines.end(),
                                          [](const auto& a, const auto& b) { return a.share < b.share; });
    if (largest == lines.end() || !(largest->share > 0.0)) return "Every figure is taken as exact.";
    const auto at = static_cast<std::size_t>(largest - lines.begin());
    std::string what = chance_input_words(chance.kinds.at(at));
    if (!chance.subjects.at(at).empty())
        what += " of " + short_name(name_of(chance.subjects[at], subject.request));
    return fmt::format("What matters most: the {}, {} of the doubt in k.", what, percent_text(largest->share));
}

std::string next_measurement_text(const BatchSubject& subject) {
    const auto& next = subject.next.value();
    const auto now = percent_text(next.now.value());
    switch (next.advice) {
    case MeasurementAdvice::measure: {
        const auto& test = subject.tests.at(next.recommended.value());
        const auto gain = std::find_if(next.gains.begin(), next.gains.end(), [&next](const TestGain& each) {
            return each.test == *next.recommended;
        });
        return fmt::format("{}: about {} minutes, and the chance goes from {} to {}.",
                           layout::capitalised(test.name), plain_text(in_minutes(test.duration)), now,
                           gain == next.gains.end() ? now : percent_text(gain->after.value()));
    }
    case MeasurementAdvice::below_limit:
        return "Nothing more: that chance is small enough. Paint, and keep the swatch.";
    case MeasurementAdvice::stop_measuring:
        return fmt::format("No test is worth its minutes. More medium lowers the chance: k {} leaves 5 %.",
                           sufficiency_text(subject.chance.value().k_for_5_percent));
    case MeasurementAdvice::change_the_recipe:
        return fmt::format("No test helps while k is this low. Aim higher: k {} would leave 5 %.",
                           sufficiency_text(subject.chance.value().k_for_5_percent));
    }
    return {};
}

} // namespace lakebound
