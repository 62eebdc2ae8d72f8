// Whole cards of jars, studios and strokes, line by line as a person or a program gets them. The texts under expected/
// were read; what is new there must be read before it is kept.
#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/record/poured.hpp"
#include "lakebound/report/jar_card.hpp"
#include "lakebound/report/record_words.hpp"
#include "lakebound/report/shelf_list.hpp"
#include "lakebound/report/stepwise_sheet.hpp"
#include "lakebound/report/swatch_test.hpp"
#include "support/example_paint.hpp"
#include "support/seven_grams.hpp"
#include "support/whole_answer.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using std::chrono::days;

namespace {

const std::chrono::sys_days third_of_may{std::chrono::year(2026) / 5 / 3};

StepCost cost(StepKind kind, std::size_t swatches, double min, double powder, double wait_h) {
    return {kind, swatches, minutes(min), grams(powder), hours(wait_h)};
}
CoachStep step(StepCost cost, double value, std::vector<double> at = {}) {
    CoachStep s;
    s.cost = cost;
    s.value = Probability::of(value);
    s.gain = value - 0.74;
    s.gain_for_price = s.gain / 30.0;
    for (const double k : at)
        s.at.push_back(BinderSufficiency::of(k));
    return s;
}
template <class What> StoryLine line_of(int day, const std::string& name, What what) {
    StoryLine line;
    line.name = name;
    line.entry.id = "weld/" + name;
    line.entry.jar = "weld";
    line.entry.day = third_of_may + days(day);
    line.entry.what = std::move(what);
    return line;
}
PaintMade paint(double k, double powder) {
    PaintMade p;
    p.library_k = BinderSufficiency::of(k);
    p.powder = grams(powder);
    return p;
}

/// Weld, that wants a quarter more than the library expects: weighed, rubbed out, painted once.
JarStory weld() {
    JarStory s;
    s.id = "weld", s.name = "Weld lake", s.plant = "weld-root", s.studio = "reedmere", s.kin = 2;
    s.family = example_family(Process::watercolour);
    s.medium_id = "gum-water", s.medium_name = "Gum water with glycerol";
    s.bench = example_bench();
    s.swatch_materials = {{"Weld lake", {Hazard::dust, Hazard::light_sensitive}}};
    s.rub_out_materials = {{"Weld lake", {Hazard::dust, Hazard::light_sensitive}}, {"Linseed oil", {Hazard::self_heating}}};
    s.today = third_of_may + days(10);
    for (auto& binder : s.habits.binders)
        binder.drying = hours(24);
    s.habits.binders[static_cast<std::size_t>(Process::oil)].drying = hours(24 * 14);
    s.card.left = grams(17.42), s.card.uncertainty = grams(0.06);
    s.card.left_from = {0};
    s.card.measured.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.88), {});
    s.card.measured.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.045), {});
    s.lines.push_back(line_of(0, "2026-05-03-weighed", WeighedEntry{grams(24.0), grams(0.05)}));
    s.lines.push_back(line_of(1, "2026-05-04-rub-out", RubOutEntry{grams_per_100_grams(78.0), 0.0, grams(2.0)}));
    auto swatch = line_of(2, "2026-05-05-swatch", SwatchEntry{paint(1.2, 0.2), PaintSign::chalks});
    swatch.medium = "gum-water", swatch.medium_mass = grams(0.83), swatch.sign = PaintSign::chalks, swatch.number = 1;
    swatch.judged = third_of_may + days(2), swatch.dry = third_of_may + days(3), swatch.note = "in a hurry";
    s.lines.push_back(swatch);
    auto batch = line_of(5, "2026-05-08-batch", BatchEntry{paint(1.6, 4.0)});
    batch.medium = "gum-water", batch.medium_mass = grams(14.0), batch.number = 2;
    s.lines.push_back(batch);
    s.batches = {3};
    s.lines.push_back(line_of(6, "2026-05-09-drawn", DrawnEntry{grams(0.5), grams(0.01)}));
    auto blend = line_of(7, "2026-05-10-batch", BatchEntry{paint(1.5, 2.0)});
    std::get<BatchEntry>(blend.entry.what).paint.of_this_jar_alone = false;
    blend.sign = PaintSign::holds, blend.number = 3;
    s.lines.push_back(blend);
    s.lines.push_back(line_of(8, "2026-05-11-outcome", OutcomeEntry{"weld/2026-05-10-batch", PaintSign::holds}));
    s.lines.push_back(line_of(9, "2026-05-12-note", NoteEntry{}));
    s.lines.back().note = "smells of vinegar";
    auto& o = s.outlook;
    o.demand_over_library = 1.25, o.demand_low = 1.1, o.demand_high = 1.42;
    o.oil_absorption = grams_per_100_grams(80.6);
    o.oil_absorption_spread = 0.06, o.step_from_oil = 1.02, o.odd_maker = 0.03;
    o.doubt = NormalMixture(0.09);
    o.aim = BinderSufficiency::of(1.45);
    o.library.chance = Probability::of(0.62);
    o.kin = {3, 2, Probability::of(0.68)};
    o.own_readings = {1, 0, Probability::of(0.71)};
    o.own_paints = {0, 1, Probability::of(0.74)};
    auto& c = o.coaching;
    c.now = {BinderSufficiency::of(1.81), Probability::of(0.74)};
    c.even_bet = BinderSufficiency::of(1.3);
    c.steps = {step(cost(StepKind::swatches, 2, 40, 0.4, 24), 0.86, {1.2, 1.5}), step(cost(StepKind::rub_out, 0, 10, 2, 0), 0.80),
               step(cost(StepKind::solids_test, 0, 12, 0, 24), 0.75)};
    c.recommended = 0;
    o.swatches = {{1, grams(0.2), grams(0.71), BinderSufficiency::of(1.2), 0.03}, {1, grams(0.2), grams(0.88), BinderSufficiency::of(1.5), 0.03}};
    return s;
}
std::string card(const JarStory& story, const std::string& kept = {}, const std::string& taken_back = {}) {
    const JarAnswerWords words{kept, taken_back, kept.empty() ? std::vector<std::string>{} : std::vector<std::string>{"The drops are as before."}};
    return whole(jar_page(story, words)) + "\n" + whole_json(jar_json(story, words));
}

} // namespace

