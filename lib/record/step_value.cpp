#include "lakebound/record/step_value.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <utility>

#include "demand_check.hpp"
#include "demand_trials.hpp"
#include "lakebound/estimate/gauss_hermite.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr double worth_an_outcome = 0.001; ///< chance of being rich, above which it is reckoned with
constexpr std::size_t most_at_once = 6;
constexpr int reading_nodes = 7;
constexpr double negligible = 1e-7; ///< chance of an outcome that is not followed up

/// Total weight of the nodes: the chance of the outcome after which they were weighed anew.
double chance_of(const DemandBelief& belief) {
    double chance = 0.0;
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes)
            chance += n.weight;
    return chance;
}

MixingPoint best_of(const NormalMixture& doubt, const SufficiencyWindow& window) {
    const BinderSufficiency k = likeliest_aim(doubt, window);
    return {k, window_chances(k, doubt, window).in_window};
}

/// Greatest chance of the window over where to mix. The top is flat: a place good to .01 gives a value good to 1e-5.
double greatest_chance(const NormalMixture& doubt, const SufficiencyWindow& window) {
    constexpr double golden = 0.6180339887498949;
    const double edge_low = std::log(window.green_low.value()), edge_high = std::log(window.green_high.value());
    const auto inside = [&](double x) {
        return 1.0 - doubt.below(edge_low - x).value() - doubt.above(edge_high - x).value();
    };
    const double middle = 0.5 * (edge_low + edge_high) - doubt.mean(), reach = 0.5 * doubt.standard_deviation();
    double low = middle - reach, high = middle + reach;
    double x1 = high - golden * (high - low), x2 = low + golden * (high - low);
    double f1 = inside(x1), f2 = inside(x2);
    while (high - low > 0.02) {
        if (f1 < f2) {
            low = x1, x1 = x2, f1 = f2;
            f2 = inside(x2 = low + golden * (high - low));
        } else {
            high = x2, x2 = x1, f2 = f1;
            f1 = inside(x1 = high - golden * (high - low));
        }
    }
    return std::max(f1, f2);
}

/// Chance of the outcome times the value after it.
double share_of_value(const DemandBelief& belief, const PaintGoal& goal) {
    const double chance = chance_of(belief);
    if (!(chance > negligible)) return 0.0;
    return chance * greatest_chance(belief.gathered_doubt(goal.batch_spread), goal.window);
}

/// Visits every outcome of one swatch with its belief, of weight the outcome's chance.
template <class Visit>
void after_swatch(const DemandBelief& belief, double at, const SwatchTest& test, Visit visit) {
    DemandBelief lean = belief, rest = belief;
    double total = 0.0, rich = 0.0;
    for (std::size_t i = 0; i < belief.parts.size(); ++i) {
        const OutcomeChances chances(belief, belief.parts[i], at, test.weighing_spread, false);
        for (std::size_t k = 0; k < belief.parts[i].nodes.size(); ++k) {
            const DemandNode& n = belief.parts[i].nodes[k];
            lean.parts[i].nodes[k].weight *= chances.lean(n);
            rest.parts[i].nodes[k].weight *= chances.not_lean(n);
            rich += rest.parts[i].nodes[k].weight * chances.rich(n);
            total += n.weight;
        }
    }
    visit(lean);
    if (!test.watched || rich <= worth_an_outcome * total) {
        visit(rest);
        return;
    }
    DemandBelief shines = rest;
    for (std::size_t i = 0; i < belief.parts.size(); ++i) {
        const OutcomeChances chances(belief, belief.parts[i], at, test.weighing_spread, false);
        for (std::size_t k = 0; k < belief.parts[i].nodes.size(); ++k) {
            const double p = chances.rich(belief.parts[i].nodes[k]);
            shines.parts[i].nodes[k].weight *= p;
            rest.parts[i].nodes[k].weight *= 1.0 - p;
        }
    }
    visit(shines);
    visit(rest);
}

/// at: x of swatches, one at least.
double value_after(const DemandBelief& belief, const PaintGoal& goal, std::span<const double> at,
                   const SwatchTest& test) {
    double sum = 0.0;
    after_swatch(belief, at.front(), test, [&](const DemandBelief& next) {
        sum += at.size() == 1 ? share_of_value(next, goal)
                              : value_after(next, goal, at.subspan(1), test);
    });
    return sum;
}

