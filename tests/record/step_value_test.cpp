// Held against a plain program that weighs every outcome and seeks the best place on a fine grid, for beliefs of few
// nodes that lie too far apart to be put together.

#include "lakebound/record/step_value.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "record/few_nodes.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }
double logistic_of(double z) { return 1.0 / (1.0 + std::exp(-z)); }

/// Two kinds of maker with their nodes, before any rub-out; the flips go with what the powder wants.
DemandBelief two_kinds() {
    DemandBelief b = test::few_nodes();
    b.own_rub_outs = 0;
    b.parts[0].critical_spread = 0.16;
    return b;
}

SufficiencyWindow window() {
    const auto k = [](double value) { return BinderSufficiency::of(value); };
    return {k(1.0), k(1.2), k(1.75), k(2.3)};
}
const double batch = 0.02;
PaintGoal goal() { return {window(), batch}; }

struct Node {
    const DemandPart* part;
    DemandNode node;
    double weight;
};

std::vector<Node> nodes_of(const DemandBelief& b) {
    std::vector<Node> nodes;
    for (const auto& part : b.parts)
        for (const auto& n : part.nodes)
            nodes.push_back({&part, n, n.weight});
    return nodes;
}

/// Greatest chance of the window times the weight of all nodes.
double plain_value(const std::vector<Node>& nodes) {
    double most = 0.0;
    for (double x = -0.8; x < 1.6; x += 0.004) {
        double sum = 0.0;
        for (const Node& n : nodes) {
            const double s = std::hypot(n.part->critical_spread, batch);
            sum += n.weight * (normal_cdf((std::log(1.75) - x + n.node.critical) / s) - normal_cdf((std::log(1.2) - x + n.node.critical) / s));
        }
        most = std::max(most, sum);
    }
    return most;
}

double total(const std::vector<Node>& nodes) {
    return std::accumulate(nodes.begin(), nodes.end(), 0.0, [](double sum, const Node& n) { return sum + n.weight; });
}

/// Swatches at these k, each outcome in turn.
double plain_swatches(const DemandBelief& b, std::vector<Node> nodes, std::vector<double> ks, const SwatchTest& test) {
    if (ks.empty()) return plain_value(nodes);
    const double at = std::log(ks.front()) - b.lean_edge;
    ks.erase(ks.begin());
    std::vector<Node> lean = nodes, rich = nodes, rest = nodes;
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const Node& n = nodes[i];
        const double chalks = logistic_of((n.node.flip - at) / std::hypot(b.lean_width, test.weighing_spread / 1.7));
        const double shines = logistic_of((at - n.node.rich) /
                                          std::hypot(b.rich_width, std::hypot(test.weighing_spread, n.part->rich_spread) / 1.7));
        lean[i].weight = n.weight * chalks;
        rich[i].weight = n.weight * (1 - chalks) * shines;
        rest[i].weight = n.weight * (1 - chalks) * (1 - shines);
    }
    if (!test.watched || !(total(rich) > 0.001 * total(nodes))) {
        for (std::size_t i = 0; i < nodes.size(); ++i)
            rest[i].weight += rich[i].weight;
        return plain_swatches(b, lean, ks, test) + plain_swatches(b, rest, ks, test);
    }
    return plain_swatches(b, lean, ks, test) + plain_swatches(b, rich, ks, test) + plain_swatches(b, rest, ks, test);
}

double swatches(const DemandBelief& b, const std::vector<double>& ks, const SwatchTest& test) {
    std::vector<BinderSufficiency> at;
    for (const double k : ks)
        at.push_back(BinderSufficiency::of(k));
    return value_after_swatches(b, goal(), at, test).value();
}

/// By a hundred readings.
double plain_reading(const DemandBelief& b, double DemandNode::*mean, ReadingOutlook DemandPart::*outlook) {
    double sum = 0.0;
    const double step = 0.02;
    for (double y = -1.2; y < 1.6; y += step) {
        DemandBelief next = b;
        for (auto& part : next.parts) {
            const auto [variance, covariance] = part.*outlook;
            part.critical_spread = std::sqrt(part.critical_spread * part.critical_spread - covariance * covariance / variance);
            for (auto& n : part.nodes) {
                const double d = y - n.*mean;
                n.weight *= std::exp(-d * d / (2 * variance)) / std::sqrt(2 * std::acos(-1.0) * variance);
                n.critical += covariance / variance * d;
            }
        }
        sum += step * plain_value(nodes_of(next));
    }
    return sum;
}

} // namespace

