#include "lakebound/record/jar_outlook.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "lakebound/quantity/portable.hpp"
#include "lakebound/record/learned_demand.hpp"

namespace lakebound {
namespace {

constexpr std::size_t most_steps = 12; // of a coach without a limit of its own
constexpr double lower_centile = 0.05, upper_centile = 0.95;

bool is_own(const JarQuestion& q, std::size_t jar) { return jar == q.asked.jar; }

/// The record without the readings or paints that `keep` refuses.
template <class KeepReading, class KeepPaint>
DemandRecord only(const DemandRecord& record, KeepReading keep_reading, KeepPaint keep_paint) {
    DemandRecord part;
    part.jars = record.jars;
    std::copy_if(record.rub_outs.begin(), record.rub_outs.end(), std::back_inserter(part.rub_outs), keep_reading);
    std::copy_if(record.trials.begin(), record.trials.end(), std::back_inserter(part.trials), keep_paint);
    return part;
}

Probability best_chance(const JarQuestion& q, const DemandRecord& record, const PaintGoal& goal) {
    return best_mixing_point(learned_demand(q.world, record, q.asked), goal).chance;
}

/// How much of the record is whose.
void count_parts(const JarQuestion& q, JarOutlook& outlook) {
    const DemandRecord& r = q.record;
    const auto own = [&](const auto& x) { return is_own(q, x.jar); };
    outlook.own_readings.readings = static_cast<std::size_t>(std::count_if(r.rub_outs.begin(), r.rub_outs.end(), own));
    outlook.own_paints.paints = static_cast<std::size_t>(std::count_if(r.trials.begin(), r.trials.end(), own));
    outlook.kin.readings = r.rub_outs.size() - outlook.own_readings.readings;
    outlook.kin.paints = r.trials.size() - outlook.own_paints.paints;
}

/// Chances with more and more of the record known; none where that is all of it.
struct PartChances {
    std::optional<Probability> library, kin, own_readings;
};
PartChances weigh_parts(const JarQuestion& q, const PaintGoal& goal, const JarOutlook& counted) {
    const DemandRecord& r = q.record;
    const auto none = [](const auto&) { return false; };
    const auto others = [&](const auto& x) { return !is_own(q, x.jar); };
    const auto all = [](const auto&) { return true; };
    const bool kin = counted.kin.readings + counted.kin.paints > 0;
    const bool readings = counted.own_readings.readings > 0, paints = counted.own_paints.paints > 0;
    PartChances found;
    if (kin || readings || paints) found.library = best_chance(q, only(r, none, none), goal);
    if (!kin) found.kin = found.library;
    else if (readings || paints) found.kin = best_chance(q, only(r, others, others), goal);
    if (!readings) found.own_readings = found.kin;
    else if (paints) found.own_readings = best_chance(q, only(r, all, others), goal);
    return found;
}

/// Of the last paint and the last reading of this jar, how likely they were before.
std::vector<Surprise> surprises(const JarQuestion& q) {
    std::vector<Surprise> found;
    const auto& trials = q.record.trials;
    for (std::size_t i = q.last_judged ? *q.last_judged + 1 : trials.size(); i-- > 0;) {
        if (!is_own(q, trials[i].jar)) continue;
        DemandRecord before = q.record;
        before.trials.erase(before.trials.begin() + static_cast<std::ptrdiff_t>(i));
        const auto belief = learned_demand(q.world, before, {q.asked.jar, trials[i].family, trials[i].lot});
        const Probability chance = chance_of_trial(belief, trials[i]);
        if (chance.value() < q.habits.surprise) found.push_back({{}, i, chance});
        break;
    }
    const auto& readings = q.record.rub_outs;
    for (std::size_t i = readings.size(); i-- > 0;) {
        if (!is_own(q, readings[i].jar) || readings[i].stated_spread) continue;
        DemandRecord before = q.record;
        before.rub_outs.erase(before.rub_outs.begin() + static_cast<std::ptrdiff_t>(i));
        const Probability chance =
            chance_of_rub_out(learned_demand(q.world, before, q.asked), readings[i].oil_absorption);
        if (chance.value() < q.habits.surprise) found.push_back({i, {}, chance});
        break;
    }
    return found;
}

/// How far the jar is from its kin; beyond what kin bears the question leaves them out.
void look_at_kin(JarQuestion& q, JarOutlook& outlook) {
    outlook.kin_distance = kin_distance(q.world, q.record, q.asked.jar);
    const double distance = std::abs(outlook.kin_distance.in_spreads);
    // Only jars that have kin can be unlike it.
    const bool has_kin = std::any_of(q.record.rub_outs.begin(), q.record.rub_outs.end(), [&](const RubOutReading& r) {
        return !is_own(q, r.jar) && q.record.jars[r.jar].plant == q.record.jars[q.asked.jar].plant;
    });
    outlook.worth_saying = has_kin && distance > q.habits.kin_worth_saying;
    outlook.unlike_its_kin = has_kin && distance > q.habits.kin_unlike;
    if (outlook.unlike_its_kin) q.record.jars[q.asked.jar].unlike_its_kin = true;
}

/// Mean and ln-sd of d: what is known of the powder's oil absorption, the hand that read it in doubt with it.
void know_oil_absorption(const DemandBelief& belief, JarOutlook& outlook) {
    double first = 0.0, second = 0.0;
    for (const DemandPart& part : belief.parts)
        for (const DemandNode& n : part.nodes) {
            first += n.weight * n.powder;
            second += n.weight * (n.powder * n.powder + part.powder_spread * part.powder_spread);
        }
    // A slipped point may ask for more than any powder takes: the entry is told as unlikely, and can be taken back.
    using Limits = ratio_tag::OilAbsorption;
    outlook.oil_absorption =
        OilAbsorption::of(std::clamp(belief.reference.value() * std::exp(first), Limits::lowest, Limits::highest));
    outlook.oil_absorption_spread = std::sqrt(std::max(second - first * first, 0.0));
    outlook.step_from_oil = outlook.demand_over_library / std::exp(first);
}

/// Whatever follows from all that the record says.
void believe_and_coach(const JarQuestion& q, const PaintGoal& goal, JarOutlook& outlook) {
    const DemandBelief belief = learned_demand(q.world, q.record, q.asked);
    const NormalMixture ln_true_over_library = belief.gathered_doubt(0.0);
    outlook.demand_over_library = std::exp(-ln_true_over_library.mean());
    outlook.doubt = ln_true_over_library.shifted(-ln_true_over_library.mean());
    outlook.demand_low = outlook.demand_over_library * std::exp(-outlook.doubt.quantile(upper_centile));
    outlook.demand_high = outlook.demand_over_library * std::exp(-outlook.doubt.quantile(lower_centile));
    outlook.odd_maker = belief.odd_weight();
    know_oil_absorption(belief, outlook);

    const auto& binder = q.habits.binders.at(static_cast<std::size_t>(q.process));
    const Mass powder = swatch_powder(q.habits, q.bench);
    SwatchTest test{0.0, binder.watched};
    std::function<BinderSufficiency(BinderSufficiency)> weighable;
    auto costs = step_costs(q.habits, q.process, powder);
    if (q.swatch) {
        test.weighing_spread = swatch_of(BinderSufficiency::of(1.0), *q.swatch, q.habits, q.bench).spread;
        weighable = [&q](BinderSufficiency k) { return swatch_of(k, *q.swatch, q.habits, q.bench).library_k; };
    } else {
        std::erase_if(costs, [](const StepCost& c) { return c.kind == StepKind::swatches; });
    }
    if (q.left) std::erase_if(costs, [&](const StepCost& c) { return c.pigment > *q.left; });
    outlook.coaching = coaching(belief, goal, costs, q.rule, test, weighable);
    outlook.aim = outlook.own_k(outlook.coaching.now.library_k);
    if (q.swatch) {
        std::vector<BinderSufficiency> at{outlook.coaching.even_bet};
        if (const auto best = outlook.coaching.recommended; best && !outlook.coaching.steps[*best].at.empty())
            at = outlook.coaching.steps[*best].at;
        for (const BinderSufficiency k : at)
            outlook.swatches.push_back(swatch_of(k, *q.swatch, q.habits, q.bench));
    }
}

} // namespace

void take_up(BatchRequest& request, std::size_t pigment, const JarOutlook& outlook, const DemandReference& reference) {
    PigmentPart& part = request.recipe.pigments.at(pigment);
    const Provenance learned{Origin::measured, record_source, false};
    part.pigment.oil_absorption =
        Estimate<OilAbsorption>::lognormal(outlook.oil_absorption.value(), std::exp(outlook.oil_absorption_spread), learned);
    part.pigment.test_oil_density = Estimate<MassDensity>::exact(reference.test_oil, learned);
    part.pigment.oil_absorption_belief.reset();
    if (request.recipe.pigments.size() > 1) return;
    part.step_from_oil = outlook.step_from_oil;
    request.learned_doubt = outlook.doubt;
}

DemandBelief believed_demand(JarQuestion q) {
    JarOutlook looked;
    look_at_kin(q, looked);
    return learned_demand(q.world, q.record, q.asked);
}

JarOutlook jar_outlook(JarQuestion q) {
    JarOutlook outlook;
    if (!(q.rule.least_gain_per_minute > 0.0)) q.rule.least_gain_per_minute = q.habits.least_gain_per_minute;
    if (q.rule.most_steps == 0) q.rule.most_steps = most_steps;
    look_at_kin(q, outlook);
    count_parts(q, outlook);
    const PaintGoal goal{q.window, q.batch_spread};
    PartChances before;
    // What the last entries surprise by and what parts of the record say rest on beliefs of their own; the other half of
    // the work needs none of them.
    detail::side_by_side([&] { believe_and_coach(q, goal, outlook); },
                         [&] {
                             outlook.surprises = surprises(q);
                             before = weigh_parts(q, goal, outlook);
                         });
    const Probability now = outlook.own_paints.chance = outlook.coaching.now.chance;
    outlook.library.chance = before.library.value_or(now);
    outlook.kin.chance = before.kin.value_or(now);
    outlook.own_readings.chance = before.own_readings.value_or(now);
    return outlook;
}

} // namespace lakebound
