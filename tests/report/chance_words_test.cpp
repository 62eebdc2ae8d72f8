#include "lakebound/report/chance_words.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

constexpr ChanceInput inputs[] = {
    ChanceInput::oil_absorption,   ChanceInput::test_oil_density, ChanceInput::pigment_density, ChanceInput::moisture,
    ChanceInput::pigment_weighing, ChanceInput::binder_weighing,  ChanceInput::binder_index,    ChanceInput::binder_solids,
    ChanceInput::binder_density,   ChanceInput::method_transfer,  ChanceInput::tapped_density,  ChanceInput::spooning};

Judgement judged(double k, double sigma, Process process = Process::oil) {
    return judge(BinderSufficiency::of(k), NormalMixture(sigma), example_family(process).window);
}

} // namespace

TEST_CASE("Every input of the chance has words and a key of its own", "[unit]") {
    std::set<std::string> words, keys;
    for (const auto input : inputs) {
        CHECK(words.insert(chance_input_words(input)).second);
        CHECK(keys.insert(chance_input_key(input)).second);
    }
    CHECK(words.count("") + keys.count("") == 0);
    CHECK(std::string(chance_input_key(ChanceInput::oil_absorption)) == "oil_absorption");
    CHECK(std::string(chance_input_words(ChanceInput::spooning)) == "filling of the spoon");
}

TEST_CASE("The head is no surer than the chance, and an objection goes before it", "[unit]") {
    CHECK(verdict_head(judged(1.4, 0.05), Process::oil) == "should hold");
    CHECK(verdict_head(judged(1.4, 0.35), Process::oil) == "should hold, not surely");
    CHECK(verdict_head(judged(0.5, 0.05), Process::oil) == "will chalk");
    CHECK(verdict_head(judged(0.97, 0.05), Process::oil) == "will probably chalk");
    // Egg tempera holds down to k 0.75: at 0.9 a chance of being underbound of three in four is no doubt.
    CHECK(verdict_head(judged(0.95, 0.05, Process::egg_tempera), Process::egg_tempera) == "should hold");
    auto loose = judged(1.4, 0.05);
    loose.objections.push_back({ObjectionKind::does_not_bind, {}, {}});
    CHECK(verdict_head(loose, Process::oil) == "will not bind");
}

TEST_CASE("Chances of either side, and those too small to name", "[reference]") {
    // Window 1.15 to 1.7, fails below 1 and above 2.2; sigma .2 about k 1.4, by any table of the normal law:
    // Phi(ln(1.15/1.4)/.2) = Phi(-.9836) = .163, Phi(ln(1/1.4)/.2) = .0462, 1 - Phi(.9708) = .166, 1 - Phi(2.2599) = .0119.
    const auto window = example_family(Process::oil).window;
    CHECK_THAT(window_chance_text(judged(1.4, 0.2), window),
               Contains("about 2 chances in 3 (67 %)") && Contains("Leaner: 16 % (fails below k 1.00: 4.6 %)") &&
                   Contains("Richer: 17 % (fails above k 2.20: 1.2 %)"));
    CHECK_THAT(window_chance_text(judged(1.4, 0.05), window), Contains("(fails below k 1.00: below 0.1 %)"));
}

TEST_CASE("The largest doubt is named with its pigment", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    CHECK_THAT(largest_doubt_text(subject), Contains("What matters most: the ") && Contains(" % of the doubt in k."));
    auto& chance = *subject.chance;
    for (auto& line : chance.ln_k.lines)
        line.share = 0.0;
    CHECK(largest_doubt_text(subject) == "Every figure is taken as exact.");
    const auto at = static_cast<std::size_t>(
        std::find(chance.kinds.begin(), chance.kinds.end(), ChanceInput::oil_absorption) - chance.kinds.begin());
    REQUIRE(at < chance.kinds.size());
    chance.ln_k.lines[at].share = 0.62;
    chance.ln_k.lines[at == 0 ? 1 : 0].share = 0.38;
    CHECK(largest_doubt_text(subject) == "What matters most: the oil absorption of Weld lake, 62 % of the doubt in k.");
}

