#include "lakebound/report/judgement_page.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "support/example_paint.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;

TEST_CASE("chances in whole numbers sum to 100 and stay within one of the truth", "[identity]") {
    const auto window = worked::watercolour().family.window;
    for (double sigma = 0.02; sigma < 0.6; sigma += 0.013)
        for (double k = 0.6; k < 3.0; k += 0.07) {
            const auto chances = window_chances(BinderSufficiency::of(k), NormalMixture(sigma), window);
            const auto parts = of_hundred(chances);
            CHECK(parts.leaner + parts.in_window + parts.richer == 100);
            CHECK(parts.leaner == Approx(100 * chances.below_green.value()).margin(1.0));
            CHECK(parts.in_window == Approx(100 * chances.in_window.value()).margin(1.0));
            CHECK(parts.richer == Approx(100 * chances.above_green.value()).margin(1.0));
        }
}

TEST_CASE("the picture of the medium marks the batch where the sheet has it", "[unit]") {
    const auto subject = batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests());
    const auto picture = medium_picture(subject);
    const auto& chart = std::get<page::Chart>(picture.is);
    REQUIRE(chart.marks.size() == 1);
    CHECK(chart.marks[0].at.x == Approx(in_grams(subject.answer.batch->medium)));
    CHECK(chart.marks[0].at.y == Approx(subject.judgement->k.value()));
    CHECK(chart.marks[0].at.x > chart.x.low);
    CHECK(chart.marks[0].at.x < chart.x.high);
    const auto& window = subject.request.recipe.family.window;
    REQUIRE(chart.bands.size() == 1);
    CHECK(chart.bands[0].from == Approx(window.green_low.value()));
    CHECK(chart.bands[0].to == Approx(window.green_high.value()));
    REQUIRE(chart.graduation);
    CHECK(chart.graduation->entries.size() == 6);
}

TEST_CASE("bars of the doubt hold all of it, largest first", "[identity]") {
    const auto subject = batch_subject(lakebound::testing::example_request(Process::watercolour), lakebound::testing::example_tests());
    const auto picture = doubt_picture(subject);
    const auto& bars = std::get<page::Bars>(picture.is).bars;
    double sum = 0.0;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        sum += bars[i].segments.at(0).value;
        if (i > 0 && i + 1 < bars.size()) CHECK(bars[i].segments[0].value <= bars[i - 1].segments[0].value);
    }
    CHECK(sum == Approx(1.0).margin(1e-9));
}

TEST_CASE("twenty dots, as many of them in the window as the chance says, to one", "[identity]") {
    const auto subject = batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests());
    const auto verdict = verdict_block(subject);
    REQUIRE(verdict.beside.size() == 1);
    const auto& plot = std::get<page::DotPlot>(std::get<page::Picture>(verdict.beside[0].is).is);
    REQUIRE(plot.values.size() == 20);
    int inside = 0;
    for (const double k : plot.values)
        inside += k >= plot.window.from && k <= plot.window.to ? 1 : 0;
    CHECK(inside == Approx(20 * subject.judgement->chances.in_window.value()).margin(1.0));
}

TEST_CASE("of a mixture that does not bind no chance of landing in the window is told", "[unit]") {
    auto subject = batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests());
    CHECK_FALSE(verdict_block(subject).chance.empty());
    subject.judgement->objections = {Objection{ObjectionKind::does_not_bind, {}, {}}};
    const auto verdict = verdict_block(subject);
    CHECK(verdict.chance.empty());
    CHECK(verdict.beside.empty());
    for (const auto& block : verdict.body)
        if (const auto* paragraph = std::get_if<page::Paragraph>(&block.is))
            CHECK(paragraph->words.plain().find("Chance") == std::string::npos);
}

