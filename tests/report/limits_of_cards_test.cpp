// Cards, sheets of strokes, sweeps and work with powder on either side of where their words and figures change.
#include <catch2/catch.hpp>

#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/jar_card.hpp"
#include "lakebound/report/powder_pictures.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/report/settle_report.hpp"
#include "lakebound/report/stepwise_sheet.hpp"
#include "lakebound/report/sweep_page.hpp"
#include "lakebound/report/warning_words.hpp"
#include "support/example_paint.hpp"
#include "support/four_pours.hpp"
#include "support/in_one_line.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

const std::chrono::sys_days third_of_may{std::chrono::year(2026) / 5 / 3};

JarStory jar() {
    JarStory story;
    story.id = "weld", story.name = "Weld lake", story.plant = "weld", story.studio = "reedmere";
    story.family = example_family(Process::watercolour);
    story.medium_id = "gum-water", story.medium_name = "Gum water";
    story.bench = example_bench();
    story.today = third_of_may;
    for (auto& binder : story.habits.binders) binder.drying = hours(24);
    story.card.left = grams(17.42), story.card.uncertainty = grams(0.06);
    story.outlook.oil_absorption = grams_per_100_grams(80.6), story.outlook.oil_absorption_spread = 0.06;
    story.outlook.coaching.advice = CoachAdvice::target_met;
    return story;
}
StoryLine swatch(std::size_t number, double powder) {
    StoryLine line;
    SwatchEntry entry;
    entry.paint.library_k = BinderSufficiency::of(1.2), entry.paint.powder = grams(powder);
    line.entry.day = third_of_may;
    line.entry.what = entry;
    line.number = number, line.medium = "gum-water", line.medium_mass = grams(0.83);
    return line;
}
std::string card(const JarStory& story) { return in_one_line(jar_page(story)); }

} // namespace

TEST_CASE("Of the swatches that wait the first that is dry stands as the example", "[unit]") {
    auto story = jar();
    story.lines = {swatch(3, 0.2), swatch(4, 0.2), swatch(5, 0.2)};
    story.open = {{0, true, third_of_may + std::chrono::days(1), false}};
    CHECK_THAT(card(story), Contains("--saw chalks How to rub it"));
    story.open.push_back({1, true, third_of_may, true});
    story.open.push_back({2, true, third_of_may, true});
    CHECK_THAT(card(story), Contains("--saw \"4 chalks\""));
    story.open[1].is_ready = story.open[2].is_ready = false;
    CHECK_THAT(card(story), Contains("--saw \"3 chalks\""));
}

TEST_CASE("A card says what the oil figure rests on, and counts what it counts", "[unit]") {
    auto story = jar();
    story.plant = "weld-root";
    const auto rests = [&](std::size_t rub_outs, std::size_t paints, std::size_t kin) {
        story.outlook.own_readings.readings = rub_outs, story.outlook.own_paints.paints = paints, story.kin = kin;
        const auto text = card(story);
        const auto from = text.find(", by ", text.find(" Oil ")) + 5;
        return text.substr(from, text.find(" Edge ", from) - from);
    };
    CHECK(rests(1, 0, 0) == "its rub-outs");
    CHECK(rests(2, 3, 1) == "its rub-outs");
    CHECK(rests(0, 1, 1) == "its swatches");
    CHECK(rests(0, 0, 1) == "its kin and its kind");
    CHECK(rests(0, 0, 0) == "its kind");
    story.kin = 1;
    CHECK_THAT(card(story), Contains("Plant weld-root, 1 other jar of it"));
    story.kin = 2;
    CHECK_THAT(card(story), Contains("Plant weld-root, 2 other jars of it"));
    story.plant = "weld";
    CHECK_THAT(card(story), !Contains("Plant weld"));
    // By its file only where nothing was weighed since.
    CHECK_THAT(card(story), !Contains(", by its file"));
    story.card.from_its_file = true;
    CHECK_THAT(card(story), Contains(" g, by its file"));
    story.card.left_from = {0};
    CHECK_THAT(card(story), !Contains(", by its file"));
}

