#include "lakebound/record/coach.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check(const StepCost& cost) {
    if (!(cost.attention.value() > 0.0 && std::isfinite(cost.attention.value())))
        throw_out_of_range("attention of a step", in_minutes(cost.attention), "min", "above 0, finite");
    if (!(cost.pigment.value() >= 0.0 && std::isfinite(cost.pigment.value())))
        throw_out_of_range("pigment of a step", in_grams(cost.pigment), "g", "0 or more, finite");
    if (!(cost.waiting.value() >= 0.0 && std::isfinite(cost.waiting.value())))
        throw_out_of_range("waiting of a step", in_minutes(cost.waiting), "min", "0 or more, finite");
}

constexpr double thin_weight = 2e-6; ///< of all weight: a node of less is put to its neighbour

/// With the far corners of its grids put to the nodes next to them, in the same row of one z where there is one: where
/// two quantities lie on a grid two nodes in three weigh next to nothing, all of them together less than 1 in 1000.
DemandBelief thinned(const DemandBelief& belief) {
    DemandBelief thin = belief;
    for (auto& part : thin.parts) {
        auto& nodes = part.nodes;
        std::size_t kept = 0;
        double waiting = 0.0; // weight for the next that is kept
        for (const DemandNode& n : nodes) {
            const bool has_row = kept > 0 && nodes[kept - 1].flip == n.flip;
            if (n.weight >= thin_weight) {
                DemandNode taken = n;
                taken.weight += std::exchange(waiting, 0.0);
                nodes[kept++] = taken;
            } else {
                (has_row ? nodes[kept - 1].weight : waiting) += n.weight;
            }
        }
        if (kept == 0) continue; // as it is: each of its nodes is light
        nodes[kept - 1].weight += waiting;
        nodes.resize(kept);
    }
    return thin;
}

/// In minutes of attention.
double price(const StepCost& cost, const CoachRule& rule) {
    const double days = in_minutes(cost.waiting) / (24.0 * 60.0);
    return in_minutes(cost.attention) + rule.minutes_per_day * days + rule.minutes_per_gram * in_grams(cost.pigment);
}

/// Where a single swatch teaches most: with no rub-out the belief may be skewed, and the untried side pays.
BinderSufficiency best_single(const DemandBelief& belief, const PaintGoal& goal, const SwatchTest& test) {
    const double centre = even_bet(belief, test.weighing_spread).value(), sd = belief.flip_spread();
    BinderSufficiency best;
    double greatest = -1.0;
    for (int i = -3; i <= 3; ++i) {
        const auto k = BinderSufficiency::of(centre * std::exp(0.1 * i * sd));
        const double value = value_after_swatches(belief, goal, {k}, test).value();
        if (value > greatest) greatest = value, best = k;
    }
    return best;
}

/// Places and value of a step.
CoachStep valued(const StepCost& cost, const DemandBelief& belief, const PaintGoal& goal, const SwatchTest& test,
                 const std::function<BinderSufficiency(BinderSufficiency)>& weighable) {
    CoachStep step;
    step.cost = cost;
    switch (cost.kind) {
    case StepKind::rub_out:
        step.value = value_after_rub_out(belief, goal);
        break;
    case StepKind::solids_test:
        step.value = value_after_solids_test(belief, goal);
        break;
    case StepKind::swatches:
        if (cost.swatches == 1 && belief.own_rub_outs == 0) step.at = {best_single(belief, goal, test)};
        else step.at = swatches_about(belief, cost.swatches, test);
        if (weighable) std::transform(step.at.begin(), step.at.end(), step.at.begin(), weighable);
        step.value = value_after_swatches(belief, goal, step.at, test);
        break;
    }
    return step;
}

CoachAdvice advice(const Coaching& c, const CoachRule& rule) {
    if (rule.target && c.now.chance >= *rule.target) return CoachAdvice::target_met;
    if (rule.steps_done >= rule.most_steps) return CoachAdvice::steps_used_up;
    const bool pays = std::any_of(c.steps.begin(), c.steps.end(), [&](const CoachStep& s) {
        return s.gain / in_minutes(s.cost.attention) >= rule.least_gain_per_minute;
    });
    return pays ? CoachAdvice::measure : CoachAdvice::nothing_pays;
}

/// The cheapest step that is expected to reach the target; the first where none does.
std::size_t cheapest_to_target(const std::vector<CoachStep>& steps, const CoachRule& rule) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < steps.size(); ++i)
        if (steps[i].value >= *rule.target &&
            (!found || price(steps[i].cost, rule) < price(steps[*found].cost, rule)))
            found = i;
    return found.value_or(0);
}

} // namespace

std::optional<std::size_t> most_telling(const Coaching& coaching) {
    const auto& steps = coaching.steps;
    const auto most = std::max_element(steps.begin(), steps.end(), [](const CoachStep& a, const CoachStep& b) { return a.value < b.value; });
    return most == steps.end() ? std::nullopt : std::optional(static_cast<std::size_t>(most - steps.begin()));
}

Coaching coaching(const DemandBelief& belief, const PaintGoal& goal, const std::vector<StepCost>& steps,
                  const CoachRule& rule, const SwatchTest& test,
                  const std::function<BinderSufficiency(BinderSufficiency)>& weighable) {
    Coaching answer;
    answer.now = best_mixing_point(belief, goal);
    answer.even_bet = even_bet(belief, test.weighing_spread);
    const DemandBelief likely = thinned(belief);
    for (const StepCost& cost : steps) {
        check(cost);
        CoachStep step = valued(cost, likely, goal, test, weighable);
        step.gain = step.value.value() - answer.now.chance.value();
        step.gain_for_price = step.gain / price(cost, rule);
        answer.steps.push_back(std::move(step));
    }
    std::stable_sort(answer.steps.begin(), answer.steps.end(), [](const CoachStep& a, const CoachStep& b) {
        return a.gain_for_price > b.gain_for_price;
    });
    answer.advice = advice(answer, rule);
    if (answer.advice == CoachAdvice::measure)
        answer.recommended = rule.few_days && rule.target ? cheapest_to_target(answer.steps, rule) : 0;
    return answer;
}

} // namespace lakebound
