#include "lakebound/shelf/learning_habits_file.hpp"

#include <catch2/catch.hpp>

#include "habit_rows.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

using Row = HabitRow<LearningHabits>;

const std::string head = "kind: learning habits\nname: Test\nusual_family: pans\nusual_recipes: [one, two]\n"
                         "gum_medium: gum-water\noil_medium: walnut\nyolk_medium: yolk\n";

LearningHabits habits_of(const std::string& text) {
    BenchPractice practice;
    practice.rub_out = {0.21, 5.0, 0.22};
    practice.moisture_drift = 0.23;
    return read_learning_habits(load_document("h.yaml", text), practice);
}

const std::vector<std::string> not_0_to_2 = {"-0.001", "2.001"}, all_0_to_2 = {"0", "2"};
const std::vector<std::string> not_above_0 = {"0", "2.001"}, up_to_2 = {"0.000001", "2"};
const std::vector<std::string> no_count = {"0", "1000.1"}, counts = {"0.001", "1000"};

const std::vector<Row> rows = {
    {"plant_spread", "0.201", 0.201, [](const LearningHabits& h) { return h.priors.plant_spread; }, not_0_to_2, all_0_to_2},
    {"jar_spread", "0.202", 0.202, [](const LearningHabits& h) { return h.priors.jar_spread; }, not_above_0, up_to_2},
    {"jar_spread_doubt", "0.203", 0.203, [](const LearningHabits& h) { return h.priors.jar_spread_doubt; }, not_0_to_2, all_0_to_2},
    {"unlike_jar_spread", "0.204", 0.204, [](const LearningHabits& h) { return h.priors.unlike_jar_spread; }, not_0_to_2, all_0_to_2},
    {"regrind_spread", "0.205", 0.205, [](const LearningHabits& h) { return h.priors.regrind_spread; }, not_0_to_2, all_0_to_2},
    {"chalk_bias_spread", "0.209", 0.209, [](const LearningHabits& h) { return h.priors.chalk_bias_spread; }, not_above_0, up_to_2},
    {"jar_step_spread", "0.210", 0.210, [](const LearningHabits& h) { return h.priors.jar_step_spread; }, not_0_to_2, all_0_to_2},
    {"lot_spread", "0.212", 0.212, [](const LearningHabits& h) { return h.priors.lot_spread; }, not_0_to_2, all_0_to_2},
    {"odd_share", "0.213", 0.213, [](const LearningHabits& h) { return h.priors.odd_share; }, {"-0.01", "0.501"}, {"0", "0.5"}},
    {"odd_factor", "2.14", 2.14, [](const LearningHabits& h) { return h.priors.odd_factor; }, {"0.999", "10.01"}, {"1", "10"}},
    {"solids_spread", "0.215", 0.215, [](const LearningHabits& h) { return h.priors.solids_spread; }, not_0_to_2, all_0_to_2},
    {"rich_step_spread", "0.216", 0.216, [](const LearningHabits& h) { return h.priors.rich_step_spread; }, not_above_0, up_to_2},
    {"lean_width", "0.217", 0.217, [](const LearningHabits& h) { return h.priors.lean_width; }, not_above_0, up_to_2},
    {"rich_width", "0.218", 0.218, [](const LearningHabits& h) { return h.priors.rich_width; }, not_above_0, up_to_2},
    {"use_width", "0.219", 0.219, [](const LearningHabits& h) { return h.priors.use_width; }, not_above_0, up_to_2},
    {"gum_step_spread", "0.221", 0.221, [](const LearningHabits& h) { return h.binders[0].kind.step_spread; }, not_0_to_2, all_0_to_2},
    {"oil_step_spread", "0.222", 0.222, [](const LearningHabits& h) { return h.binders[1].kind.step_spread; }, not_0_to_2, all_0_to_2},
    {"yolk_step_spread", "0.223", 0.223, [](const LearningHabits& h) { return h.binders[2].kind.step_spread; }, not_0_to_2, all_0_to_2},
    {"gum_medium_spread", "0.224", 0.224, [](const LearningHabits& h) { return h.binders[0].kind.medium_spread; }, not_0_to_2, all_0_to_2},
    {"oil_medium_spread", "0.225", 0.225, [](const LearningHabits& h) { return h.binders[1].kind.medium_spread; }, not_0_to_2, all_0_to_2},
    {"yolk_medium_spread", "0.226", 0.226, [](const LearningHabits& h) { return h.binders[2].kind.medium_spread; }, not_0_to_2, all_0_to_2},
    {"gum_drying", "27 h", 97200, [](const LearningHabits& h) { return in_seconds(h.binders[0].drying); }, {"-1 h"}, {"0 h"}},
    {"oil_drying", "128 h", 460800, [](const LearningHabits& h) { return in_seconds(h.binders[1].drying); }, {"-1 h"}, {"0 h"}},
    {"yolk_drying", "29 h", 104400, [](const LearningHabits& h) { return in_seconds(h.binders[2].drying); }, {"-1 h"}, {"0 h"}},
    {"batch_spread", "0.230", 0.230, [](const LearningHabits& h) { return h.batch_spread; }, not_above_0, up_to_2},
    {"rub_out", "11 min", 660, [](const LearningHabits& h) { return in_seconds(h.rub_out); }, {"0 min"}, {"0.1 min"}},
    {"rub_out_powder", "2.1 g", 2.1, [](const LearningHabits& h) { return in_grams(h.rub_out_powder); }, {"0 g"}, {"0.001 g"}},
    {"solids_test", "12 min", 720, [](const LearningHabits& h) { return in_seconds(h.solids_test); }, {"0 min"}, {"0.1 min"}},
    {"solids_waiting", "13 h", 46800, [](const LearningHabits& h) { return in_seconds(h.solids_waiting); }, {"-1 h"}, {"0 h"}},
    {"one_swatch", "14 min", 840, [](const LearningHabits& h) { return in_seconds(h.one_swatch); }, {"0 min"}, {"0.1 min"}},
    {"two_swatches", "15 min", 900, [](const LearningHabits& h) { return in_seconds(h.two_swatches); }, {"0 min"}, {"0.1 min"}},
    {"four_swatches", "16 min", 960, [](const LearningHabits& h) { return in_seconds(h.four_swatches); }, {"0 min"}, {"0.1 min"}},
    {"swatch_powder", "0.3 g", 0.3, [](const LearningHabits& h) { return in_grams(h.swatch_powder); }, {"0 g"}, {"0.001 g"}},
    {"swatch_steps", "17", 17, [](const LearningHabits& h) { return h.swatch_steps; }, no_count, counts},
    {"most_doses", "7.5", 7.5, [](const LearningHabits& h) { return h.most_doses; }, {"0.99", "12.01"}, {"1", "12"}},
    {"minutes_for_a_day", "18", 18, [](const LearningHabits& h) { return h.minutes_for_a_day; }, no_count, counts},
    {"minutes_for_a_gram", "19", 19, [](const LearningHabits& h) { return h.minutes_for_a_gram; }, no_count, counts},
    {"usual_target", "0.94", 0.94, [](const LearningHabits& h) { return h.usual_target; }, {"0", "1.001"}, {"0.001", "1"}},
    {"least_gain_per_minute", "0.002", 0.002, [](const LearningHabits& h) { return h.least_gain_per_minute; }, {"0", "1.001"}, {"0.001", "1"}},
    {"surprise", "0.012", 0.012, [](const LearningHabits& h) { return h.surprise; }, {"0", "0.501"}, {"0.001", "0.5"}},
    {"kin_worth_saying", "2.1", 2.1, [](const LearningHabits& h) { return h.kin_worth_saying; }, no_count, counts},
    {"kin_unlike", "2.6", 2.6, [](const LearningHabits& h) { return h.kin_unlike; }, no_count, counts},
};

} // namespace