TEST_CASE("What to measure next, or that nothing needs to be", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    REQUIRE(subject.next);
    auto& next = *subject.next;
    next.now = Probability::of(0.47);
    next.aimed_anew = Probability::of(0.52);
    next.aim = BinderSufficiency::of(1.47);
    next.recommended = 1;
    next.gains = {{0, 0.1, Probability::of(0.9), 0.1, 0.01}, {1, 0.1, Probability::of(0.81), 0.1, 0.01}};
    const auto said = [&](MeasurementAdvice advice) {
        next.advice = advice;
        return next_measurement_text(subject);
    };
    CHECK(said(MeasurementAdvice::measure) ==
          "Four swatches at stepped k: about 40 minutes, and the chance of landing in the window goes from 47 % to 81 "
          "%, once you aim by what it tells.");
    CHECK_THAT(said(MeasurementAdvice::good_enough), Contains("Nothing more: 47 % is good enough"));
    CHECK_THAT(said(MeasurementAdvice::stop_measuring), Contains("No test is worth its minutes") && Contains("k 1.47: 52 %"));
    CHECK_THAT(said(MeasurementAdvice::change_the_recipe), Contains("Change the paint first: at k 1.47") && Contains("is 52 %"));
    std::set<std::string> keys;
    for (const auto advice : {MeasurementAdvice::measure, MeasurementAdvice::good_enough,
                              MeasurementAdvice::stop_measuring, MeasurementAdvice::change_the_recipe})
        keys.insert(key_of(advice));
    CHECK(keys == std::set<std::string>{"measure", "good_enough", "stop_measuring", "change_the_recipe"});
}

TEST_CASE("A chance is said as people say it", "[unit]") {
    const auto said = [](double p) { return chance_text(Probability::of(p)); };
    CHECK(said(0.05) == "about 1 chance in 20 (5 %)");
    CHECK(said(0.206) == "about 1 chance in 5 (21 %)");
    CHECK(said(0.0044) == "about 1 chance in 200 (0.4 %)");
    CHECK(said(0.5) == "about 1 chance in 2 (50 %)");
    CHECK(said(0.67) == "about 2 chances in 3 (67 %)");
    CHECK(said(0.0) == "less than 1 chance in 1000 (below 0.1 %)");
    CHECK(said(1.0) == "almost certain (above 99.9 %)");
    CHECK(said(0.993) == "almost certain (above 99 %)");
}

TEST_CASE("Where every figure is exact no doubt is named", "[unit]") {
    auto subject = batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests());
    CHECK(largest_doubt_text(subject).find("What matters most: the ") == 0);
    for (auto& line : subject.chance->ln_k.lines) line.share = 0.0;
    CHECK(largest_doubt_text(subject) == "Every figure is taken as exact.");
    subject.chance->ln_k.lines.clear();
    CHECK(largest_doubt_text(subject) == "Every figure is taken as exact.");
}

TEST_CASE("a chance in per cent is never nothing and never all", "[unit]") {
    const auto told = [](double p) { return chance_percent_text(Probability::of(p)); };
    CHECK(told(0.0) == "below 0.1 %");
    CHECK(told(1e-9) == "below 0.1 %");
    CHECK(told(0.32) == "32 %");
    CHECK(told(0.9968) == "99.7 %");
    CHECK(told(1.0) == "above 99.9 %"); // as a double has it
}

namespace {

/// The odds that people say, in their order.
constexpr std::pair<int, int> spoken[] = {{1, 1000}, {1, 500}, {1, 200}, {1, 100}, {1, 50}, {1, 30}, {1, 20}, {1, 15},
                                          {1, 12},   {1, 10},  {1, 8},   {1, 6},   {1, 5},  {1, 4},  {1, 3},  {1, 2},
                                          {2, 3},    {3, 4},   {4, 5},   {5, 6},   {7, 8},  {9, 10}, {19, 20}, {49, 50}};
std::string words_of(std::pair<int, int> odds) {
    return "about " + std::to_string(odds.first) + (odds.first == 1 ? " chance in " : " chances in ") + std::to_string(odds.second) + " (";
}

} // namespace

