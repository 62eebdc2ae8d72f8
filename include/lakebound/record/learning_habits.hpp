#pragma once
// Learning habits: what is taken to be true of jars, hands and binders beforehand, what the steps of learning cost, and
// how swatches are made. Filled from the shelf (formulations/learning/home.yaml), where each stands with its origin.
// Ranges that the reader holds: spreads 0 to 2 (ln-sd), times and masses above 0 (drying and waiting 0 or more), chances
// above 0 and at most 1 (`surprise` at most 0.5), counts and prices above 0, doses 1 to 12.

#include <array>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/paint/next_measurement.hpp"
#include "lakebound/record/coach.hpp"
#include "lakebound/record/demand_priors.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Of what is made by one process: gum, oil, yolk.
struct BinderHabits {
    BinderKind kind;
    Time drying{}; ///< of a swatch, until it can be judged
    bool watched = true; ///< for shine, cracks and stickiness too
    std::string usual_medium; ///< id, where a maker names none
};

struct LearningHabits {
    DemandPriors priors;
    std::array<BinderHabits, 3> binders; ///< in the order of Process
    std::string usual_family;            ///< id, where a maker names none
    std::vector<std::string> usual_recipes; ///< ids; the first of a family is the one that is offered
    double batch_spread{};               ///< ln-sd of the k of a batch by its weighing, before it is sized
    Time rub_out{}, solids_test{}, solids_waiting{}, one_swatch{}, two_swatches{}, four_swatches{}; ///< of attention
    Mass rub_out_powder{};
    Mass swatch_powder{};             ///< least powder of a swatch
    double swatch_steps{};            ///< of the scale, that its powder is at least
    double most_doses{};              ///< of a batch mixed stepwise, 1 to 12
    double minutes_for_a_day{};       ///< of attention that a maker short of days gives for one
    double minutes_for_a_gram{};      ///< the same of powder
    double usual_target{};            ///< chance of the window that is enough, where a maker names none
    double least_gain_per_minute{};   ///< of chance; .001 is a point in ten minutes
    double surprise{};                ///< an entry less likely beforehand than this is worth reading again
    double kin_worth_saying{}, kin_unlike{}; ///< distances from its kin, in sd
};

/// The world of a maker who paints these families: their kinds by process, their edges by window.
[[nodiscard]] DemandWorld demand_world(const LearningHabits& habits, const std::vector<Family>& families);

/// When a measurement pays where no record advises: by the same target and least gain as the record's coach.
[[nodiscard]] MeasurementRule measurement_rule(const LearningHabits& habits);

/// The rule for a maker who is short of that; of time is how everyone is taken to be.
void save(Shortage shortage, const LearningHabits& habits, CoachRule& rule);

/// What each step costs: a rub-out, a solids test, one, two and four swatches of `swatch_powder` each.
[[nodiscard]] std::vector<StepCost> step_costs(const LearningHabits& habits, Process process, Mass swatch_powder);

} // namespace lakebound