TEST_CASE("Each learning habit lands in its own place and holds its limits", "[unit][errors]") {
    check_rows(head, rows, habits_of);
}

TEST_CASE("What a maker usually paints is read by name", "[unit]") {
    const LearningHabits habits = habits_of(written(head, rows));
    CHECK(habits.usual_family == "pans");
    CHECK(habits.usual_recipes == std::vector<std::string>{"one", "two"});
    CHECK(habits.binders[0].usual_medium == "gum-water");
    CHECK(habits.binders[1].usual_medium == "walnut");
    CHECK(habits.binders[2].usual_medium == "yolk");
    // How rub-outs scatter and powders take up damp is said of the bench, once.
    CHECK(habits.priors.repeat_spread == 0.21);
    CHECK(habits.priors.repeat_weight == 5.0);
    CHECK(habits.priors.hand_spread == 0.22);
    CHECK(habits.priors.damp_spread == 0.23);
    // A measurement pays by the coach's own rule.
    CHECK(measurement_rule(habits).accepted.value() == Approx(0.06));
    CHECK(measurement_rule(habits).least_gain_per_minute == 0.002);
}

TEST_CASE("A file of learning habits wants each of its figures and knows no others", "[errors]") {
    for (const Row& row : rows) {
        std::vector<Row> without;
        for (const Row& other : rows)
            if (other.key != row.key) without.push_back(other);
        CAPTURE(row.key);
        CHECK(summary(faults_of([&] { habits_of(written(head, without)); })).rfind("key-missing", 0) == 0);
    }
    CHECK(summary(faults_of([&] { habits_of(written(head, rows) + "mood: {value: 1, origin: estimate}\n"); })) ==
          "key-unknown 50:1");
    CHECK(summary(faults_of([&] { habits_of(changed(written(head, rows), "[one, two]", "[]")); })).find(" 4:") !=
          std::string::npos);
}