TEST_CASE("The card of a jar, whole", "[unit]") {
    auto story = weld();
    check_expected("report", "jar", card(story));
    check_expected("report", "jar-just-entered", card(story, "entries/2026-05-13-drawn.yaml", "weighed: 24.00 g") + card(story, "entries/x.yaml"));
    auto bathed = story;
    bathed.lake = {Estimate<MassFraction>::lognormal(MassFraction::of(0.008), 1.4, {Origin::computed, "computed from the bath", false}),
                   Estimate<Ph>::normal(Ph::of(7.4), Ph::Difference::of(0.5), {Origin::measured, {}, false})};
    bathed.colour = {"warm rose, wet; brick red, dry", 12, Estimate<Ph>::normal(Ph::of(6.6), Ph::Difference::of(0.2), {Origin::measured, {}, false})};
    const LakeLimits limits{MassFraction::of(0.01), MassFraction::of(0.005), Share::of(0.05), Ph::of(8.0), Probability::of(0.1)};
    const PaintOfLake paint{Process::watercolour, false, MassFraction::of(1.0), {{"sodium-benzoate", "Sodium benzoate", PreservativeAcid::benzoic, true}}};
    bathed.remains = jar_remains(paint, bathed.lake, limits);
    bathed.remains_warnings = remains_warnings(bathed.remains, paint, bathed.lake, limits);
    check_expected("report", "jar-out-of-a-bath", card(bathed));
    story.outlook.coaching.recommended = 1;
    story.bench_assumed = true;
    story.kin = 1, story.outlook.own_readings = {};
    check_expected("report", "jar-to-rub-out", card(story));
    story.outlook.coaching.steps.erase(story.outlook.coaching.steps.begin(), story.outlook.coaching.steps.begin() + 2);
    story.outlook.coaching.recommended = 0;
    story.card.left.reset();
    story.outlook.own_paints = {}, story.wanted = Probability::of(0.9);
    check_expected("report", "jar-to-dry-its-medium", card(story));
}

