// The plan of a batch mixed in doses, reckoned anew from the statement of its header on a belief of few nodes.

#include "lakebound/record/stepwise_mix.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "record/check_cases.hpp"
#include "record/few_nodes.hpp"

using namespace lakebound;
using namespace lakebound::test;
using lakebound::test::Bench; // not the bench of a batch

namespace {

/// 10 g of powder that wants .7 mL/g, medium with .25 mL/g of binder that reaches .8 of the voids, a scale without steps.
StepwiseQuestion ten_grams() {
    StepwiseQuestion q;
    q.powder = grams(10.0);
    q.stroke_powder = grams(0.3);
    q.paint = SwatchPaint{millilitres_per_gram(0.7), millilitres_per_gram(0.25)};
    q.paint.binder_index = BinderIndex::of(0.8);
    q.goal = {{BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(1.8), BinderSufficiency::of(2.4)}, 0.03};
    q.most_doses = 8;
    q.price_per_stroke = 0.01;
    q.bench.scales = {{"fine", grams(1e-9), {}, {}}};
    q.bench.weighing_tolerance = Share::of(0.05);
    return q;
}
double medium_per_gram(double k) { return k * 0.7 / 0.25 / 0.8; }

double lean_at(const DemandBelief& b, const PlainNode& n, double x, double spread) {
    return 1.0 / (1.0 + std::exp((x - b.lean_edge - n.flip) / std::hypot(b.lean_width, spread / 1.7)));
}
/// Chance of the window as if the belief were normal.
double as_if_normal(const std::vector<PlainNode>& nodes, const PaintGoal& goal) {
    double sum = 0.0, first = 0.0, second = 0.0;
    for (const auto& n : nodes) {
        sum += n.weight;
        first += n.weight * n.critical;
        second += n.weight * (n.critical * n.critical + n.spread * n.spread);
    }
    if (!(sum > 0.0)) return 0.0;
    const double variance = second / sum - first / sum * (first / sum) + goal.batch_spread * goal.batch_spread;
    return 2 * plain_phi(0.5 * std::log(goal.window.green_high.value() / goal.window.green_low.value()) / std::sqrt(variance)) - 1;
}
/// Strokes at these ln k: chance of the window less what the strokes cost.
double plain_worth(const DemandBelief& b, const StepwiseQuestion& q, const std::vector<double>& at) {
    auto chalked = plain_nodes(b);
    double reached = 1.0, worth = 0.0;
    for (const double x : at) {
        auto held = chalked;
        for (std::size_t i = 0; i < held.size(); ++i) {
            const double lean = lean_at(b, held[i], x, q.goal.batch_spread);
            held[i].weight *= 1 - lean;
            chalked[i].weight *= lean;
        }
        const double before = plain_total(held) + plain_total(chalked), chalks = before > 0 ? plain_total(chalked) / before : 0.0;
        worth += reached * ((1 - chalks) * as_if_normal(held, q.goal) - q.price_per_stroke);
        reached *= chalks;
    }
    return worth + reached * as_if_normal(chalked, q.goal);
}
std::vector<double> places(const DemandBelief& b, const StepwiseQuestion& q, std::size_t doses, double begin, double gap) {
    const double sd = b.flip_spread();
    double first = std::log(even_bet(b, q.goal.batch_spread).value()) - begin * sd;
    if (q.started) first = std::max(first, std::log(q.started->library_k.value()) + gap * sd);
    std::vector<double> at;
    for (std::size_t i = 0; i < doses; ++i)
        at.push_back(first + static_cast<double>(i) * gap * sd);
    return at;
}

/// Every figure of a plan, its doses as they stand, by the nodes one by one.
void check_plan(const DemandBelief& b, const StepwiseQuestion& q, const StepwiseMix& mix) {
    auto chalked = plain_nodes(b);
    double powder = 10.0, ratio = 0.0, reached = 1.0, strokes = 0.0, in_window = 0.0;
    if (q.started) {
        powder -= 0.3 * static_cast<double>(q.started->strokes);
        ratio = medium_per_gram(q.started->library_k.value());
    }
    const auto check_last = [&](const LastDose& last, const std::vector<PlainNode>& nodes) {
        const double in_all = ratio + in_grams(last.medium) / powder;
        CHECK(in_grams(last.in_all) == Approx(10 * in_all).epsilon(1e-9));
        CHECK(medium_per_gram(last.library_k.value()) == Approx(in_all).epsilon(1e-9));
        if (!(plain_total(nodes) > 1e-12)) return;
        CHECK(last.in_window.value() == Approx(plain_in_window(nodes, q.goal, last.library_k.value())).margin(1e-6));
        // The best place, or what is on the slab where that is beyond it.
        if (last.medium.value() > 0.0) CHECK(last.in_window.value() == Approx(plain_best(nodes, q.goal)).margin(2e-5));
    };
    for (const StepwiseDose& dose : mix.doses) {
        CHECK(dose.scale == 0);
        ratio += in_grams(dose.medium) / powder;
        CHECK(in_grams(dose.in_all) == Approx(10 * ratio).epsilon(1e-9));
        CHECK(medium_per_gram(dose.library_k.value()) == Approx(ratio).epsilon(1e-9));
        powder -= 0.3;
        auto held = chalked;
        for (std::size_t i = 0; i < held.size(); ++i) {
            const double lean = lean_at(b, held[i], std::log(dose.library_k.value()), q.goal.batch_spread);
            held[i].weight *= 1 - lean;
            chalked[i].weight *= lean;
        }
        const double before = plain_total(held) + plain_total(chalked);
        const double chalks = before > 0 ? plain_total(chalked) / before : 0.0;
        CHECK(dose.reached.value() == Approx(reached).epsilon(1e-9).margin(1e-300));
        CHECK(dose.chalks.value() == Approx(chalks).epsilon(1e-9).margin(1e-300));
        check_last(dose.if_not, held);
        strokes += reached;
        in_window += reached * (1 - chalks) * dose.if_not.in_window.value();
        reached *= chalks;
    }
    check_last(mix.if_all_chalk, chalked);
    in_window += reached * mix.if_all_chalk.in_window.value();
    CHECK(mix.strokes_expected == Approx(strokes).margin(1e-12));
    CHECK(mix.in_window.value() == Approx(in_window).margin(1e-12));
    CHECK(mix.powder_scale == 0);
}

} // namespace