TEST_CASE("What was painted, weighed and lost is told from above nothing on", "[unit]") {
    const auto story = jar();
    auto line = swatch(1, 0.0);
    CHECK(happened_text(story, line) == "stroke at k 1.20: not judged yet");
    line = swatch(1, 0.2);
    CHECK(happened_text(story, line) == "swatch of k 1.20, 0.20 g with 0.83 g of gum-water: not judged yet");
    line.medium_mass = grams(0.0);
    line.bottle = "shelf two";
    CHECK(happened_text(story, line) == "swatch of k 1.20, 0.20 g (bottle shelf two): not judged yet");
    SieveTestEntry sieved;
    sieved.seen.finest = micrometres(45), sieved.seen.kept = MassFraction::of(0.12);
    line.entry.what = sieved;
    CHECK(happened_text(story, line) == "sieved: 12 % stays on 45 um");
    sieved.seen.used = grams(0.04);
    line.entry.what = sieved;
    CHECK(happened_text(story, line) == "sieved: 12 % stays on 45 um, 0.04 g lost");
    CHECK(cost_text({StepKind::swatches, 1, minutes(30), grams(0.05), hours(24)}) == "30 min, 0.050 g of powder, a day of waiting");
    CHECK(cost_text({StepKind::swatches, 1, minutes(30), Mass(), hours(48)}) == "30 min, 2 days of waiting");
    CHECK(cost_text({StepKind::rub_out, 0, minutes(10), grams(2.0), Time()}) == "10 min, 2.0 g of powder");
}

TEST_CASE("The entry that judged a swatch last is the one to take back", "[unit]") {
    auto story = jar();
    auto early = swatch(1, 0.2);
    early.name = "2026-05-03-swatch", early.entry.id = "weld/2026-05-03-swatch";
    early.sign = PaintSign::chalks, early.judged = third_of_may, early.dry = third_of_may + std::chrono::days(1);
    story.lines = {early};
    const auto undo = [&] {
        const auto warnings = record_warnings(story);
        REQUIRE(warnings.size() == 1);
        const auto from = warnings[0].find("--undo ") + 7;
        return warnings[0].substr(from, warnings[0].find(',', from) - from);
    };
    CHECK(undo() == "2026-05-03-swatch");
    const auto outcome = [&](const char* name, const char* of) {
        StoryLine line;
        line.name = name, line.entry.day = third_of_may;
        line.entry.what = OutcomeEntry{of, PaintSign::chalks};
        story.lines.push_back(line);
    };
    outcome("2026-05-03-first", "weld/2026-05-03-swatch");
    CHECK(undo() == "2026-05-03-first");
    outcome("2026-05-03-second", "weld/2026-05-03-swatch");
    outcome("2026-05-03-other", "weld/another");
    CHECK(undo() == "2026-05-03-second");
}

TEST_CASE("A stroke's last dose is told however small, and a jar that holds just enough is not warned of", "[unit]") {
    const auto story = jar();
    StepwisePlan plan;
    plan.question.powder = grams(17.42), plan.question.stroke_powder = grams(0.2);
    plan.mix.in_window = Probability::of(0.91), plan.mix.strokes_expected = 1.4;
    const auto last = [](double medium) { return LastDose{grams(medium), grams(12.0), BinderSufficiency::of(1.0), Probability::of(0.78)}; };
    plan.mix.doses = {{grams(9.2), 1, grams(9.2), BinderSufficiency::of(0.75), Probability::of(1.0), Probability::of(0.7), last(0.04)},
                      {grams(0.9), 1, grams(10.1), BinderSufficiency::of(0.85), Probability::of(0.7), Probability::of(0.5), last(0.0)}};
    plan.mix.if_all_chalk = last(0.5);
    auto text = in_one_line(stepwise_page(story, plan));
    CHECK_THAT(text, Contains("1 9.20 g 0.75 70 % + 0.04 g 1.00 78 %") && Contains("2 0.90 g 0.85 50 % nothing 1.00 78 %") &&
                         Contains("If every stroke chalks: + 0.50 g, to k 1.00; 78 % in the window.") && Contains("About 1 stroke is to be expected, 2 at most.") &&
                         !Contains("The jar holds less than that"));
    plan.question.powder = grams(17.43);
    CHECK_THAT(in_one_line(stepwise_page(story, plan)), Contains("The jar holds less than that: 17.4 g."));
    auto unweighed = story;
    unweighed.card.left.reset();
    CHECK_THAT(in_one_line(stepwise_page(unweighed, plan)), !Contains("The jar holds less than that"));
    plan.mix.doses.clear(), plan.mix.if_all_chalk = last(0.04);
    CHECK_THAT(in_one_line(stepwise_page(story, plan)), Contains("WORK IN THE LAST DOSE, AND STOP") && Contains("0.04 g of gum water more"));
    plan.mix.if_all_chalk = last(0.0);
    CHECK_THAT(in_one_line(stepwise_page(story, plan)), Contains("IT IS DONE: LEAVE IT"));
}