TEST_CASE("A jar to paint with, or to wait for, whole", "[unit]") {
    auto story = weld();
    story.outlook.coaching.advice = CoachAdvice::target_met;
    story.outlook.coaching.recommended.reset();
    story.recipe_id = "lake-pans", story.bottle = "shelf two", story.kin = 0, story.plant = "weld";
    story.outlook.own_readings = story.outlook.own_paints = story.outlook.kin = {};
    story.card.from_its_file = true, story.card.left_from.clear();
    check_expected("report", "jar-to-paint", card(story) + card(story, "entries/2026-05-13-drawn.yaml"));
    story.outlook.coaching.advice = CoachAdvice::nothing_pays;
    story.recipe_id.clear();
    check_expected("report", "jar-that-nothing-pays-for", card(story));
    story.habits.swatch_powder = grams(0.2);
    story.card.left = grams(0.05), story.missing = {"2026-05-05-02"};
    check_expected("report", "jar-that-is-empty", card(story));
    story.habits.swatch_powder = {}, story.card.left = grams(17.42), story.missing.clear();
    story.lines[2].sign.reset();
    story.open = {{2, true, third_of_may + days(11), false}};
    story.outlook.worth_saying = story.outlook.unlike_its_kin = true;
    story.outlook.kin_distance = {1, std::log(1.6), std::log(1.1), 0.15, 2.6};
    story.outlook.surprises = {{std::size_t{0}, {}, Probability::of(0.004)}, {{}, std::size_t{1}, Probability::of(0.02)}};
    story.card.losses = {{grams(1.3), grams(0.1), 0, third_of_may}, {grams(-0.4), grams(0.1), 0, third_of_may}};
    check_expected("report", "jar-to-wait-for", card(story));
    story.open = {{2, true, third_of_may + days(4), true}, {2, true, third_of_may + days(11), false}};
    story.today = third_of_may + days(31); // news of a weighing is a month old, and told; a day later it is not
    check_expected("report", "jar-to-judge", card(story));
    story.today += days(1);
    CHECK(jar_json(story).find("A weighing found") == std::string::npos);
}

TEST_CASE("A card with all that a record can hold, whole", "[unit]") {
    auto story = weld();
    story.slab = StoryOfSlab{3, {5, 0, grams(6.0), BinderSufficiency::of(1.2), 2}};
    story.card.measured.tapped_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.42), {});
    story.card.measured.median_size = Estimate<Length>::exact(micrometres(14.0), {});
    story.card.settled = SettlingEntry{};
    story.card.settled->size = micrometres(49.0), story.card.settled->effective = grams_per_cubic_centimetre(1.21), story.card.settled->open = VolumeFraction::of(0.75);
    story.asked_paint = " --as gouache";
    std::string text = "---- a batch on the slab, not rubbed yet\n" + card(story);
    story.lines[3].sign = PaintSign::chalks;
    text += "---- rubbed\n" + card(story, "records/weld/x.yaml");
    story.slab.reset();
    story.lines[3].entry.id = "weld/2026-05-08-batch";
    story.lines.push_back(line_of(20, "2026-05-23-outcome", OutcomeEntry{"weld/2026-05-08-batch", PaintSign::chalks}));
    text += "---- a batch that was just said to fail\n" + card(story, "records/weld/x.yaml");
    const auto q = [&](double poured) { auto question = seven_grams_planned(poured, story.family.window); question.swatch_powder = grams(0.2); return question; };
    for (const double poured : {14.0, 5.0, 7.0}) // judged in use: as it was it is kept
        text += "---- poured into it\n" + whole(poured_page(story, q(poured), poured_answer(q(poured))));
    auto one = weld();
    one.outlook.coaching.steps.front().cost.swatches = 1;
    one.outlook.swatches.resize(1);
    text += "---- one swatch\n" + card(one);
    one.outlook.coaching.steps.clear(), one.outlook.coaching.recommended.reset(), one.outlook.coaching.advice = CoachAdvice::steps_used_up;
    one.lines.clear(), one.batches.clear(), one.card.measured = {}, one.recipe_id = "lake-pans", one.recipe_has_medium = true, one.bottle = "May";
    text += "---- nothing happened yet, and paint\n" + card(one);
    check_expected("report", "jar-with-everything", text);
}

TEST_CASE("What was poured besides, whole", "[unit]") {
    // By hand in tests/record/poured_test.cpp: 2 g with 7.0 g planned; 7.9, 14, 5 and 9.9 g on the slab.
    const auto story = weld();
    std::string text;
    for (const double poured : {7.9, 14.0, 5.0, 9.9}) {
        PouredQuestion q = seven_grams_planned(poured, story.family.window);
        q.jar = JarLeft{grams(0.8), grams(0.5)};
        text += whole(poured_page(story, q, poured_answer(q))) + "\n" + whole_json(poured_json(story, q, poured_answer(q)));
    }
    check_expected("report", "poured", text);
}