TEST_CASE("the window stays in sight of twenty dots, however lean, rich or uncertain a mix is", "[identity]") {
    for (const double k : {1e-4, 0.3, 1.4, 30.0, 5000.0})
        for (const double sigma : {0.01, 0.3, 40.0}) {
            auto subject = batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests());
            subject.judgement->k = BinderSufficiency::of(k);
            subject.chance->doubt = NormalMixture(sigma);
            const auto verdict = verdict_block(subject);
            const auto& plot = std::get<page::DotPlot>(std::get<page::Picture>(verdict.beside.at(0).is).is);
            CHECK(plot.values.size() == 20);
            CHECK(plot.axis.low < plot.window.from);
            CHECK(plot.axis.high > plot.window.to);
            CHECK(plot.window.to - plot.window.from > 0.1 * (plot.axis.high - plot.axis.low));
        }
}

namespace {

BatchSubject oil_subject() { return batch_subject(lakebound::testing::example_request(Process::oil), lakebound::testing::example_tests()); }
/// "density, Weld lake | 25 % | 0.25 hatched".
std::vector<std::string> doubt_bars(const BatchSubject& subject) {
    std::vector<std::string> lines;
    const auto picture = doubt_picture(subject);
    for (const auto& bar : std::get<page::Bars>(picture.is).bars)
        lines.push_back(bar.label + " | " + bar.value + (bar.segments.at(0).fill == page::Fill::solid ? " | solid" : " | hatched"));
    return lines;
}
BatchSubject doubted(const std::vector<double>& shares) {
    auto subject = oil_subject();
    auto& chance = *subject.chance;
    chance.ln_k.lines.assign(shares.size(), {});
    chance.kinds.clear(), chance.subjects.clear();
    for (std::size_t i = 0; i < shares.size(); ++i) {
        chance.ln_k.lines[i].share = shares[i];
        chance.ln_k.lines[i].provenance.origin = i % 2 == 0 ? Origin::measured : Origin::estimate;
        chance.kinds.push_back(i == 1 ? ChanceInput::pigment_density : ChanceInput::spooning);
        chance.subjects.push_back(i == 1 ? "weld" : "");
    }
    return subject;
}

} // namespace

TEST_CASE("Only a paint that holds by every sign is shown as good, only one that fails as bad", "[unit]") {
    auto subject = oil_subject();
    auto& judgement = *subject.judgement;
    for (const bool holds : {true, false})
        for (const auto verdict : {Verdict::green, Verdict::amber_over})
            for (const auto certainty : {Certainty::sure, Certainty::doubtful})
                for (const bool objected : {false, true}) {
                    judgement.holds = holds, judgement.verdict = verdict, judgement.certainty = certainty;
                    judgement.objections.clear();
                    if (objected) judgement.objections = {Objection{ObjectionKind::binds_weakly, VolumeFraction::of(0.4), VolumeFraction::of(0.5)}};
                    const auto block = verdict_block(subject);
                    const bool good = verdict == Verdict::green && certainty == Certainty::sure && !objected;
                    CAPTURE(holds, good);
                    CHECK(block.tone == (!holds ? page::Tone::bad : good ? page::Tone::good : page::Tone::care));
                    CHECK(block.seal == (!holds ? page::Verdict::Seal::fails : good ? page::Verdict::Seal::holds : page::Verdict::Seal::may_hold));
                }
}