TEST_CASE("A sweep's columns stand even where the width takes them, and in blocks no wider than it", "[unit]") {
    const auto column = [](const char* key, const std::string& heading, bool percent, std::vector<double> values) {
        return SweepColumn{key, heading, percent, std::move(values)};
    };
    SweepTable table;
    table.title = "Over it";
    table.columns = {column("medium", "medium g/g", false, {0.504, 12.24}), column("k", "k", false, {0.754, 18.41}), column("pvc", "a longer head", true, {0.5, 0.04}),
                     column("chance_underbound", "underbound", true, {0.0004, 0.0006}), column("air", "air", true, {0.0004, 1.0})};
    const std::string digits_even = "Over it\n\n   medium g/g            k  a longer head   underbound          air\n"
                                    "        0.504        0.754         50.0 %  below 0.1 %        0.0 %\n"
                                    "         12.2         18.4          4.0 %        0.1 %      100.0 %\n";
    // Even: 13 + 13 + 15 + 13 + 13 = 67. Narrow, by the longest of each with two before it: 12 + 7 + 15 + 13 + 9 = 56.
    const std::string digits_narrow = "Over it\n\n  medium g/g      k  a longer head   underbound      air\n"
                                      "       0.504  0.754         50.0 %  below 0.1 %    0.0 %\n"
                                      "        12.2   18.4          4.0 %        0.1 %  100.0 %\n";
    CHECK(sweep_text(table) == digits_even);
    CHECK(sweep_text(table, 67) == digits_even);
    CHECK(sweep_text(table, 66) == digits_narrow);
    CHECK(sweep_text(table, 56) == digits_narrow);
    // 55 takes all but the last; 19 the first two alone; less than that still one beside the first.
    CHECK(sweep_text(table, 55) == "Over it\n\n  medium g/g      k  a longer head   underbound\n"
                                   "       0.504  0.754         50.0 %  below 0.1 %\n        12.2   18.4          4.0 %        0.1 %\n\n"
                                   "  medium g/g      air\n       0.504    0.0 %\n        12.2  100.0 %\n");
    const std::string blocks = "Over it\n\n  medium g/g      k\n       0.504  0.754\n        12.2   18.4\n\n"
                               "  medium g/g  a longer head\n       0.504         50.0 %\n        12.2          4.0 %\n\n"
                               "  medium g/g   underbound\n       0.504  below 0.1 %\n        12.2        0.1 %\n\n"
                               "  medium g/g      air\n       0.504    0.0 %\n        12.2  100.0 %\n";
    CHECK(sweep_text(table, 19) == blocks);
    CHECK(sweep_text(table, 5) == blocks);
    CHECK(sweep_cell(table.columns[3], 0.0005) == "0.1 %");
    CHECK(sweep_cell(table.columns[3], 0.00049) == "below 0.1 %");
    CHECK(sweep_cell(table.columns[4], 0.0004) == "0.0 %"); // of a chance alone nothing is said to be small
    // Of 81 columns even, one more than a page has.
    table.columns[3].heading = std::string(25, 'u');
    CHECK(sweep_text(table, 81).find("\n   medium g/g  ") != std::string::npos);
    CHECK(sweep_text(table).find("\n  medium g/g      k") != std::string::npos);
}