/// Value after a normal reading whose mean at a node is `mean` and whose outlook is `outlook`.
double value_after_reading(const DemandBelief& belief, const PaintGoal& goal, double DemandNode::*mean,
                           ReadingOutlook DemandPart::*outlook) {
    double first = 0.0, second = 0.0;
    for (const auto& part : belief.parts)
        for (const auto& n : part.nodes) {
            first += n.weight * n.*mean;
            second += n.weight * (n.*mean * (n.*mean) + (part.*outlook).variance);
        }
    const double sd = std::sqrt(std::max(second - first * first, 0.0));
    if (!(sd > 0.0)) return best_mixing_point(belief, goal).chance.value();
    double sum = 0.0, total = 0.0;
    for (const auto& q : gauss_hermite_nodes(reading_nodes)) {
        const double y = first + sd * q.z;
        DemandBelief next = belief;
        for (auto& part : next.parts) {
            const ReadingOutlook& o = part.*outlook;
            const double slope = o.covariance_with_critical / o.variance, s = std::sqrt(o.variance);
            part.critical_spread =
                std::sqrt(std::max(part.critical_spread * part.critical_spread - slope * o.covariance_with_critical, 0.0));
            for (auto& n : part.nodes) {
                const double d = (y - n.*mean) / s;
                n.weight *= std::exp(-0.5 * d * d) / s;
                n.critical += slope * (y - n.*mean);
            }
        }
        // The rule weighs by a normal of the same mean and variance; the reading's true density stands in its place.
        const double weight = q.weight / (std::exp(-0.5 * q.z * q.z) / sd);
        sum += weight * share_of_value(next, goal);
        total += weight * chance_of(next);
    }
    return sum / total;
}

Probability probability(double value) { return Probability::from_proven(std::clamp(value, 0.0, 1.0)); }

} // namespace

MixingPoint best_mixing_point(const DemandBelief& belief, const PaintGoal& goal) {
    return best_of(belief.doubt(goal.batch_spread), goal.window);
}

Probability value_after_swatches(const DemandBelief& belief, const PaintGoal& goal,
                                 const std::vector<BinderSufficiency>& at, const SwatchTest& test) {
    check_spread(test.weighing_spread, "ln-sd of a swatch");
    if (at.empty() || at.size() > most_at_once)
        throw DomainError("swatches at once", std::to_string(at.size()), "1 to " + std::to_string(most_at_once));
    std::vector<double> x;
    for (const BinderSufficiency k : at) {
        check_spread(k.value(), "k of a swatch by the library", false);
        x.push_back(std::log(k.value()));
    }
    return probability(value_after(belief, goal, x, test));
}

Probability value_after_rub_out(const DemandBelief& belief, const PaintGoal& goal) {
    return probability(value_after_reading(belief, goal, &DemandNode::rub_out, &DemandPart::rub_out));
}

Probability value_after_solids_test(const DemandBelief& belief, const PaintGoal& goal) {
    return probability(value_after_reading(belief, goal, &DemandNode::medium, &DemandPart::medium));
}

Probability value_after_two_in_turn(const DemandBelief& belief, const PaintGoal& goal, const SwatchTest& test) {
    double sum = 0.0;
    const double first = std::log(even_bet(belief, test.weighing_spread).value());
    after_swatch(belief, first, test, [&](DemandBelief& next) {
        const double chance = chance_of(next);
        if (!(chance > negligible)) return;
        for (auto& part : next.parts)
            for (auto& n : part.nodes)
                n.weight /= chance;
        const std::vector second{even_bet(next, test.weighing_spread)};
        sum += chance * value_after_swatches(next, goal, second, test).value();
    });
    return probability(sum);
}

std::vector<BinderSufficiency> swatches_about(const DemandBelief& belief, std::size_t count, const SwatchTest& test) {
    std::vector<double> off;
    switch (count) {
    case 1:
        off = {0.0};
        break;
    case 2:
        off = {-0.25, 0.25};
        break;
    case 4:
        off = {-0.9, -0.3, 0.3, 0.9};
        break;
    default:
        throw DomainError("swatches at once", std::to_string(count), "1, 2 or 4");
    }
    const double centre = even_bet(belief, test.weighing_spread).value(), sd = belief.flip_spread();
    std::vector<BinderSufficiency> at;
    for (const double z : off)
        at.push_back(BinderSufficiency::of(centre * std::exp(z * sd)));
    return at;
}

} // namespace lakebound
