#include "lakebound/report/record_words.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace lakebound;
using std::chrono::days;
using std::chrono::sys_days;
using namespace std::chrono_literals;

namespace {

const sys_days third_of_may = 2026y / std::chrono::May / 3;

JarStory story_on_two_scales() {
    JarStory story;
    story.bench.scales = {{"kitchen scale", grams(0.1), std::nullopt, std::nullopt},
                          {"pocket scale", grams(0.01), std::nullopt, std::nullopt}};
    return story;
}
template <class What> std::string happened(What what, std::optional<PaintSign> sign = {}, const std::string& note = {}) {
    StoryLine line;
    line.entry.day = third_of_may;
    line.entry.what = std::move(what);
    line.medium = "gum-water";
    line.medium_mass = grams(0.83);
    line.sign = sign;
    line.note = note;
    return happened_text(story_on_two_scales(), line);
}
PaintMade swatch_paint() {
    PaintMade paint;
    paint.library_k = BinderSufficiency::of(1.2);
    paint.powder = grams(0.2);
    return paint;
}
StepCost cost(StepKind kind, std::size_t swatches = 0) { return {kind, swatches, minutes(10), grams(0.2), lakebound::hours(24)}; }
Coaching coached(CoachAdvice advice, StepCost step = {}) {
    Coaching c;
    c.advice = advice;
    c.now.chance = Probability::of(0.6);
    CoachStep one;
    one.cost = step;
    one.value = Probability::of(0.75);
    c.steps = {one};
    if (advice == CoachAdvice::measure) c.recommended = 0;
    return c;
}

} // namespace

TEST_CASE("each entry is told as a person says it, on the finest scale", "[unit]") {
    CHECK(day_text(third_of_may) == "2026-05-03");
    CHECK(happened(WeighedEntry{grams(40), grams(0.1)}) == "weighed: 40.00 g");
    CHECK(happened(DrawnEntry{grams(4), grams(0.1)}) == "4.00 g drawn");
    CHECK(happened(RubOutEntry{grams_per_100_grams(78), 0.0, grams(2)}) == "rub-out: 78.0 g/100 g, 2.00 g used");
    MeasuredEntry m;
    m.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.88), {});
    CHECK(happened(m) == "measured: density 1.88 g/cm3");
    m.density.reset();
    m.tapped_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.35), {});
    m.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.05), {});
    m.median_size = Estimate<Length>::exact(micrometres(12), {});
    CHECK(happened(m).rfind("measured: tapped density 0.350 g/cm3", 0) == 0);
    CHECK(happened(m).find("moisture 5.0 %") != std::string::npos);
    CHECK(happened(m).find("median size 12") != std::string::npos);
    CHECK(happened(SwatchEntry{swatch_paint(), {}}).rfind("swatch of k 1.20, 0.20 g with 0.83 g of gum-water: not judged yet", 0) == 0);
    CHECK(happened(SwatchEntry{swatch_paint(), {}}, PaintSign::chalks).find(": chalks") != std::string::npos);
    auto stroke = swatch_paint();
    stroke.powder = Mass();
    CHECK(happened(SwatchEntry{stroke, {}}) == "stroke at k 1.20: not judged yet");
    auto blend = swatch_paint();
    blend.of_this_jar_alone = false;
    CHECK(happened(BatchEntry{blend}, PaintSign::holds) == "batch of 0.20 g in a blend with 0.83 g of gum-water: holds");
    CHECK(happened(OutcomeEntry{"e", PaintSign::stays_sticky}) == "stays sticky");
    CHECK(happened(ChangedEntry{}).rfind("ground again", 0) == 0);
    CHECK(happened(NoteEntry{}, {}, "smells of vinegar") == "note; smells of vinegar");
    CHECK(happened(UndoEntry{"e"}) == "undone");
}