TEST_CASE("A studio, and what is begun in it, whole", "[unit]") {
    auto story = weld();
    auto other = story;
    other.id = "madder", other.card.left.reset(), other.open = {{2, true, third_of_may, false}};
    std::string text = whole(studio_page("Reedmere", {studio_line(story), studio_line(other)})) +
                       whole_json(studio_json("Reedmere", {studio_line(story), studio_line(other)})) + whole(studio_page("Reedmere", {})) +
                       whole_json(studio_json("Reedmere", {}));
    Jar jar;
    jar.id = "weld", jar.name = "Weld lake", jar.library_defaults = {"density", "oil absorption"};
    text += whole(new_jar_page(jar, "jars/weld.yaml")) + whole_json(new_jar_json(jar, "jars/weld.yaml")) +
            whole(new_bench_page(example_bench(), "bench.yaml"));
    check_expected("report", "studio", text);
}

TEST_CASE("A batch brought up by strokes, whole", "[unit]") {
    auto story = weld();
    StepwisePlan plan;
    plan.question.powder = grams(6.0), plan.question.stroke_powder = grams(0.2);
    plan.mix.in_window = Probability::of(0.91), plan.mix.strokes_expected = 1.7;
    const auto last = [](double medium, double in_all, double k, double chance) {
        return LastDose{grams(medium), grams(in_all), BinderSufficiency::of(k), Probability::of(chance)};
    };
    plan.mix.doses = {{grams(9.2), 0, grams(9.2), BinderSufficiency::of(0.75), Probability::of(1.0), Probability::of(0.7), last(3.3, 12.61, 1.0, 0.78)},
                      {grams(1.6), 1, grams(10.86), BinderSufficiency::of(1.0), Probability::of(0.7), Probability::of(0.5), last(0.0, 10.86, 1.0, 0.93)}};
    plan.mix.if_all_chalk = last(12.8, 24.0, 2.5, 0.80);
    std::string text = whole(stepwise_page(story, plan)) + "\n" + whole_json(stepwise_json(story, plan));
    story.card.left = grams(5.99);
    story.bench_assumed = true;
    text += whole(stepwise_page(story, plan));
    check_expected("report", "strokes", text);
}

TEST_CASE("The swatch test of each kind of paint, whole", "[unit]") {
    std::string text;
    for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera})
        text += whole(swatch_test_page(example_family(process), weld().habits, materials_of(example_request(process).recipe))) + "\n";
    check_expected("report", "swatch-tests", text);
}

TEST_CASE("What lies on the shelf, whole", "[unit]") {
    const std::vector<ListedKind> kinds{{"recipes", {{"lake-pans", "Lake in pans"}, {"lake-tube", "Lake in a tube"}}}, {"pigments", {}}};
    const std::vector<ListedFile> files{
        {"pigment", "Chalk", "pigments/chalk.yaml", "Whiting.", {{"density", "2.70 g/cm3", "published", "a table", ""}, {"oil_absorption", "18 g/100 g", "estimate", "", ""},
                                                                {"median_size", "6 um", "", "a table", ""}}},
        {"jar", "My chalk", "jars/chalk.yaml", "", {{"net_mass", "20 g", "measured", "a scale", ""}}}};
    check_expected("report", "shelf", whole(shelf_list_page(kinds)) + whole_json(shelf_list_json(kinds)) + whole(shelf_files_page("chalk", files)) + whole_json(shelf_files_json("chalk", files)));
}

TEST_CASE("What was sieved, judged and taken back is told as it happened", "[unit]") {
    auto story = weld();
    SieveTestEntry sieved;
    sieved.seen.finest = micrometres(45), sieved.seen.kept = MassFraction::of(0.12);
    story.lines.push_back(line_of(10, "2026-05-13-sieved", sieved));
    CHECK(happened_text(story, story.lines.back()) == "sieved: 12 % stays on 45 um");
    sieved.seen.used = grams(0.8);
    CHECK(happened_text(story, line_of(10, "x", sieved)) == "sieved: 12 % stays on 45 um, 0.80 g lost");
    sieved.seen.median_size = Estimate<Length>::exact(micrometres(23), {});
    CHECK(happened_text(story, line_of(10, "x", sieved)) == "sieved: half is finer than 23 um, 0.80 g lost");
    CHECK(undone_text(story, "2026-05-03-weighed") == "weighed: 24.00 g, of 2026-05-03");
    CHECK(undone_text(story, "nowhere").empty());
    // A swatch that was judged too early by an entry of its own: that is the one to take back.
    story.lines.push_back(line_of(2, "2026-05-05-outcome", OutcomeEntry{"weld/2026-05-05-swatch", PaintSign::chalks}));
    const auto warnings = record_warnings(story);
    REQUIRE(warnings.size() == 1);
    CHECK(warnings[0].find("--undo 2026-05-05-outcome") != std::string::npos);
}