TEST_CASE("Of all plans that are tried the one worth most is made, and all its figures follow", "[reference]") {
    // Where to begin, in sd of z below the even bet, and the way from dose to dose, in sd (rule of this library).
    const double begins[] = {0.4, 0.7, 1.0, 1.3, 1.6, 2.0}, gaps[] = {0.3, 0.4, 0.5, 0.65, 0.8, 1.0};
    std::vector<std::pair<double, double>> chosen;
    for (const bool few : {true, false}) {
        const DemandBelief b = few ? few_nodes() : check_case("K1").bench.belief(plain_world());
        for (const double price : {0.0, 0.002, 0.01, 0.03, 0.08})
            for (const std::size_t doses : {1u, 2u, 4u, 8u, 12u})
                for (const double started : {0.0, 0.9}) {
                    if (started > 0.0 && (!few || doses > 8)) continue;
                    if (!few && (doses == 2 || (doses == 12) != (price == 0.0))) continue;
                    CAPTURE(few, price, doses, started);
                    auto q = ten_grams();
                    if (doses == 12) q.goal.window.green_high = BinderSufficiency::of(1.27);
                    q.price_per_stroke = price;
                    q.most_doses = started > 0.0 ? doses + 2 : doses;
                    if (started > 0.0) q.started = StartedBatch{BinderSufficiency::of(started), 2, true};
                    const StepwiseMix mix = stepwise_mix(b, q);
                    REQUIRE(mix.doses.size() == doses);
                    double best = -1e9;
                    std::pair<double, double> at;
                    for (const double begin : begins)
                        for (const double gap : gaps)
                            if (const double worth = plain_worth(b, q, places(b, q, doses, begin, gap)); worth > best + 1e-12)
                                best = worth, at = {begin, gap};
                    const auto wanted = places(b, q, doses, at.first, at.second);
                    for (std::size_t i = 0; i < doses; ++i)
                        CHECK(std::log(mix.doses[i].library_k.value()) == Approx(wanted[i]).margin(1e-7));
                    if (few) check_plan(b, q, mix);
                    chosen.push_back(at);
                }
    }
    const auto kinds = [&](auto of) {
        std::vector<double> seen;
        for (const auto& each : chosen)
            seen.push_back(of(each));
        std::sort(seen.begin(), seen.end());
        return std::unique(seen.begin(), seen.end()) - seen.begin();
    };
    CHECK(kinds([](const auto& each) { return each.first; }) >= 4);
    CHECK(kinds([](const auto& each) { return each.second; }) >= 4);
}

