#include "lakebound/report/stepwise_sheet.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "lakebound/page/text_writer.hpp"
#include "lakebound/report/swatch_test.hpp"
#include "support/example_paint.hpp"
#include "support/page_width.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

/// A jar that wants 1.25 times what the library expects of its class, on one scale.
JarStory one_jar() {
    JarStory story;
    story.id = "weld";
    story.name = "Weld";
    story.family.name = "Watercolour in pans";
    story.family.id = "watercolour-pan";
    story.medium_id = "gum-water";
    story.medium_name = "Gum water";
    story.bench.scales = {{"pocket scale", grams(0.01), grams(200.0), {}}};
    story.today = std::chrono::sys_days(std::chrono::year(2026) / 5 / 3);
    story.habits.binders[0].drying = minutes(24 * 60);
    story.outlook.demand_over_library = 1.25;
    return story;
}
LastDose last(double medium, double in_all, double k, double chance) {
    return {grams(medium), grams(in_all), BinderSufficiency::of(k), Probability::of(chance)};
}
StepwisePlan two_doses() {
    StepwisePlan plan;
    plan.question.powder = grams(6.0);
    plan.question.stroke_powder = grams(0.2);
    plan.mix.in_window = Probability::of(0.91);
    plan.mix.strokes_expected = 1.7;
    plan.mix.doses = {{grams(9.2), 0, grams(9.2), BinderSufficiency::of(0.75), Probability::of(1.0), Probability::of(0.7),
                       last(3.3, 12.61, 1.0, 0.78)},
                      {grams(1.6), 0, grams(10.86), BinderSufficiency::of(1.0), Probability::of(0.7), Probability::of(0.5),
                       last(0.0, 10.86, 1.0, 0.93)}};
    plan.mix.if_all_chalk = last(12.8, 24.0, 2.5, 0.80);
    return plan;
}

} // namespace

TEST_CASE("The sheet of a stepwise batch says dose by dose what to add, and what to enter", "[unit]") {
    const auto text = page::write_text(stepwise_page(one_jar(), two_doses()));
    check_page(text);
    CHECK_THAT(text, Contains("STOP AT THE FIRST STROKE THAT DOES NOT CHALK") && Contains("9 chances in 10 (91 %)"));
    // k by the jar's own demand: .75/1.25 and 1/1.25.
    CHECK_THAT(text, Contains("9.20 g   0.60     70 %      + 3.30 g     0.80        78 %"));
    CHECK_THAT(text, Contains("1.60 g   0.80     50 %       nothing     0.80        93 %"));
    CHECK_THAT(text, Contains("If every stroke chalks: + 12.80 g, to k 2.00; 80 % in the window."));
    CHECK_THAT(text, Contains("--stroke \"6.00 g, 9.20 g: chalks\"") && Contains("--mixed \"6.00 g, 12.61 g\""));
    CHECK_THAT(text, Contains("About 2 strokes are to be expected, 2 at most") && Contains("rubbed: a day."));
}

TEST_CASE("The same as JSON", "[unit]") {
    const auto json = nlohmann::json::parse(stepwise_json(one_jar(), two_doses()));
    CHECK(json["kind"] == "stepwise");
    CHECK(json["doses"][0]["k"].get<double>() == Approx(0.6));
    CHECK(json["doses"][0]["if_not"]["library_k"].get<double>() == Approx(1.0));
    CHECK(json["doses"][1]["reached"].get<double>() == Approx(0.7));
    CHECK(json["doses"][1]["in_all_g"].get<double>() == Approx(10.86));
    CHECK(json["if_all_chalk"]["medium_g"].get<double>() == Approx(12.8));
}

TEST_CASE("The swatch test says how long each kind of paint dries and what to look at", "[unit]") {
    LearningHabits habits;
    habits.binders[0].drying = minutes(24 * 60);
    habits.binders[1].drying = minutes(7 * 24 * 60);
    const auto gum = page::write_text(swatch_test_page(example_family(Process::watercolour), habits, {}));
    const auto oil = page::write_text(swatch_test_page(example_family(Process::oil), habits, {}));
    check_page(gum);
    check_page(oil);
    CHECK_THAT(gum, Contains("for a day;") && !Contains("wrinkles."));
    CHECK_THAT(oil, Contains("for 7 days;") && Contains("A skin in folds: wrinkles."));
}

TEST_CASE("The sheet of a batch on the slab goes on, and ends", "[unit]") {
    auto plan = two_doses();
    plan.question.started = StartedBatch{BinderSufficiency::of(0.6), 2, true};
    const auto on = page::write_text(stepwise_page(one_jar(), plan));
    check_page(on);
    CHECK_THAT(on, Contains("on the slab since") && Contains("GO ON WITH") && Contains("About 2 more strokes"));
    CHECK_THAT(on, Contains("Brought\n  there at once, without more strokes,") || Contains("Brought there at once, without more strokes"));
    CHECK(on.find("BEGIN WITH") == std::string::npos);
    const auto json = nlohmann::json::parse(stepwise_json(one_jar(), plan));
    CHECK(json["on_slab"]["strokes"] == 2);
    CHECK(json["on_slab"]["library_k"].get<double>() == Approx(0.6));

    plan.mix.doses.clear();
    plan.mix.if_all_chalk = last(2.0, 11.0, 1.75, 0.93);
    const auto last_one = page::write_text(stepwise_page(one_jar(), plan));
    check_page(last_one);
    CHECK_THAT(last_one, Contains("WORK IN THE LAST DOSE, AND STOP") && Contains("2.00 g of gum water more, to k 1.40.") &&
                             Contains("--mixed \"6.00 g, 11.00 g\""));
    plan.mix.if_all_chalk = last(0.0, 11.0, 1.75, 0.93);
    CHECK_THAT(page::write_text(stepwise_page(one_jar(), plan)), Contains("IT IS DONE: LEAVE IT"));
    auto story = one_jar();
    story.outlook.coaching.now.chance = Probability::of(0.9);
    plan.mix.if_all_chalk = last(0.0, 40.0, 3.0, 0.06);
    const auto rich = page::write_text(stepwise_page(story, plan));
    CHECK_THAT(rich, Contains("TOO RICH BY NOW: IT WANTS POWDER") && Contains("--mixed \"6.00 g, 40.00 g\"") && Contains("--poured \"40.00 g\""));
}