TEST_CASE("The value of swatches is that of every outcome with the aim sought anew", "[reference]") {
    const DemandBelief b = two_kinds();
    CHECK(best_mixing_point(b, goal()).chance.value() == Approx(plain_value(nodes_of(b))).margin(1e-5).epsilon(0));
    for (const bool watched : {false, true})
        for (const double spread : {0.0, 0.04})
            for (const std::vector<double>& ks : {std::vector<double>{1.1}, {0.7}, {1.6}, {2.4}, {0.9, 1.4}, {1.0, 1.3, 1.9}}) {
                CAPTURE(watched, spread, ks.size(), ks.front());
                const SwatchTest test{spread, watched};
                CHECK(swatches(b, ks, test) == Approx(plain_swatches(b, nodes_of(b), ks, test)).margin(1e-4).epsilon(0));
            }
}

TEST_CASE("The value of a rub-out and of a solids test is that of their readings", "[reference]") {
    const DemandBelief b = two_kinds();
    CHECK(value_after_rub_out(b, goal()).value() ==
          Approx(plain_reading(b, &DemandNode::rub_out, &DemandPart::rub_out)).margin(2e-4).epsilon(0));
    CHECK(value_after_solids_test(b, goal()).value() ==
          Approx(plain_reading(b, &DemandNode::medium, &DemandPart::medium)).margin(2e-4).epsilon(0));
    // One node: every reading narrows c alike, whatever it shows.
    DemandBelief one = b;
    one.parts.resize(1);
    one.parts[0].nodes = {{1.0, 0.0, 0.4, 0.1, 0.05, 0.02, 0.0}};
    const double s = std::hypot(std::sqrt(0.16 * 0.16 - 0.012 * 0.012 / 0.03), batch);
    CHECK(value_after_rub_out(one, goal()).value() ==
          Approx(2 * normal_cdf(0.5 * std::log(1.75 / 1.2) / s) - 1).margin(1e-5).epsilon(0));
    one.parts[0].rub_out.variance = 0.0; // nothing to read
    CHECK(value_after_rub_out(one, goal()).value() == Approx(best_mixing_point(one, goal()).chance.value()).epsilon(1e-12));
}

TEST_CASE("A reading that teaches nothing leaves the chance as it was, however sure c is", "[identity]") {
    // A batch judged in use leaves c known to a fortieth given a node; a narrow window shows each thousandth of it.
    DemandBelief b = two_kinds();
    b.parts.resize(1);
    b.parts[0].critical_spread = 0.02;
    b.parts[0].rub_out = {0.03, 0.0};
    b.parts[0].nodes = {{1.0, 0.0, 0.4, 0.1, 0.05, 0.02, 0.0}};
    const auto k = [](double value) { return BinderSufficiency::of(value); };
    const PaintGoal narrow{{k(1.0), k(1.2), k(1.26), k(2.3)}, batch};
    const double now = 2 * normal_cdf(0.5 * std::log(1.26 / 1.2) / std::hypot(0.02, batch)) - 1;
    CHECK(best_mixing_point(b, narrow).chance.value() == Approx(now).margin(1e-6).epsilon(0));
    CHECK(value_after_rub_out(b, narrow).value() == Approx(now).margin(1e-5).epsilon(0));
}

TEST_CASE("At the even bet a swatch chalks in half of all cases", "[identity]") {
    const DemandBelief b = two_kinds();
    for (const double spread : {0.0, 0.03, 0.2}) {
        const double x = std::log(even_bet(b, spread).value()) - b.lean_edge;
        double lean = 0.0;
        for (const Node& n : nodes_of(b))
            lean += n.weight * logistic_of((n.node.flip - x) / std::hypot(b.lean_width, spread / 1.7));
        CHECK(lean == Approx(0.5).margin(1e-9).epsilon(0));
    }
}

TEST_CASE("Two swatches in turn: the second where the first makes it an even bet", "[reference]") {
    const DemandBelief b = two_kinds();
    const SwatchTest rubbed{0.03, false};
    const double first = even_bet(b, 0.03).value();
    double sum = 0.0;
    for (const bool chalks : {true, false}) {
        DemandBelief next = b;
        double chance = 0.0;
        for (auto& part : next.parts)
            for (auto& n : part.nodes) {
                const double z = (n.flip - std::log(first) + b.lean_edge) / std::hypot(b.lean_width, 0.03 / 1.7);
                chance += n.weight *= logistic_of(chalks ? z : -z);
            }
        for (auto& part : next.parts)
            for (auto& n : part.nodes)
                n.weight /= chance;
        sum += chance * plain_swatches(next, nodes_of(next), {even_bet(next, 0.03).value()}, rubbed);
    }
    CHECK(value_after_two_in_turn(b, goal(), rubbed).value() == Approx(sum).margin(1e-4).epsilon(0));
}

