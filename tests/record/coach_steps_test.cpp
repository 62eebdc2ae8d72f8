// What the coach values, step by step, on a belief of few nodes with a few of next to no weight among them.

#include "lakebound/record/coach.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "record/few_nodes.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::test;

namespace {

const PaintGoal coach_goal{{BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(1.75), BinderSufficiency::of(2.3)}, 0.02};
const SwatchTest coach_test{0.03, false};
CoachRule coach_rule() {
    CoachRule rule;
    rule.least_gain_per_minute = 0.001;
    rule.most_steps = 7;
    rule.minutes_per_day = 12;
    rule.minutes_per_gram = 5;
    return rule;
}
std::vector<StepCost> all_steps() {
    return {{StepKind::rub_out, 0, minutes(10), grams(2), {}},
            {StepKind::solids_test, 0, minutes(15), {}, hours(24)},
            {StepKind::swatches, 1, minutes(11), grams(0.2), hours(36)},
            {StepKind::swatches, 2, minutes(17), grams(0.4), hours(36)},
            {StepKind::swatches, 4, minutes(31), grams(0.8), hours(36)}};
}
/// The same belief with nodes of this weight at the front, within a row, between rows and at the end of each part. The
/// second of a row has another c, as on a grid of two quantities.
DemandBelief with_light(double light) {
    DemandBelief b = few_nodes();
    for (auto& part : b.parts) {
        const auto nodes = part.nodes;
        part.nodes.clear();
        const auto add = [&](double weight, double flip, double critical) {
            DemandNode n = nodes.front();
            n.weight = weight, n.flip = flip, n.critical = critical;
            part.nodes.push_back(n);
        };
        add(light, -0.9, -0.8);
        add(light * 0.5, -0.9, -0.2);
        for (const DemandNode& n : nodes) {
            add(light, n.flip, n.critical - 0.5);
            part.nodes.push_back(n);
            add(light, n.flip, n.critical + 0.5);
            add(light * 0.25, n.flip, n.critical + 0.9);
            add(light, n.flip + 0.11, n.critical + 0.4);
        }
        add(light, 0.9, 1.0);
    }
    return b;
}
/// Nodes of less than 2 in a million put to the one before in their row of one z, else to the next that is kept, and those
/// at the very end to the last that is.
DemandBelief plainly_thinned(const DemandBelief& belief) {
    DemandBelief thin = belief;
    for (auto& part : thin.parts) {
        const auto all = part.nodes;
        std::vector<DemandNode> kept;
        for (std::size_t i = 0; i < all.size(); ++i)
            if (all[i].weight >= 2e-6) kept.push_back(all[i]);
        for (std::size_t i = 0, k = 0; i < all.size(); ++i) { // k: kept so far
            if (all[i].weight >= 2e-6) {
                ++k;
                continue;
            }
            const bool same_row = k > 0 && kept[k - 1].flip == all[i].flip;
            kept[same_row ? k - 1 : std::min(k, kept.size() - 1)].weight += all[i].weight;
        }
        part.nodes = kept;
    }
    return thin;
}

} // namespace

