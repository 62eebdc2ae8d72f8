#pragma once
// A belief of few nodes that lie too far apart to be put together, and what a plain program makes of it.

#include <cmath>
#include <cstddef>
#include <vector>

#include "lakebound/record/step_value.hpp"

namespace lakebound::test {

/// Two kinds of maker; where the test flips goes with what the powder wants.
inline DemandBelief few_nodes() {
    DemandBelief b{.reference = OilAbsorption::of(0.65)};
    b.lean_width = 0.05;
    b.rich_width = 0.08;
    b.use_width = 0.06;
    b.lean_edge = std::log(1.1);
    b.own_rub_outs = 1;
    DemandPart plain;
    plain.jar_spread = 0.15;
    plain.weight = 0.8;
    plain.rich_spread = 0.1;
    plain.critical_spread = 0.12;
    plain.rub_out = {0.03, 0.012};
    plain.medium = {0.02, -0.009};
    plain.nodes = {{0.3, -0.20, 0.25, -0.22, 0.25, -0.15, 0.0}, {0.4, 0.02, 0.40, 0.01, 0.43, -0.22, 0.0}, {0.1, 0.26, 0.62, 0.24, 0.60, -0.3, 0.0}};
    DemandPart odd = plain;
    odd.odd_maker = true;
    odd.weight = 0.2;
    odd.critical_spread = 0.2;
    odd.rich_spread = 0.15;
    odd.rub_out = {0.05, 0.02};
    odd.medium = {0.04, 0.011};
    odd.nodes = {{0.15, -0.4, 0.1, -0.1, 0.40, -0.1, 0.0}, {0.05, 0.5, 0.9, 0.3, 0.65, -0.4, 0.0}};
    b.parts = {plain, odd};
    return b;
}

/// A node with its part's spread of c.
struct PlainNode {
    double weight, flip, critical, spread;
};
inline std::vector<PlainNode> plain_nodes(const DemandBelief& b) {
    std::vector<PlainNode> nodes;
    for (const auto& part : b.parts)
        for (const auto& n : part.nodes)
            nodes.push_back({n.weight, n.flip, n.critical, part.critical_spread});
    return nodes;
}
inline double plain_total(const std::vector<PlainNode>& nodes) {
    double sum = 0.0;
    for (const auto& n : nodes)
        sum += n.weight;
    return sum;
}
inline double plain_phi(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }
/// Chance of the window at this k of the library; weights need not add up to 1.
inline double plain_in_window(const std::vector<PlainNode>& nodes, const PaintGoal& goal, double library_k) {
    double sum = 0.0;
    const double x = std::log(library_k);
    for (const auto& n : nodes) {
        const double s = std::hypot(n.spread, goal.batch_spread);
        sum += n.weight * (plain_phi((std::log(goal.window.green_high.value()) - x + n.critical) / s) -
                           plain_phi((std::log(goal.window.green_low.value()) - x + n.critical) / s));
    }
    return sum / plain_total(nodes);
}
/// The greatest of it over where to mix, by steps of .002 in ln k.
inline double plain_best(const std::vector<PlainNode>& nodes, const PaintGoal& goal) {
    double most = 0.0;
    for (double x = -1.2; x < 2.2; x += 0.002)
        most = std::max(most, plain_in_window(nodes, goal, std::exp(x)));
    return most;
}

} // namespace lakebound::test
