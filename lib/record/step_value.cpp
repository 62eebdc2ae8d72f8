#include "lakebound/record/step_value.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <span>
#include <string>
#include <utility>

#include "demand_check.hpp"
#include "demand_trials.hpp"
#include "gathered_nodes.hpp"
#include "lakebound/estimate/gauss_hermite.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr double worth_an_outcome = 0.001; ///< chance of being rich, above which it is reckoned with
constexpr std::size_t most_at_once = 6;
constexpr int reading_nodes = 7;
constexpr double worth_following = 1e-5;   ///< chance of the outcomes so far, above which the next swatch is asked
constexpr double negligible_chance = 1e-7; ///< chance of an outcome that is not followed up

/// Total weight: the chance of the outcome after which the nodes were weighed anew.
double chance_of(std::span<const double> weights) { return std::accumulate(weights.begin(), weights.end(), 0.0); }

/// Greatest chance of the window over where to mix, by the tops of parabolas through three places. It is flat there: a
/// place good to .01 gives a value good to 1e-5.
double greatest_chance(const NormalMixture& doubt, const SufficiencyWindow& window) {
    constexpr double near_enough = 0.01;
    constexpr int most_parabolas = 6;
    struct Place {
        double x, chance;
    };
    const double edge_low = std::log(window.green_low.value()), edge_high = std::log(window.green_high.value());
    const auto place = [&](double x) { return Place{x, doubt.roughly_between(edge_low - x, edge_high - x).value()}; };
    const auto worse = [](const Place& a, const Place& b) { return a.chance < b.chance; };
    const double middle = 0.5 * (edge_low + edge_high) - doubt.mean(), reach = 0.5 * doubt.standard_deviation();
    std::array<Place, 3> at{place(middle - 0.5 * reach), place(middle), place(middle + 0.5 * reach)}; // rising
    Place best = *std::max_element(at.begin(), at.end(), worse);
    for (int i = 0; i < most_parabolas; ++i) {
        const auto [a, b, c] = at;
        const double rise = (b.chance - a.chance) / (b.x - a.x);
        const double bend = ((c.chance - b.chance) / (c.x - b.x) - rise) / (c.x - a.x);
        const bool has_top = bend < 0.0 && std::isfinite(bend);
        const double top = has_top ? 0.5 * (a.x + b.x - rise / bend) : best.x < b.x ? middle - reach : middle + reach;
        const Place next = place(std::clamp(top, middle - reach, middle + reach));
        const bool found = std::abs(next.x - best.x) < near_enough;
        best = std::max(best, next, worse);
        if (found) break;
        std::array four{a, b, c, next};
        std::sort(four.begin(), four.end(), [](const Place& p, const Place& q) { return p.x < q.x; });
        const std::size_t first = best.x > four[1].x ? 1 : 0; // three that hold the best
        std::copy_n(four.begin() + first, 3, at.begin());
    }
    return best.chance;
}

/// Chance of the outcome times the value after it.
double share_of_value(const GatheredNodes& nodes, std::span<const double> weights, const SufficiencyWindow& window) {
    const double chance = chance_of(weights);
    if (!(chance > negligible_chance)) return 0.0;
    return chance * greatest_chance(nodes.doubt(weights), window);
}

/// What swatches at some places may show, node by node. Only weights change from outcome to outcome.
class SwatchOutcomes {
public:
    /// at: x of the swatches.
    SwatchOutcomes(const DemandBelief& belief, const std::vector<double>& at, const SwatchTest& test)
        : watched_(test.watched) {
        for (const double x : at) {
            Swatch swatch;
            for (const auto& part : belief.parts) {
                const OutcomeChances chances(belief, part, x, test.weighing_spread, false);
                for (const auto& n : part.nodes) {
                    swatch.lean.push_back(chances.lean(n));
                    if (watched_) swatch.rich.push_back(chances.rich(n));
                }
            }
            swatches_.push_back(std::move(swatch));
        }
    }

    std::size_t count() const { return swatches_.size(); }