TEST_CASE("The axis of twenty dots goes by steps that leave eight to it at most, from below the window to above it", "[unit]") {
    // By hand: from the greater of .95 and .6 of the window's foot to 1.4 of its top, since these dots lie beyond it; out
    // to whole steps of .2, .5, 1, 2, 5, 10 or 50, the first of which eight or fewer reach.
    struct Case { double foot, top, low, high; };
    for (const auto& c : {Case{1, 1.5, 0.8, 2.2}, {1, 1.8, 0.8, 2.6}, {1, 1.85, 0.5, 3.0}, {1, 2.2, 0.5, 3.5}, {1, 3.5, 0.5, 5.0}, {1, 3.6, 0, 6},
                          {1, 6.3, 0, 9}, {1, 6.5, 0, 10}, {1, 12, 0, 18}, {1, 12.5, 0, 20}, {1, 29, 0, 45}, {1, 30, 0, 50}, {1, 57, 0, 80},
                          {1, 60, 0, 100}, {4, 6, 2, 9}}) {
        auto subject = oil_subject();
        auto& window = subject.request.recipe.family.window;
        window = {BinderSufficiency::of(c.foot), BinderSufficiency::of(c.foot + 0.1), BinderSufficiency::of(c.foot + 0.3), BinderSufficiency::of(c.top)};
        subject.judgement->k = BinderSufficiency::of(5000.0);
        subject.chance->doubt = NormalMixture(0.01);
        const auto plot = [&] { return std::get<page::DotPlot>(std::get<page::Picture>(verdict_block(subject).beside.at(0).is).is); };
        CAPTURE(c.foot, c.top);
        CHECK(plot().axis.low == Approx(c.low).margin(1e-9));
        CHECK(plot().axis.high == Approx(c.high));
    }
    // Dots below the window: down to .6 of its foot, .45; up to 1.05 of where it holds, 1.785; steps of .2.
    auto subject = oil_subject();
    subject.request.recipe.family.window.amber_low = BinderSufficiency::of(0.75);
    subject.judgement->k = BinderSufficiency::of(1e-4);
    subject.chance->doubt = NormalMixture(0.01);
    const auto plot = std::get<page::DotPlot>(std::get<page::Picture>(verdict_block(subject).beside.at(0).is).is);
    CHECK(plot.axis.low == Approx(0.4));
    CHECK(plot.axis.high == Approx(1.8));
    REQUIRE(plot.limits.size() == 1);
    CHECK(plot.limits[0].at == Approx(1.0));
}

TEST_CASE("Five bars of doubt at most, none below a hundredth, and all the rest in one", "[unit]") {
    const std::string spoon = "filling of the spoon | ", density = "density, Weld lake | ";
    CHECK(doubt_bars(doubted({0.05, 0.30, 0.25, 0.20, 0.10, 0.08, 0.02})) ==
          std::vector<std::string>{density + "30 % | hatched", spoon + "25 % | solid", spoon + "20 % | hatched", spoon + "10 % | solid", spoon + "8.0 % | hatched",
                                   "all the rest | 7.0 % | hatched"});
    CHECK(doubt_bars(doubted({0.6, 0.30, 0.0801, 0.01, 0.0099})) ==
          std::vector<std::string>{spoon + "60 % | solid", density + "30 % | hatched", spoon + "8.0 % | solid", spoon + "1.0 % | hatched", "all the rest | 1.0 % | hatched"});
    CHECK(doubt_bars(doubted({0.5, 0.5, 0.0})) == std::vector<std::string>{spoon + "50 % | solid", density + "50 % | hatched"}); // as they come
    CHECK(doubt_bars(doubted({0.9996, 0.0004})) == std::vector<std::string>{spoon + "above 99.9 % | solid", "all the rest | below 0.1 % | hatched"});
    CHECK(doubt_bars(doubted({0.2, 0.2, 0.2, 0.2, 0.2})) ==
          std::vector<std::string>{spoon + "20 % | solid", density + "20 % | hatched", spoon + "20 % | solid", spoon + "20 % | hatched", spoon + "20 % | solid"});
}

TEST_CASE("What rounding down leaves of a hundred goes to the largest rests, the first of those alike", "[unit]") {
    const auto parts = [](double below, double in, double above) {
        WindowChances chances;
        chances.below_green = Probability::of(below), chances.in_window = Probability::of(in), chances.above_green = Probability::of(above);
        const auto p = of_hundred(chances);
        return std::vector<int>{p.leaner, p.in_window, p.richer};
    };
    CHECK(parts(0.103, 0.703, 0.194) == std::vector<int>{10, 70, 20});
    CHECK(parts(0.108, 0.698, 0.194) == std::vector<int>{11, 70, 19});
    CHECK(parts(0.0, 1.0, 0.0) == std::vector<int>{0, 100, 0});
    CHECK(parts(0.25, 0.5, 0.25) == std::vector<int>{25, 50, 25});
    CHECK(parts(0.125, 0.75, 0.125) == std::vector<int>{13, 75, 12}); // both rests are a half: the leaner has it
    CHECK(parts(0.3125, 0.375, 0.3125) == std::vector<int>{31, 38, 31});
}