TEST_CASE("steps have their words, their keys and their costs", "[unit]") {
    CHECK(step_words(cost(StepKind::rub_out)) == "a rub-out");
    CHECK(step_words(cost(StepKind::solids_test)) == "a test of the medium's solids");
    CHECK(step_words(cost(StepKind::swatches, 1)) == "a swatch");
    CHECK(step_words(cost(StepKind::swatches, 2)) == "two swatches at once");
    CHECK(step_words(cost(StepKind::swatches, 4)) == "four swatches at once");
    CHECK(step_words(cost(StepKind::swatches, 3)) == "3 swatches at once");
    CHECK(key_of(StepKind::rub_out) == "rub_out");
    CHECK(key_of(StepKind::solids_test) == "solids_test");
    CHECK(key_of(StepKind::swatches) == "swatches");
    CHECK(key_of(CoachAdvice::measure) == "measure");
    CHECK(key_of(CoachAdvice::target_met) == "target_met");
    CHECK(key_of(CoachAdvice::nothing_pays) == "nothing_pays");
    CHECK(key_of(CoachAdvice::steps_used_up) == "steps_used_up");
    CHECK(waiting_text(lakebound::hours(20)) == "a day");
    CHECK(waiting_text(lakebound::hours(25)) == "2 days");
    CHECK(cost_text(cost(StepKind::rub_out)) == "10 min, 0.20 g of powder, a day of waiting");
    CHECK(cost_text({StepKind::solids_test, 0, minutes(12), Mass(), Time()}) == "12 min");
}

TEST_CASE("the card's head says what comes first", "[unit]") {
    CHECK(coach_head(coached(CoachAdvice::target_met)) == "Enough is known: paint");
    CHECK(coach_head(coached(CoachAdvice::nothing_pays)) == "Paint: nothing more pays");
    CHECK(coach_head(coached(CoachAdvice::steps_used_up)) == "Paint with what is known");
    CHECK(coach_head(coached(CoachAdvice::measure, cost(StepKind::rub_out))) == "First a rub-out");
    CHECK(coach_head(coached(CoachAdvice::measure, cost(StepKind::solids_test))) == "First the solids of the medium");
    CHECK(coach_head(coached(CoachAdvice::measure, cost(StepKind::swatches, 1))) == "First paint a swatch");
    CHECK(coach_head(coached(CoachAdvice::measure, cost(StepKind::swatches, 2))) == "First paint two swatches");
    JarStory story = story_on_two_scales();
    story.outlook.coaching = coached(CoachAdvice::target_met);
    CHECK(next_head(story) == "Enough is known: paint");
    CHECK(next_key(story) == "target_met");
    story.open = {{0, true, third_of_may, false}};
    CHECK(next_head(story) == "Let the swatch dry");
    CHECK(next_key(story) == "wait_for_swatch");
    story.open[0].is_ready = true;
    CHECK(next_head(story) == "Rub the swatch");
    CHECK(next_key(story) == "judge_swatch");
    story.open.push_back(story.open[0]);
    CHECK(next_head(story) == "Rub the swatches");
    story.open[0].is_ready = story.open[1].is_ready = false;
    CHECK(next_head(story) == "Let the swatches dry");
    story.slab = StoryOfSlab{};
    CHECK(next_head(story) == "Go on with the paint on the slab");
    CHECK(next_key(story) == "finish_batch");
}

TEST_CASE("an odd figure and swatches that disagree are told with what to do", "[unit]") {
    JarStory story = story_on_two_scales();
    story.odd_figures = {{MeasuredDensity::density, grams_per_cubic_centimetre(19.0), grams_per_cubic_centimetre(1.9), 10.0},
                         {MeasuredDensity::tapped_density, grams_per_cubic_centimetre(0.1), grams_per_cubic_centimetre(0.5), 0.2}};
    const auto judged = [](std::size_t number, PaintSign sign) {
        StoryLine line;
        SwatchEntry swatch;
        swatch.paint = swatch_paint();
        line.entry.what = swatch;
        line.number = number;
        line.sign = sign;
        return line;
    };
    story.lines = {judged(2, PaintSign::chalks), judged(3, PaintSign::holds)};
    const auto lines = record_warnings(story);
    REQUIRE(lines.size() == 3);
    CHECK(lines[0].rfind("The density that was measured, 19.0 g/cm", 0) == 0);
    CHECK(lines[0].find(" is 10 times what its kind has, 1.90 g/cm") != std::string::npos);
    CHECK(lines[1].rfind("The tapped density that was measured, ", 0) == 0);
    CHECK(lines[1].find(" is 0.20 times ") != std::string::npos);
    CHECK(lines[2].rfind("Swatches 2 and 3 are one paint, k 1.20, and showed different things: chalks and holds.", 0) == 0);
}