TEST_CASE("The odds that are said are the nearest that people say, by the ratio of chance to its contrary", "[unit]") {
    for (std::size_t i = 0; i < std::size(spoken); ++i) {
        const auto [chances, in] = spoken[i];
        const double p = double(chances) / in;
        CHECK(chance_text(Probability::of(p)).rfind(words_of(spoken[i]), 0) == 0);
        if (i + 1 == std::size(spoken)) break;
        // Half way to the next the two ratios are as far apart: their geometric mean.
        const auto [more, of] = spoken[i + 1];
        const double odds = std::sqrt(double(chances) / (in - chances) * double(more) / (of - more)), half_way = odds / (1.0 + odds);
        CAPTURE(half_way);
        CHECK(chance_text(Probability::of(half_way * (1.0 - 1e-6))).rfind(words_of(spoken[i]), 0) == 0);
        CHECK(chance_text(Probability::of(half_way * (1.0 + 1e-6))).rfind(words_of(spoken[i + 1]), 0) == 0);
    }
}

TEST_CASE("A chance on either side of each place where its words change", "[unit]") {
    const std::pair<double, const char*> chances[] = {
        {0.00099, "less than 1 chance in 1000 (below 0.1 %)"}, {0.001, "about 1 chance in 1000 (0.1 %)"}, {0.0011, "about 1 chance in 1000 (0.1 %)"},
        {0.00994, "about 1 chance in 100 (1.0 %)"}, {0.00996, "about 1 chance in 100 (1 %)"}, {0.0111, "about 1 chance in 100 (1 %)"},
        {0.984, "about 49 chances in 50 (98 %)"}, {0.99, "about 49 chances in 50 (99 %)"}, {0.9901, "almost certain (above 99 %)"},
        {0.999, "almost certain (above 99 %)"}, {0.9991, "almost certain (above 99.9 %)"}};
    for (const auto& [p, words] : chances) {
        CAPTURE(p);
        CHECK(chance_text(Probability::of(p)) == words);
    }
    // Beside the window a chance that rounds to nothing is said to be small.
    auto judgement = judged(1.4, 0.2);
    const auto leaner = [&](double p) {
        judgement.chances.below_green = Probability::of(p);
        const auto text = window_chance_text(judgement, example_family(Process::oil).window);
        const auto from = text.find("Leaner: ") + 8;
        return text.substr(from, text.find(" (", from) - from);
    };
    CHECK(leaner(0.00099) == "below 0.1 %");
    CHECK(leaner(0.001) == "0.1 %");
    CHECK(leaner(0.0012) == "0.1 %");
    CHECK(leaner(0.3) == "30 %");
    CHECK(leaner(1.0) == "above 99.9 %");
}

TEST_CASE("Of two doubts alike the first is named, and one that is of no material stands alone", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    auto& chance = *subject.chance;
    REQUIRE(chance.ln_k.lines.size() >= 2);
    chance.ln_k.lines.resize(2), chance.kinds.resize(2), chance.subjects.resize(2);
    chance.kinds = {ChanceInput::method_transfer, ChanceInput::spooning};
    chance.subjects = {"", "weld"};
    chance.ln_k.lines[0].share = chance.ln_k.lines[1].share = 0.5;
    CHECK(largest_doubt_text(subject) == "What matters most: the step from the oil rub-out to this binder, 50 % of the doubt in k.");
    chance.ln_k.lines[0].share = 0.0009, chance.ln_k.lines[1].share = 0.0004;
    CHECK(largest_doubt_text(subject) == "What matters most: the step from the oil rub-out to this binder, 0.1 % of the doubt in k.");
    chance.ln_k.lines[0].share = 0.2, chance.ln_k.lines[1].share = 0.8;
    CHECK(largest_doubt_text(subject) == "What matters most: the filling of the spoon of Weld lake, 80 % of the doubt in k.");
}