TEST_CASE("The coach values each step by the belief with its light corners put to their neighbours", "[reference]") {
    for (const double light : {1.9e-6, 1e-7, 2.1e-6, 0.0}) {
        CAPTURE(light);
        for (const std::size_t rub_outs : {0u, 1u}) {
            DemandBelief belief = light > 0.0 ? with_light(light) : few_nodes();
            belief.own_rub_outs = rub_outs;
            const DemandBelief thin = plainly_thinned(belief);
            if (light == 0.0 || light > 2e-6) CHECK(thin.parts[0].nodes.size() >= few_nodes().parts[0].nodes.size());
            const CoachRule rule = coach_rule();
            const Coaching c = coaching(belief, coach_goal, all_steps(), rule, coach_test);
            REQUIRE(c.steps.size() == 5);
            const double now = best_mixing_point(belief, coach_goal).chance.value();
            CHECK(c.now.chance.value() == Approx(now).epsilon(1e-14));
            CHECK(c.even_bet.value() == Approx(even_bet(belief, 0.03).value()).epsilon(1e-14));
            for (const CoachStep& step : c.steps) {
                const double value = step.cost.kind == StepKind::rub_out       ? value_after_rub_out(thin, coach_goal).value()
                                     : step.cost.kind == StepKind::solids_test ? value_after_solids_test(thin, coach_goal).value()
                                                                               : value_after_swatches(thin, coach_goal, step.at, coach_test).value();
                CAPTURE(static_cast<int>(step.cost.kind), step.cost.swatches);
                CHECK(step.value.value() == Approx(value).margin(2e-14).epsilon(0));
                CHECK(step.gain == Approx(value - now).margin(1e-13));
                const double price = in_minutes(step.cost.attention) + 12 * in_hours(step.cost.waiting) / 24 + 5 * in_grams(step.cost.pigment);
                CHECK(step.gain_for_price == Approx((value - now) / price).margin(1e-14));
                if (step.cost.kind != StepKind::swatches) {
                    CHECK(step.at.empty());
                    continue;
                }
                REQUIRE(step.at.size() == step.cost.swatches);
                if (step.cost.swatches == 1 && rub_outs == 0) {
                    // The best of the even bet and .1, .2 and .3 sd to either side.
                    double best = 0.0;
                    BinderSufficiency at;
                    for (const double off : {-0.3, -0.2, -0.1, 0.0, 0.1, 0.2, 0.3}) {
                        const auto k = BinderSufficiency::of(even_bet(thin, 0.03).value() * std::exp(off * thin.flip_spread()));
                        if (const double v = value_after_swatches(thin, coach_goal, {k}, coach_test).value(); v > best) best = v, at = k;
                    }
                    CHECK(step.at[0].value() == Approx(at.value()).epsilon(1e-12));
                } else {
                    const auto about = swatches_about(thin, step.cost.swatches, coach_test);
                    for (std::size_t i = 0; i < about.size(); ++i)
                        CHECK(step.at[i].value() == Approx(about[i].value()).epsilon(1e-12));
                }
            }
            for (std::size_t i = 1; i < 5; ++i)
                CHECK(c.steps[i - 1].gain_for_price >= c.steps[i].gain_for_price);
            CHECK(c.advice == CoachAdvice::measure);
            CHECK(c.recommended == 0u);
        }
    }
}

TEST_CASE("A part of light nodes alone stays as it is", "[unit]") {
    DemandBelief belief = few_nodes();
    for (auto& n : belief.parts[1].nodes)
        n.weight *= 5e-6; // .15 and .05: less than 2 in a million each
    for (auto& n : belief.parts[0].nodes)
        n.weight *= (1 - 1e-6) / 0.8;
    const Coaching c = coaching(belief, coach_goal, all_steps(), coach_rule(), coach_test);
    for (const CoachStep& step : c.steps)
        if (step.cost.kind == StepKind::rub_out)
            CHECK(step.value.value() == Approx(value_after_rub_out(belief, coach_goal).value()).margin(1e-14).epsilon(0));
}

TEST_CASE("A step costs no less than nothing and takes more than no time, however short", "[errors]") {
    const auto ask = [](StepCost cost) { return told([&] { (void)coaching(few_nodes(), coach_goal, {cost}, coach_rule(), coach_test); }); };
    CHECK(ask({StepKind::rub_out, 0, seconds(1e-6), grams(0), {}}) == "taken");
    CHECK(ask({StepKind::rub_out, 0, minutes(1), grams(0), seconds(0)}) == "taken");
    CHECK(ask({StepKind::rub_out, 0, minutes(1), grams(1e-6), seconds(1e-6)}) == "taken");
    CHECK(ask({StepKind::rub_out, 0, seconds(-1e-6), grams(0), {}}).rfind("attention of a step", 0) == 0);
    CHECK(ask({StepKind::rub_out, 0, minutes(1), grams(-1e-6), {}}).rfind("pigment of a step", 0) == 0);
    CHECK(ask({StepKind::rub_out, 0, minutes(1), grams(0), seconds(-1e-6)}).rfind("waiting of a step", 0) == 0);
}