    /// Visits every outcome of one swatch with the nodes weighed anew: their total is the outcome's chance.
    template <class Visit> void each(std::size_t which, std::span<const double> before, Visit visit) const {
        const Swatch& swatch = swatches_[which];
        std::vector<double> after(before.size());
        double total = 0.0, rich = 0.0;
        for (std::size_t i = 0; i < before.size(); ++i) {
            after[i] = before[i] * swatch.lean[i];
            total += before[i];
            if (watched_) rich += (before[i] - after[i]) * swatch.rich[i];
        }
        visit(std::span<const double>(after));
        const bool shines = watched_ && rich > worth_an_outcome * total;
        if (shines) {
            for (std::size_t i = 0; i < before.size(); ++i)
                after[i] = before[i] * (1.0 - swatch.lean[i]) * swatch.rich[i];
            visit(std::span<const double>(after));
        }
        for (std::size_t i = 0; i < before.size(); ++i)
            after[i] = before[i] * (1.0 - swatch.lean[i]) * (shines ? 1.0 - swatch.rich[i] : 1.0);
        visit(std::span<const double>(after));
    }

private:
    struct Swatch {
        std::vector<double> lean, rich; ///< chances at each node; rich: of one that is not lean
    };
    bool watched_;
    std::vector<Swatch> swatches_;
};

/// From the swatch `next` on.
double value_after(const SwatchOutcomes& outcomes, std::size_t next, std::span<const double> weights,
                   const GatheredNodes& nodes, const SufficiencyWindow& window) {
    // What an unlikely branch would still learn is not worth its outcomes.
    if (next == outcomes.count() || chance_of(weights) < worth_following) return share_of_value(nodes, weights, window);
    double sum = 0.0;
    outcomes.each(next, weights, [&](std::span<const double> after) {
        sum += value_after(outcomes, next + 1, after, nodes, window);
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
    DemandBelief next = belief; // laid anew for each reading: thousands of nodes are not asked for seven times
    GatheredNodes nodes;
    std::vector<double> weights;
    for (const auto& q : gauss_hermite_nodes(reading_nodes)) {
        const double y = first + sd * q.z;
        for (std::size_t p = 0; p < belief.parts.size(); ++p) {
            DemandPart& part = next.parts[p];
            const DemandPart& before = belief.parts[p];
            const ReadingOutlook& o = part.*outlook;
            const double slope = o.covariance_with_critical / o.variance, s = std::sqrt(o.variance);
            part.critical_spread = std::sqrt(
                std::max(before.critical_spread * before.critical_spread - slope * o.covariance_with_critical, 0.0));
            for (std::size_t i = 0; i < part.nodes.size(); ++i) {
                const DemandNode& n = before.nodes[i];
                const double d = (y - n.*mean) / s;
                part.nodes[i].weight = n.weight * std::exp(-0.5 * d * d) / s;
                part.nodes[i].critical = n.critical + slope * (y - n.*mean);
            }
        }
        // The rule weighs by a normal of the same mean and variance; the reading's true density stands in its place.
        const double weight = q.weight / (std::exp(-0.5 * q.z * q.z) / sd);
        weights_of(next, weights);
        nodes.lay(next, goal.batch_spread);
        sum += weight * share_of_value(nodes, weights, goal.window);
        total += weight * chance_of(weights);
    }
    return sum / total;
}

Probability probability(double value) { return Probability::from_proven(std::clamp(value, 0.0, 1.0)); }

} // namespace

MixingPoint best_mixing_point(const DemandBelief& belief, const PaintGoal& goal) {
    // Sought among the gathered nodes, where the top lies as near as matters; what is said there is of all of them.
    const BinderSufficiency k = likeliest_aim(belief.gathered_doubt(goal.batch_spread), goal.window);
    const double low = std::log(goal.window.green_low.value() / k.value()), high = std::log(goal.window.green_high.value() / k.value());
    return {k, probability(belief.doubt(goal.batch_spread).between(low, high).value())};
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
    std::vector<double> weights;
    weights_of(belief, weights);
    return probability(
        value_after({belief, x, test}, 0, weights, GatheredNodes(belief, goal.batch_spread), goal.window));
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
    std::vector<double> weights;
    weights_of(belief, weights);
    SwatchOutcomes(belief, {first}, test).each(0, weights, [&](std::span<const double> after) {
        const double chance = chance_of(after);
        if (!(chance > negligible_chance)) return;
        DemandBelief next = belief;
        auto weight = after.begin();
        for (auto& part : next.parts)
            for (auto& n : part.nodes)
                n.weight = *weight++ / chance;
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
