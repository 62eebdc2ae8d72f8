// What a page leaves out where one of two things that it stands on is not there, each of the two in turn.
#include <catch2/catch.hpp>

#include <algorithm>

#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/jar_card.hpp"
#include "lakebound/report/pvc_report.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "support/example_paint.hpp"
#include "support/grinding_tests.hpp"
#include "support/in_one_line.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

bool has_section(const page::Page& page, const std::string& heading) {
    return std::any_of(page.sections.begin(), page.sections.end(), [&](const auto& each) { return each.heading == heading; });
}

} // namespace

TEST_CASE("A sheet says what to measure next, and draws its charts, only where both stand", "[unit]") {
    const auto whole = batch_subject(example_request(Process::oil), example_tests());
    const auto shown = [](const BatchSubject& subject) {
        const auto page = weigh_sheet_page(subject);
        return std::string(has_section(page, "Measure next") ? "next " : "") + (has_section(page, "How much medium holds") ? "charts" : "");
    };
    CHECK(shown(whole) == "next charts");
    auto subject = whole;
    subject.next.reset();
    CHECK(shown(subject) == "charts");
    subject = whole;
    subject.chance.reset();
    CHECK(shown(subject).empty());
}

TEST_CASE("The limits draw how much medium holds only of a paint that was judged and whose doubt is known", "[unit]") {
    PvcQuestion asked;
    asked.request = example_request(Process::oil);
    asked.request.recipe.vessel.reset(), asked.request.jar.reset();
    asked.request.aim = BinderSufficiency::of(1.3);
    asked.pigment = grams(10.0);
    asked.tests = example_tests();
    auto subject = pvc_subject(asked);
    CHECK(has_section(pvc_page(subject), "How much medium holds"));
    auto unjudged = subject;
    unjudged.base.judgement.reset();
    CHECK_FALSE(has_section(pvc_page(unjudged), "How much medium holds"));
    CHECK_THAT(in_one_line(pvc_page(unjudged)), Contains("NO VERDICT YET"));
    subject.base.chance.reset(), subject.base.next.reset();
    CHECK_FALSE(has_section(pvc_page(subject), "How much medium holds"));
}

TEST_CASE("A grinder is asked to weigh what stays only where the rounds are open and what would stay is known", "[unit]") {
    const auto whole = planned(grind_question({early(), late()}, 45.0, 0.005));
    REQUIRE(whole.ways.front().needed);
    REQUIRE(whole.ways.front().stays_after_two);
    const auto asks = [](const GrindAnswer& answer) { return in_one_line(grind_page(answer)).find("Weigh what stays after the second round") != std::string::npos; };
    auto answer = whole;
    auto& way = answer.ways.front();
    way.needed = RoundsNeeded{4, 7u};
    CHECK(asks(answer));
    way.needed = RoundsNeeded{4, std::nullopt};
    CHECK(asks(answer));
    way.needed = RoundsNeeded{4, 4u};
    CHECK_FALSE(asks(answer));
    way.needed.reset();
    CHECK_FALSE(asks(answer));
    way.needed = RoundsNeeded{4, 7u}, way.stays_after_two.reset();
    CHECK_FALSE(asks(answer));
}

TEST_CASE("After an entry the cautions stand only where a test at the bench is advised", "[unit]") {
    JarStory story;
    story.id = "weld", story.name = "Weld lake", story.family = example_family(Process::watercolour);
    story.medium_id = "gum-water", story.medium_name = "Gum water";
    story.bench = example_bench();
    story.outlook.oil_absorption = grams_per_100_grams(80.6);
    story.outlook.coaching.steps.resize(1);
    story.outlook.coaching.steps[0].cost = {StepKind::rub_out, 0, minutes(10), grams(2.0), Time()};
    const auto cautious = [&] { return has_section(jar_page(story, {"entries/x.yaml", {}, {}}), "Take care"); };
    story.outlook.coaching.advice = CoachAdvice::measure, story.outlook.coaching.recommended = 0;
    CHECK(cautious());
    StoryLine line;
    line.entry.what = SwatchEntry{};
    story.lines = {line};
    story.open = {{0, true, {}, true}};
    CHECK_FALSE(cautious()); // a swatch waits to be rubbed first
    story.open.clear(), story.lines.clear();
    story.outlook.coaching.advice = CoachAdvice::target_met, story.outlook.coaching.recommended.reset();
    CHECK_FALSE(cautious());
}

TEST_CASE("A stock is weighed, whatever a syringe could do", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    auto& slab = subject.answer.batch->sheet.slab;
    for (auto& line : slab) line.syringe.reset();
    auto& clove = *std::find_if(slab.begin(), slab.end(), [](const auto& each) { return each.part == SheetPart::additive; });
    REQUIRE(clove.stock);
    clove.syringe = SyringeReading{0, millilitres(0.2), millilitres(0.2), 1};
    CHECK_THAT(in_one_line(weigh_sheet_page(subject)), !Contains("mL in the 5 mL syringe"));
    clove.stock.reset();
    CHECK_THAT(in_one_line(weigh_sheet_page(subject)), Contains("or 0.2 mL in the 5 mL syringe"));
}

TEST_CASE("The first letter of a sentence is a capital where it is a letter from a to z", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    auto& next = *subject.next;
    next.advice = MeasurementAdvice::measure, next.recommended = 0, next.gains = {{0, 0.1, Probability::of(0.9), 0.1, 0.01}};
    for (const auto& [name, said] : {std::pair{"a look", "A look: about"}, {"zinc test", "Zinc test: about"}, {"mull", "Mull: about"}, {"`quoted", "`quoted: about"}, {"{set}", "{set}: about"},
                                     {"10 drops", "10 drops: about"}, {"Rub-out", "Rub-out: about"}, {"\u00e9bauche", "\u00e9bauche: about"}, {"", ": about"}}) {
        subject.tests[0].name = name;
        CHECK(next_measurement_text(subject).rfind(said, 0) == 0);
    }
}