TEST_CASE("A swatch that is hardly ever rich tells as much watched as rubbed alone", "[identity]") {
    // Being rich is an outcome of its own above 1 in 1000; below, what is watched for is passed over.
    const DemandBelief b = few_nodes();
    const SwatchTest watched{0.03, true};
    int passed_over = 0, seen = 0;
    for (double k = 0.5; k < 2.6; k += 0.02) {
        double rich = 0.0;
        for (const auto& part : b.parts)
            for (const auto& n : part.nodes) {
                const double at = std::log(k) - b.lean_edge;
                const double lean = 1 / (1 + std::exp((at - n.flip) / std::hypot(b.lean_width, 0.03 / 1.7)));
                rich += n.weight * (1 - lean) / (1 + std::exp((n.rich - at) / std::hypot(b.rich_width, std::hypot(0.03, part.rich_spread) / 1.7)));
            }
        const double rubbed = value_after_swatches(b, coach_goal, {BinderSufficiency::of(k)}, coach_test).value();
        const double looked = value_after_swatches(b, coach_goal, {BinderSufficiency::of(k)}, watched).value();
        CAPTURE(k, rich);
        if (rich < 0.00099) {
            CHECK(looked == Approx(rubbed).margin(1e-14).epsilon(0));
            ++passed_over;
        } else if (rich > 0.00101) {
            CHECK(std::abs(looked - rubbed) > 1e-9);
            ++seen;
        }
    }
    CHECK(passed_over > 5);
    CHECK(seen > 30);
    // Just above: found by halving.
    const auto rich_at = [&](double k) {
        double rich = 0.0;
        for (const auto& part : b.parts)
            for (const auto& n : part.nodes) {
                const double at = std::log(k) - b.lean_edge;
                const double lean = 1 / (1 + std::exp((at - n.flip) / std::hypot(b.lean_width, 0.03 / 1.7)));
                rich += n.weight * (1 - lean) / (1 + std::exp((n.rich - at) / std::hypot(b.rich_width, std::hypot(0.03, part.rich_spread) / 1.7)));
            }
        return rich;
    };
    for (const double wanted : {0.00095, 0.00105, 0.0012}) {
        double low = 0.5, high = 1.4;
        for (int i = 0; i < 60; ++i)
            (rich_at(0.5 * (low + high)) < wanted ? low : high) = 0.5 * (low + high);
        const double apart = std::abs(value_after_swatches(b, coach_goal, {BinderSufficiency::of(low)}, watched).value() -
                                      value_after_swatches(b, coach_goal, {BinderSufficiency::of(low)}, coach_test).value());
        CAPTURE(wanted, low, apart);
        CHECK((apart > 1e-9) == (wanted > 0.001));
    }
}

TEST_CASE("A reading is told by seven of its values", "[reference]") {
    // Abscissas and weights of Gauss and Hermite for 7 places, weight e^(-x^2) (Abramowitz and Stegun, table 25.10, from
    // memory; they are held to their moments below).
    const double x[] = {-2.651961356835233, -1.673551628767471, -0.8162878828589647, 0, 0.8162878828589647, 1.673551628767471, 2.651961356835233};
    const double w[] = {9.717812450995192e-4, 5.451558281912703e-2, 0.4256072526101278, 0.8102646175568073, 0.4256072526101278, 5.451558281912703e-2, 9.717812450995192e-4};
    double moments[3] = {};
    for (int i = 0; i < 7; ++i)
        for (int m = 0; m < 3; ++m)
            moments[m] += w[i] * std::pow(x[i], 4 * m + 4) / std::sqrt(M_PI);
    CHECK(moments[0] == Approx(3.0 / 4).epsilon(1e-12));
    CHECK(moments[1] == Approx(105.0 / 16).epsilon(1e-12));
    CHECK(moments[2] == Approx(10395.0 / 64).epsilon(1e-12)); // of degree 12, the last that seven places have right

    const DemandBelief b = few_nodes();
    const auto value = [&](double DemandNode::*mean, ReadingOutlook DemandPart::*outlook) {
        double first = 0, second = 0;
        for (const auto& part : b.parts)
            for (const auto& n : part.nodes)
                first += n.weight * n.*mean, second += n.weight * (n.*mean * (n.*mean) + (part.*outlook).variance);
        const double sd = std::sqrt(second - first * first);
        double sum = 0, whole = 0;
        for (int i = 0; i < 7; ++i) {
            const double y = first + std::sqrt(2.0) * x[i] * sd;
            std::vector<PlainNode> nodes;
            for (const auto& part : b.parts) {
                const auto [variance, covariance] = part.*outlook;
                for (const auto& n : part.nodes) {
                    const double d = y - n.*mean;
                    nodes.push_back({n.weight * std::exp(-d * d / (2 * variance)) / std::sqrt(variance), n.flip,
                                     n.critical + covariance / variance * d,
                                     std::sqrt(part.critical_spread * part.critical_spread - covariance * covariance / variance)});
                }
            }
            const double weight = w[i] * std::exp(x[i] * x[i]);
            sum += weight * plain_total(nodes) * plain_best(nodes, coach_goal);
            whole += weight * plain_total(nodes);
        }
        return sum / whole;
    };
    CHECK(value_after_rub_out(b, coach_goal).value() == Approx(value(&DemandNode::rub_out, &DemandPart::rub_out)).margin(1e-5).epsilon(0));
    CHECK(value_after_solids_test(b, coach_goal).value() == Approx(value(&DemandNode::medium, &DemandPart::medium)).margin(1e-5).epsilon(0));
}
