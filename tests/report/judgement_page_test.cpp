#include "lakebound/report/judgement_page.hpp"

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
