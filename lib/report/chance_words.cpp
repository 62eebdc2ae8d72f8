#include "lakebound/report/chance_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/objection_words.hpp"
#include "lakebound/report/verdict_words.hpp"
#include "lakebound/report/warning_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

std::string chance_percent_text(Probability chance) {
    const double p = chance.value();
    return !(p > 0.0) ? "below 0.1 %" : !(p < 1.0) ? "above 99.9 %" : percent_text(p);
}

std::string chance_text(Probability chance) {
    const double p = chance.value();
    if (p < 0.001) return "less than 1 chance in 1000 (below 0.1 %)";
    if (p > 0.99) return fmt::format("almost certain (above {} %)", p > 0.999 ? "99.9" : "99");
    const std::string percent = fixed_text(p * 100.0, p < 0.00995 ? 1 : 0);
    // The odds people say aloud; the nearest one on a logarithmic scale of p or of 1 - p is taken.
    struct Odds {
        int chances, in;
    };
    static constexpr std::array<Odds, 24> spoken{{{1, 1000},
                                                  {1, 500},
                                                  {1, 200},
                                                  {1, 100},
                                                  {1, 50},
                                                  {1, 30},
                                                  {1, 20},
                                                  {1, 15},
                                                  {1, 12},
                                                  {1, 10},
                                                  {1, 8},
                                                  {1, 6},
                                                  {1, 5},
                                                  {1, 4},
                                                  {1, 3},
                                                  {1, 2},
                                                  {2, 3},
                                                  {3, 4},
                                                  {4, 5},
                                                  {5, 6},
                                                  {7, 8},
                                                  {9, 10},
                                                  {19, 20},
                                                  {49, 50}}};
    const auto logit = [](double x) { return std::log(x / (1.0 - x)); };
    const Odds* best = spoken.data();
    double nearest = std::numeric_limits<double>::infinity();
    for (const auto& odds : spoken) {
        const double distance = std::abs(logit(p) - logit(static_cast<double>(odds.chances) / odds.in));
        if (distance < nearest) nearest = distance, best = &odds;
    }
    return fmt::format("about {} {} in {} ({} %)", best->chances, best->chances == 1 ? "chance" : "chances",
                       best->in, percent);
}

namespace {

/// An input of the chance: as text has it, and as JSON has it.
struct InputWords {
    ChanceInput input;
    const char* words;
    const char* key;
};
constexpr InputWords input_words[] = {
    {ChanceInput::oil_absorption, "oil absorption", "oil_absorption"},
    {ChanceInput::test_oil_density, "density of the rub-out oil", "test_oil_density"},
    {ChanceInput::pigment_density, "density", "pigment_density"},
    {ChanceInput::moisture, "moisture", "moisture"},
    {ChanceInput::pigment_weighing, "weighing", "pigment_weighing"},
    {ChanceInput::binder_weighing, "weighing of the binder", "binder_weighing"},
    {ChanceInput::binder_index, "binder index", "binder_index"},
    {ChanceInput::binder_solids, "solids of the binder", "binder_solids"},
    {ChanceInput::binder_density, "density of the binder", "binder_density"},
    {ChanceInput::method_transfer, "step from the oil rub-out to this binder", "method_transfer"},
    {ChanceInput::tapped_density, "tapped density", "tapped_density"},
    {ChanceInput::spooning, "filling of the spoon", "spooning"},
    {ChanceInput::learned_demand, "what your record leaves open", "learned_demand"},
};

const InputWords& words_of(ChanceInput input) noexcept {
    return *std::find_if(std::begin(input_words), std::end(input_words),
                         [input](const InputWords& row) { return row.input == input; });
}

} // namespace

const char* chance_input_words(ChanceInput input) noexcept { return words_of(input).words; }
const char* chance_input_key(ChanceInput input) noexcept { return words_of(input).key; }

std::string verdict_head(const Judgement& judgement, Process process) {
    if (const auto* objection = said_first(judgement)) return objection_head(objection->kind);
    const auto words = verdict_words(judgement.verdict, process);
    return judgement.certainty == Certainty::sure ? words.head : words.doubtful_head;
}

namespace {

/// "20 %"; a chance that rounds to nothing is said to be small.
std::string small_chance_text(Probability p) { return p.value() < 0.001 ? "below 0.1 %" : chance_percent_text(p); }

} // namespace

std::string window_chance_text(const Judgement& judgement, const SufficiencyWindow& window) {
    const auto& c = judgement.chances;
    return fmt::format("Chance of landing in that window: {}. Leaner: {} (fails below k {}: {}). Richer: {} "
                       "(fails above k {}: {}).",
                       chance_text(c.in_window), small_chance_text(c.below_green), sufficiency_text(window.amber_low),
                       small_chance_text(c.below_amber), small_chance_text(c.above_green), sufficiency_text(window.amber_high),
                       small_chance_text(c.above_amber));
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
        return fmt::format("{}: about {} minutes, and the chance of landing in the window goes from {} to {}, "
                           "once you aim by what it tells.",
                           layout::capitalised(test.name), plain_text(in_minutes(test.duration)), now,
                           gain == next.gains.end() ? now : percent_text(gain->after.value()));
    }
    case MeasurementAdvice::good_enough:
        return fmt::format("Nothing more: {} is good enough. Paint, and keep the swatch.", now);
    case MeasurementAdvice::stop_measuring:
        return fmt::format("No test is worth its minutes. Landing in the window is likeliest at k {}: {}.",
                           sufficiency_text(next.aim), percent_text(next.aimed_anew.value()));
    case MeasurementAdvice::change_the_recipe:
        return fmt::format("Change the paint first: at k {} the chance of landing in the window is {}.",
                           sufficiency_text(next.aim), percent_text(next.aimed_anew.value()));
    }
    return {};
}

} // namespace lakebound