TEST_CASE("A jar whose paint lies on the slab, and a batch that was told to fail, whole", "[unit]") {
    auto story = weld();
    story.lines[2].bottle = "shelf two";
    story.slab = StoryOfSlab{2, {0, 0, grams(6.0), BinderSufficiency::of(1.2), 3}};
    story.begun_anew = {{3, 2}};
    story.odd_figures = {{MeasuredDensity::density, grams_per_cubic_centimetre(18.8), grams_per_cubic_centimetre(1.88), 10.0},
                         {MeasuredDensity::tapped_density, grams_per_cubic_centimetre(0.04), grams_per_cubic_centimetre(0.4), 0.1}};
    check_expected("report", "jar-on-the-slab", card(story) + card(story, "entries/2026-05-13-stroke.yaml"));
    story.lines[2].sign.reset();
    const auto text = whole(jar_page(story));
    CHECK(text.find("not rubbed yet") != std::string::npos);
    auto failed = weld();
    failed.outlook.coaching.advice = CoachAdvice::steps_used_up;
    failed.outlook.coaching.recommended.reset();
    failed.recipe_id = "lake-pans", failed.recipe_has_medium = true;
    failed.lines.push_back(line_of(10, "2026-05-13-outcome", OutcomeEntry{"weld/2026-05-08-batch", PaintSign::chalks}));
    check_expected("report", "jar-to-mend", card(failed, "entries/2026-05-13-outcome.yaml"));
}

TEST_CASE("A jar of which all is measured, and one of which nothing is, whole", "[unit]") {
    auto story = weld();
    MeasuredEntry& all = story.card.measured;
    all.tapped_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.42), {});
    all.median_size = Estimate<Length>::exact(micrometres(12), {});
    story.card.settled = SettlingEntry{micrometres(49), grams_per_cubic_centimetre(1.25), VolumeFraction::of(0.72)};
    story.bottle = "shelf two";
    story.outlook.coaching.steps = {step(cost(StepKind::swatches, 1, 30, 0.2, 24 * 14), 0.81, {1.2}), step(cost(StepKind::swatches, 4, 80, 0.8, 24), 0.83),
                                    step(cost(StepKind::swatches, 3, 60, 0.6, 24), 0.80)};
    story.outlook.swatches.resize(1);
    story.family = example_family(Process::oil);
    story.lines.push_back(line_of(10, "2026-05-13-measured", all));
    story.lines.push_back(line_of(10, "2026-05-13-settled", SettlingTestEntry{*story.card.settled}));
    story.lines.push_back(line_of(10, "2026-05-13-stroke", SwatchEntry{paint(1.1, 0.0), PaintSign::chalks}));
    story.lines.push_back(line_of(10, "2026-05-13-changed", ChangedEntry{}));
    story.lines.push_back(line_of(10, "2026-05-13-undo", UndoEntry{}));
    check_expected("report", "jar-of-which-all-is-measured", card(story));
    story.card.measured = {}, story.card.settled.reset(), story.lines.clear(), story.batches.clear(), story.bottle.clear();
    story.card.from_its_file = true;
    story.outlook.coaching.steps.clear();
    story.outlook.coaching.advice = CoachAdvice::nothing_pays;
    story.outlook.coaching.recommended.reset();
    check_expected("report", "jar-of-which-nothing-is", card(story));
}

TEST_CASE("What was poured into a batch that was judged already, whole", "[unit]") {
    auto story = weld();
    story.lines[3].sign = PaintSign::chalks;
    std::string text;
    for (const double poured : {7.0, 5.0, 9.9}) {
        PouredQuestion q = seven_grams_planned(poured, story.family.window);
        q.swatch_powder = grams(0.2);
        text += whole(poured_page(story, q, poured_answer(q))) + "\n";
    }
    story.lines[3].sign.reset();
    auto as_planned = seven_grams_planned(7.0, story.family.window);
    text += whole(poured_page(story, as_planned, poured_answer(as_planned)));
    // The sheet said so much: what is rich wants powder, and what is right is left, with nothing to enter anew.
    for (const double poured : {14.0, 9.9}) {
        as_planned = seven_grams_planned(poured, story.family.window);
        as_planned.planned = as_planned.poured;
        text += whole(poured_page(story, as_planned, poured_answer(as_planned)));
    }
    check_expected("report", "poured-into-a-judged-batch", text);
}
