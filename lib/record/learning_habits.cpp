#include "lakebound/record/learning_habits.hpp"

namespace lakebound {

DemandWorld demand_world(const LearningHabits& habits, const std::vector<Family>& families) {
    DemandWorld world;
    world.priors = habits.priors;
    for (const BinderHabits& binder : habits.binders)
        world.kinds.push_back(binder.kind);
    for (const Family& family : families)
        world.families.push_back(
            {static_cast<std::size_t>(family.process), family.window.amber_low, family.window.amber_high});
    return world;
}

MeasurementRule measurement_rule(const LearningHabits& habits) {
    return {Probability::of(1.0 - habits.usual_target), habits.least_gain_per_minute};
}

void save(Shortage shortage, const LearningHabits& habits, CoachRule& rule) {
    switch (shortage) {
    case Shortage::time:
        break;
    case Shortage::powder:
        rule.minutes_per_gram = habits.minutes_for_a_gram;
        break;
    case Shortage::days:
        rule.minutes_per_day = habits.minutes_for_a_day;
        rule.few_days = true;
        break;
    }
}

std::vector<StepCost> step_costs(const LearningHabits& habits, Process process, Mass swatch_powder) {
    const Time drying = habits.binders.at(static_cast<std::size_t>(process)).drying;
    return {{StepKind::rub_out, 0, habits.rub_out, habits.rub_out_powder, Time{}},
            {StepKind::solids_test, 0, habits.solids_test, Mass{}, habits.solids_waiting},
            {StepKind::swatches, 1, habits.one_swatch, swatch_powder, drying},
            {StepKind::swatches, 2, habits.two_swatches, swatch_powder * 2.0, drying},
            {StepKind::swatches, 4, habits.four_swatches, swatch_powder * 4.0, drying}};
}

} // namespace lakebound