TEST_CASE("A curve without a range is drawn in one of its own, two curves share their axis", "[unit]") {
    SweepTable table{"Over the medium", {{"medium", "medium g/g", false, {2.0, 2.0}}, {"k", "k", false, {0.5, 0.5}, true}}};
    const auto chart = [&] {
        const auto page = sweep_page(table);
        return std::get<page::Chart>(std::get<page::Picture>(page.sections.front().blocks.front().is).is);
    };
    auto drawn = chart();
    CHECK(drawn.x.low == Approx(2.0));
    CHECK(drawn.x.high == Approx(3.0));
    CHECK(drawn.y.low == Approx(0.0).margin(1e-12));
    CHECK(drawn.y.high == Approx(1.05 * 1.5));
    CHECK(drawn.y.name == "k");
    CHECK(drawn.series.at(0).label.empty());
    table.columns = {{"share", "extender", true, {0.0, 0.5}}, {"a", "CPVC additive", true, {0.3, 0.42}, true}, {"b", "CPVC possible", true, {0.3, 0.6}, true}};
    drawn = chart();
    CHECK(drawn.x.high == Approx(50.0));
    CHECK(drawn.x.unit == "%");
    CHECK(drawn.y.name == "CPVC");
    CHECK(drawn.y.unit == "%");
    CHECK(drawn.y.high == Approx(1.05 * 60.0));
    REQUIRE(drawn.series.size() == 2);
    CHECK(drawn.series[0].label == "CPVC additive");
    CHECK(drawn.series[0].stroke == page::Stroke::solid);
    CHECK(drawn.series[1].label == "CPVC possible");
    CHECK(drawn.series[1].stroke == page::Stroke::dashed);
    CHECK(drawn.series[1].points.back().y == Approx(60.0));
    table.window = SufficiencyWindow{BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(80.0), BinderSufficiency::of(90.0)};
    CHECK(chart().y.high == Approx(1.05 * 1.1 * 80.0));
    CHECK(chart().limits.at(0).at == Approx(1.0));
}

TEST_CASE("What is reached at the slab is reached, to the second", "[unit]") {
    MullQuestion asked{{{minutes(0), micrometres(60)}, {minutes(10), micrometres(38)}, {minutes(20), micrometres(27)}}, micrometres(25), micrometres(2), minutes(10)};
    auto answer = plan_mulling(asked);
    const auto says = [&](double s, const char* words) {
        answer.more_to_target = seconds(s);
        return in_one_line(mull_page(answer)).find(words) != std::string::npos;
    };
    CHECK(says(0.0, "STOP: 25 um is reached."));
    CHECK(says(-1.0, "STOP: 25 um is reached."));
    CHECK(says(0.0008, " more, to 23 min in all: 25 um is reached then."));
}

TEST_CASE("Water is drawn off where there is any to draw, now or after a wait", "[unit]") {
    auto answer = plan_decanting({"Wash", {millimetres(100.0), millimetres(62.0), millimetres(48.0), hours(2.0)}, millimetres(1), millimetres(15), Share::of(0.05)});
    const auto said = [&](double wait_s, double drawn_mm) {
        answer.wait = seconds(wait_s), answer.drawn = millimetres(drawn_mm);
        return in_one_line(decant_page(answer));
    };
    CHECK_THAT(said(0.0, 43.0), Contains("Decant now: ") && Contains("The blanket stands at 42 mm: draw"));
    CHECK_THAT(said(0.0009, 43.0), Contains("after the third") && Contains("The blanket then stands at 42 mm: draw"));
    CHECK_THAT(said(3600.0, 0.9), Contains("That is the top 1 mm of the first 100 mm."));
    CHECK_THAT(said(3600.0, 0.0), Contains("there is too little clear water to pour off"));
}