TEST_CASE("An even bet chalks as often as not, and swatches lie about it", "[identity]") {
    const DemandBelief b = two_kinds();
    for (const double spread : {0.0, 0.05, 0.3}) {
        const double at = std::log(even_bet(b, spread).value()) - b.lean_edge;
        double chalks = 0.0;
        for (const Node& n : nodes_of(b))
            chalks += n.weight * logistic_of((n.node.flip - at) / std::hypot(b.lean_width, spread / 1.7));
        CHECK(chalks == Approx(0.5).margin(1e-9).epsilon(0));
    }
    const double mean = 0.3 * -0.20 + 0.4 * 0.02 + 0.1 * 0.26 + 0.15 * -0.4 + 0.05 * 0.5;
    const double square = 0.3 * 0.04 + 0.4 * 0.0004 + 0.1 * 0.0676 + 0.15 * 0.16 + 0.05 * 0.25;
    CHECK(b.flip_mean() == Approx(mean).epsilon(1e-12));
    CHECK(b.flip_spread() == Approx(std::sqrt(square - mean * mean)).epsilon(1e-12));
    CHECK(b.odd_weight() == Approx(0.2).epsilon(1e-12));
    const double centre = even_bet(b, 0.05).value(), sd = b.flip_spread();
    const SwatchTest test{0.05, false};
    for (const auto& wanted : std::vector<std::vector<double>>{{0.0}, {-0.25, 0.25}, {-0.9, -0.3, 0.3, 0.9}}) {
        const auto swatches = swatches_about(b, wanted.size(), test);
        REQUIRE(swatches.size() == wanted.size());
        for (std::size_t i = 0; i < wanted.size(); ++i)
            CHECK(std::log(swatches[i].value() / centre) / sd == Approx(wanted[i]).margin(1e-12));
    }
    CHECK(told([&] { swatches_about(b, 3, test); }) == "swatches at once: 3");
    CHECK(told([&] { value_after_swatches(b, goal(), {}, test); }) == "swatches at once: 0");
    const std::vector six(6, BinderSufficiency::of(1.2)), seven(7, BinderSufficiency::of(1.2));
    CHECK(told([&] { value_after_swatches(b, goal(), six, test); }) == "taken");
    CHECK(told([&] { value_after_swatches(b, goal(), seven, test); }) == "swatches at once: 7");
}

TEST_CASE("What a rub-out or a paint shows is as likely as its nodes have it", "[identity]") {
    const DemandBelief b = two_kinds();
    for (const double oil : {0.6, 0.8, 0.95, 1.1, 1.6}) {
        double below = 0.0;
        for (const Node& n : nodes_of(b))
            below += n.weight * normal_cdf((std::log(oil / 0.65) - n.node.rub_out) / std::sqrt(n.part->rub_out.variance));
        CAPTURE(oil);
        CHECK(chance_of_rub_out(b, OilAbsorption::of(oil)).value() == Approx(2 * std::min(below, 1 - below)).epsilon(1e-9));
    }
    PaintTrial trial;
    trial.library_k = BinderSufficiency::of(1.3);
    trial.weighing_spread = 0.04;
    const double at = std::log(1.3) - b.lean_edge;
    for (const bool in_use : {false, true}) {
        trial.in_use = in_use;
        double lean = 0.0, rich = 0.0;
        for (const Node& n : nodes_of(b)) {
            const double open = in_use ? n.part->critical_spread : 0.0;
            const double edge = in_use ? n.node.critical : n.node.flip;
            const double chalks = logistic_of((edge - at) / std::hypot(in_use ? 0.06 : 0.05, std::hypot(0.04, open) / 1.7));
            const double shines = logistic_of((at - (n.node.rich - n.node.flip + edge)) /
                                              std::hypot(0.08, std::sqrt(0.04 * 0.04 + n.part->rich_spread * n.part->rich_spread + open * open) / 1.7));
            lean += n.weight * chalks;
            rich += n.weight * (1 - chalks) * shines;
        }
        const auto chance = [&](PaintOutcome outcome) {
            trial.outcome = outcome;
            return chance_of_trial(b, trial).value();
        };
        CAPTURE(in_use);
        CHECK(chance(PaintOutcome::lean) == Approx(lean).epsilon(1e-9));
        CHECK(chance(PaintOutcome::not_lean) == Approx(1 - lean).epsilon(1e-9));
        CHECK(chance(PaintOutcome::rich) == Approx(rich).epsilon(1e-9));
        CHECK(chance(PaintOutcome::holds) == Approx(1 - lean - rich).epsilon(1e-9));
    }
}