TEST_CASE("Where a test flips as sharply as a knife no stroke chalks beyond the last node", "[unit]") {
    auto b = few_nodes();
    b.lean_width = 1e-6;
    auto q = ten_grams();
    q.goal.batch_spread = 0.0;
    q.most_doses = 12;
    q.price_per_stroke = 0.0;
    q.started = StartedBatch{BinderSufficiency::of(1.6), 1, true};
    const StepwiseMix mix = stepwise_mix(b, q);
    REQUIRE(mix.doses.size() == 11);
    CHECK(mix.doses.back().reached.value() == 0.0);
    CHECK(mix.doses.back().chalks.value() == 0.0);
    double in_window = 0.0;
    for (const StepwiseDose& dose : mix.doses)
        in_window += dose.reached.value() * (1 - dose.chalks.value()) * dose.if_not.in_window.value();
    CHECK(mix.in_window.value() == Approx(in_window).margin(1e-12));
    CHECK(mix.in_window.value() > 0.3);
    CHECK(mix.if_all_chalk.in_window.value() == 0.0);
    CHECK(mix.if_all_chalk.medium.value() == 0.0);
    CHECK(mix.if_all_chalk.library_k.value() == Approx(mix.doses.back().library_k.value()).epsilon(1e-9));
    CHECK(in_grams(mix.if_all_chalk.in_all) == Approx(in_grams(mix.doses.back().in_all)).epsilon(1e-9));
}

TEST_CASE("A dose is weighed on the scale for it, one step of that at least", "[unit]") {
    auto q = ten_grams();
    q.bench.scales = {{"kitchen", grams(1.0), {}, {}}, {"pocket", grams(0.1), grams(8.0), {}}};
    for (const double price : {0.0, 0.05}) {
        q.price_per_stroke = price;
        const StepwiseMix mix = stepwise_mix(few_nodes(), q);
        // .41 of a step, twice, over 5 %: 16.4 g on the kitchen scale. What the pocket scale carries, it weighs.
        CHECK(mix.powder_scale == 0); // 10 g
        for (const StepwiseDose& dose : mix.doses) {
            const double g = in_grams(dose.medium), step = dose.scale == 0 ? 1.0 : 0.1;
            CHECK(dose.scale == (g > 8.0 ? 0u : 1u));
            CHECK(g >= step * (1 - 1e-9));
            CHECK(g / step == Approx(std::round(g / step)).margin(1e-6));
        }
    }
    // Doses closer together than the scale's step get a step all the same.
    q.most_doses = 12;
    q.bench.scales = {{"coarse", grams(5.0), {}, {}}};
    const StepwiseMix coarse = stepwise_mix(few_nodes(), q);
    for (const StepwiseDose& dose : coarse.doses) {
        CHECK(in_grams(dose.medium) >= 5.0 * (1 - 1e-9));
        CHECK(std::remainder(in_grams(dose.medium), 5.0) == Approx(0.0).margin(1e-9));
    }
}

TEST_CASE("More powder is wanted where the window is a tenth less likely than it could be, and nothing can be added", "[unit]") {
    StepwiseMix mix;
    mix.if_all_chalk.in_window = Probability::of(0.5);
    CHECK(wants_powder(mix, Probability::of(0.6001)));
    CHECK_FALSE(wants_powder(mix, Probability::of(0.5999)));
    mix.if_all_chalk.medium = grams(0.0001);
    CHECK_FALSE(wants_powder(mix, Probability::of(0.9)));
    mix.if_all_chalk.medium = Mass();
    mix.doses.emplace_back();
    CHECK_FALSE(wants_powder(mix, Probability::of(0.9)));
}