TEST_CASE("The height of a blanket is drawn up to 1, 2 or 5 of a power of ten", "[unit]") {
    for (const auto& [mm, top] : {std::pair{99.0, 100.0}, {100.0, 100.0}, {100.05, 200.0}, {199.0, 200.0}, {201.0, 500.0}, {499.0, 500.0}, {501.0, 1000.0}, {20.0, 20.0}, {50.0, 50.0}}) {
        const auto answer = plan_decanting({"Wash", {millimetres(mm), millimetres(0.62 * mm), millimetres(0.48 * mm), hours(2.0)}, millimetres(1), millimetres(15), Share::of(0.05)});
        const auto picture = blanket_picture(answer);
        CAPTURE(mm);
        CHECK(std::get<page::Chart>(picture.is).y.high == Approx(top));
    }
}

TEST_CASE("A card is glad where it bids paint, a levigation where nothing speaks against it", "[unit]") {
    const auto tone = [](const JarStory& story) {
        const auto page = jar_page(story);
        for (const auto& section : page.sections)
            for (const auto& block : section.blocks)
                if (const auto* verdict = std::get_if<page::Verdict>(&block.is)) return verdict->tone;
        return page::Tone::plain;
    };
    auto story = jar();
    for (const auto advice : {CoachAdvice::target_met, CoachAdvice::nothing_pays, CoachAdvice::steps_used_up}) {
        story.outlook.coaching.advice = advice;
        CHECK(tone(story) == page::Tone::good);
    }
    auto waiting = story;
    waiting.lines = {swatch(1, 0.2)};
    waiting.open = {{0, true, third_of_may, true}};
    CHECK(tone(waiting) == page::Tone::care);
    auto measure = story;
    measure.outlook.coaching.advice = CoachAdvice::measure;
    measure.outlook.coaching.steps.resize(1);
    measure.outlook.coaching.steps[0].cost = {StepKind::rub_out, 0, minutes(10), grams(2.0), Time()};
    measure.outlook.coaching.recommended = 0;
    CHECK(tone(measure) == page::Tone::care);
    auto empty = story;
    empty.card.left = grams(0.01), empty.card.uncertainty = grams(0.001);
    empty.habits.swatch_powder = grams(0.2);
    CHECK(tone(empty) == page::Tone::care);
    CHECK_THAT(card(empty), Contains("TOO LITTLE IS LEFT") && Contains("a swatch alone takes 0.20 g") && !Contains("Mixed now"));

    auto answer = plan_settling(four_pours(micrometres(45.0)));
    const auto glad = [&](bool slow, bool fine) {
        answer.too_slow = slow, answer.brownian = fine;
        return page::write_text(settle_page(answer), {.colour = true}).find("\x1b[1;32m  Stir, wait ") != std::string::npos;
    };
    CHECK(glad(false, false));
    CHECK_FALSE(glad(true, false));
    CHECK_FALSE(glad(false, true));
    CHECK_FALSE(glad(true, true));
}

TEST_CASE("A record of one rub-out and one paint of other jars is worth its line", "[unit]") {
    JarOutlook outlook;
    outlook.kin.readings = 1, outlook.kin.paints = 1;
    REQUIRE(worth_lines(outlook).size() == 2);
    CHECK(worth_lines(outlook)[1].what == "your other jars: 1 rub-out and 1 paint judged");
    // Swatches are not told to make up for a rub-out that was never done.
    Coaching coaching;
    coaching.advice = CoachAdvice::measure, coaching.steps.resize(1), coaching.recommended = 0;
    coaching.steps[0].cost = {StepKind::swatches, 1, minutes(30), grams(0.2), hours(24)};
    outlook.coaching = coaching;
    LearningHabits habits;
    for (auto& binder : habits.binders) binder.drying = hours(24);
    CHECK(coach_text(outlook, habits, Process::watercolour).find("known only by its kind") == std::string::npos);
}
