#include "lakebound/shelf/learning_habits_file.hpp"

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

struct LearningTag {
    static constexpr const char* name = "figure of learning habits";
    static constexpr const char* range = "0 to 1000";
    static constexpr double lowest = 0.0, highest = 1000.0;
};
using LearningFigure = Ratio<LearningTag>;

} // namespace

template <> struct DimensionOf<LearningFigure> { static constexpr Dimension value = Dimension::pure_number; };

LearningHabits read_learning_habits(Document document, const BenchPractice& practice) {
    require_kind(document, "learning habits");
    const MapReader map(document.root, "a file of learning habits",
                        {"kind", "name", "plant_spread", "jar_spread", "jar_spread_doubt", "unlike_jar_spread",
                         "regrind_spread", "chalk_bias_spread", "jar_step_spread", "lot_spread", "odd_share", "odd_factor", "solids_spread",
                         "rich_step_spread", "lean_width", "rich_width", "use_width", "gum_step_spread",
                         "gum_medium_spread", "oil_step_spread", "oil_medium_spread", "yolk_step_spread",
                         "yolk_medium_spread", "gum_medium", "oil_medium", "yolk_medium", "usual_family",
                         "usual_recipes",
                         "batch_spread", "gum_drying", "oil_drying", "yolk_drying", "rub_out", "rub_out_powder",
                         "solids_test", "solids_waiting", "one_swatch", "two_swatches", "four_swatches",
                         "swatch_powder", "swatch_steps", "most_doses", "minutes_for_a_day", "minutes_for_a_gram",
                         "usual_target", "least_gain_per_minute", "surprise", "kin_worth_saying",
                         "kin_unlike", "note"},
                        document.faults);
    constexpr auto style = FigureStyle::with_origin;
    const auto figure = [&map](std::string_view key, const Range& range) {
        return canonical(map.figure<LearningFigure>(key, range, style).value());
    };
    constexpr Range spread{0.0, 2.0, false, "0 to 2", "it is the standard deviation of a logarithm"};
    constexpr Range some{0.0, 2.0, true, "above 0, at most 2", "it is the standard deviation of a logarithm"};
    constexpr Range count{0.0, 1000.0, true, "above 0, at most 1000", "it counts"};
    map.text("name");
    LearningHabits habits;
    DemandPriors& p = habits.priors;
    p.plant_spread = figure("plant_spread", spread);
    p.jar_spread = figure("jar_spread", some);
    p.jar_spread_doubt = figure("jar_spread_doubt", spread);
    p.unlike_jar_spread = figure("unlike_jar_spread", spread);
    p.regrind_spread = figure("regrind_spread", spread);
    p.hand_spread = practice.rub_out.hand_and_oil;
    p.repeat_spread = practice.rub_out.repeat_spread;
    p.repeat_weight = practice.rub_out.repeat_weight;
    p.chalk_bias_spread = figure("chalk_bias_spread", some);
    p.jar_step_spread = figure("jar_step_spread", spread);
    p.damp_spread = practice.moisture_drift;
    p.lot_spread = figure("lot_spread", spread);
    p.odd_share = figure("odd_share", {0.0, 0.5, false, "0 to 0.5", "it is a share of all makers"});
    p.odd_factor = figure("odd_factor", {1.0, 10.0, false, "1 to 10", "how many times as wide"});
    p.solids_spread = figure("solids_spread", spread);
    p.rich_step_spread = figure("rich_step_spread", some);
    p.lean_width = figure("lean_width", some);
    p.rich_width = figure("rich_width", some);
    p.use_width = figure("use_width", some);
    constexpr std::string_view step_keys[] = {"gum_step_spread", "oil_step_spread", "yolk_step_spread"};
    constexpr std::string_view medium_keys[] = {"gum_medium_spread", "oil_medium_spread", "yolk_medium_spread"};
    constexpr std::string_view usual_keys[] = {"gum_medium", "oil_medium", "yolk_medium"};
    constexpr std::string_view drying_keys[] = {"gum_drying", "oil_drying", "yolk_drying"};
    const auto time = [&map](std::string_view key, const Range& range) { return map.figure<Time>(key, range, style).value(); };
    const auto mass = [&map](std::string_view key) { return map.figure<Mass>(key, range::positive, style).value(); };
    for (std::size_t i = 0; i < habits.binders.size(); ++i) {
        habits.binders[i].kind.step_spread = figure(step_keys[i], spread);
        habits.binders[i].kind.medium_spread = figure(medium_keys[i], spread);
        habits.binders[i].usual_medium = map.text(usual_keys[i]);
        habits.binders[i].drying = time(drying_keys[i], range::not_negative);
    }
    habits.usual_family = map.text("usual_family");
    for (const Node* node : map.list("usual_recipes", true))
        habits.usual_recipes.push_back(read_text(*node, "usual_recipes", document.faults).value_or(""));
    habits.batch_spread = figure("batch_spread", some);
    habits.rub_out = time("rub_out", range::positive);
    habits.rub_out_powder = mass("rub_out_powder");
    habits.solids_test = time("solids_test", range::positive);
    habits.solids_waiting = time("solids_waiting", range::not_negative);
    habits.one_swatch = time("one_swatch", range::positive);
    habits.two_swatches = time("two_swatches", range::positive);
    habits.four_swatches = time("four_swatches", range::positive);
    habits.swatch_powder = mass("swatch_powder");
    habits.swatch_steps = figure("swatch_steps", count);
    habits.most_doses = figure("most_doses", {1.0, 12.0, false, "1 to 12", "a batch is brought up in so many doses at most"});
    habits.minutes_for_a_day = figure("minutes_for_a_day", count);
    habits.minutes_for_a_gram = figure("minutes_for_a_gram", count);
    habits.usual_target = figure("usual_target", {0.0, 1.0, true, "above 0, at most 1", "19 in 20 is 0.95"});
    habits.least_gain_per_minute =
        figure("least_gain_per_minute", {0.0, 1.0, true, "above 0, at most 1", "a point in ten minutes is 0.001"});
    habits.surprise = figure("surprise", {0.0, 0.5, true, "above 0, at most 0.5", "it is a chance"});
    habits.kin_worth_saying = figure("kin_worth_saying", count);
    habits.kin_unlike = figure("kin_unlike", count);
    map.text_or_empty("note");
    document.faults.throw_if_any();
    return habits;
}

LearningHabits read_learning_habits_file(const std::string& path, const BenchPractice& practice) {
    return read_learning_habits(load_document(path), practice);
}

} // namespace lakebound