TEST_CASE("the advice tells what it costs and what it brings", "[unit]") {
    LearningHabits habits;
    for (auto& binder : habits.binders)
        binder.drying = lakebound::hours(24);
    habits.binders[static_cast<std::size_t>(Process::oil)].drying = lakebound::hours(24 * 14);
    JarOutlook outlook;
    outlook.coaching = coached(CoachAdvice::measure, cost(StepKind::rub_out));
    const auto rub = coach_text(outlook, habits, Process::watercolour);
    CHECK(rub.rfind("A rub-out: 10 min, 0.20 g of powder, a day of waiting. ", 0) == 0);
    CHECK(rub.find("from 60 % to 75 %") != std::string::npos);
    CHECK(rub.find("known only by its kind") != std::string::npos);
    outlook.own_readings.readings = 1;
    CHECK(coach_text(outlook, habits, Process::watercolour).find("known only by its kind") == std::string::npos);
    outlook.coaching = coached(CoachAdvice::measure, cost(StepKind::swatches, 1));
    CHECK(coach_text(outlook, habits, Process::watercolour).find("even bet whether it chalks") != std::string::npos);
    CHECK(coach_text(outlook, habits, Process::watercolour).find("Oil wants patience") == std::string::npos);
    CHECK(coach_text(outlook, habits, Process::oil).find("Oil wants patience") != std::string::npos);
    outlook.coaching = coached(CoachAdvice::measure, cost(StepKind::swatches, 2));
    CHECK(coach_text(outlook, habits, Process::watercolour).find("They lie about the even bet") != std::string::npos);
    outlook.coaching = coached(CoachAdvice::target_met);
    CHECK(coach_text(outlook, habits, Process::oil).rfind("More tests would tell little.", 0) == 0);
    outlook.coaching = coached(CoachAdvice::nothing_pays, cost(StepKind::swatches, 4));
    CHECK(coach_text(outlook, habits, Process::oil).find("75 %, by four swatches at once (10 min") != std::string::npos);
    outlook.coaching.steps.clear();
    CHECK(coach_text(outlook, habits, Process::oil) == "Paint, and enter how it went: that teaches too.");
}

TEST_CASE("where the chance comes from is told source by source", "[unit]") {
    JarOutlook outlook;
    outlook.library.chance = Probability::of(0.5);
    CHECK(worth_lines(outlook).size() == 1);
    CHECK(worth_lines(outlook)[0].what == "the library alone");
    outlook.kin.readings = 2, outlook.kin.paints = 1, outlook.kin.chance = Probability::of(0.6);
    outlook.own_readings.readings = 1, outlook.own_readings.chance = Probability::of(0.7);
    outlook.own_paints.paints = 3, outlook.own_paints.chance = Probability::of(0.8);
    const auto lines = worth_lines(outlook);
    REQUIRE(lines.size() == 4);
    CHECK(lines[1].what.rfind("your other jars: 2 rub-outs", 0) == 0);
    CHECK(lines[1].what.find("1 paint judged") != std::string::npos);
    CHECK(lines[2].what == "this jar: 1 rub-out");
    CHECK(lines[3].what == "this jar: 3 paints judged");
    CHECK(lines[3].chance.value() == Approx(0.8));
    // What there is none of is not said.
    outlook.kin.readings = 0;
    CHECK(worth_lines(outlook)[1].what == "your other jars: 1 paint judged");
    outlook.kin.readings = 1, outlook.kin.paints = 0;
    CHECK(worth_lines(outlook)[1].what == "your other jars: 1 rub-out");
    CHECK(outlook_warnings(outlook).empty());
    outlook.worth_saying = true;
    outlook.kin_distance.reading = std::log(2.0);
    CHECK(outlook_warnings(outlook).at(0).find("This jar drinks 2.0 times") == 0);
    CHECK(outlook_warnings(outlook).at(0).find("reckoned by itself") == std::string::npos);
    outlook.unlike_its_kin = true;
    CHECK(outlook_warnings(outlook).at(0).find("reckoned by itself") != std::string::npos);
}

TEST_CASE("days as people say them", "[unit]") {
    using namespace std::chrono_literals;
    const std::chrono::sys_days day = 2026y / std::chrono::May / 14;
    CHECK(weekday_text(day) == "Thursday 14 May");
    CHECK(weekday_range_text(day, day) == "Thursday 14 May");
    CHECK(weekday_range_text(day, day + std::chrono::days(2)) == "Thursday 14 to Saturday 16 May");
    CHECK(weekday_range_text(day, day + std::chrono::days(20)) == "Thursday 14 May to Wednesday 3 June");
}
