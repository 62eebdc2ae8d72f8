// The record room: what a whole studio teaches of one jar, and what the coach then advises.

#include <benchmark/benchmark.h>

#include <cmath>

#include "lakebound/estimate/random.hpp"
#include "lakebound/record/coach.hpp"
#include "record/stated_priors.hpp"

namespace {

using namespace lakebound;
using namespace lakebound::test;

/// Jars of three plants with one rub-out each and swatches in two kinds of binder near their true edges; every third
/// is watched for the rich side.
DemandRecord studio(std::size_t jars, std::size_t swatches) {
    RandomEngine engine(11);
    const auto normal = [&](double sd) { return sd * standard_normal(engine); };
    const double plant[3] = {normal(.26), normal(.26), normal(.26)}, hand = normal(.05), bias = normal(.05);
    const double step[2] = {normal(.09), normal(.09)};
    DemandRecord record;
    std::vector<double> demand, own[2];
    for (std::size_t j = 0; j < jars; ++j) {
        record.jars.push_back({j % 3, grams_per_100_grams(reference_oil_absorption), 0, false});
        demand.push_back(plant[j % 3] + normal(.15));
        own[0].push_back(normal(.078));
        own[1].push_back(normal(.078));
        const double y = demand[j] + hand + normal(.095);
        record.rub_outs.push_back({j, grams_per_100_grams(reference_oil_absorption * std::exp(y)), 0, 0.0});
    }
    for (std::size_t i = 0; i < swatches; ++i) {
        const std::size_t jar = i % jars, kind = (i / jars) % 3 == 2 ? oil : gum;
        const double edge = demand[jar] + step[kind] + own[kind][jar] + bias, x = edge + normal(.12);
        PaintTrial t;
        t.jar = jar;
        t.family = kind;
        t.library_k = BinderSufficiency::of(std::exp(x));
        t.weighing_spread = swatch_spread;
        const bool lean = normal(1.0) * .1 > x - edge;
        t.outcome = lean ? PaintOutcome::lean : i % 3 == 0 ? PaintOutcome::holds : PaintOutcome::not_lean;
        record.trials.push_back(t);
    }
    return record;
}

void learning_of_a_studio(benchmark::State& state) {
    const auto record = studio(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
    const DemandWorld world = stated_world();
    DemandBelief belief;
    for (auto _ : state) {
        belief = learned_demand(world, record, {0, gum, {}});
        benchmark::DoNotOptimize(belief);
    }
    state.counters["parts"] = static_cast<double>(belief.parts.size());
    state.counters["sweeps"] = static_cast<double>(belief.sweeps);
    state.counters["window_percent"] = best_aim(belief).chance;
}
BENCHMARK(learning_of_a_studio)
    ->ArgNames({"jars", "swatches"})
    ->Args({1, 2})
    ->Args({3, 12})
    ->Args({30, 300})
    ->Unit(benchmark::kMillisecond);

void coaching_of_a_jar(benchmark::State& state) {
    const auto record = studio(3, static_cast<std::size_t>(state.range(0)));
    const auto belief = learned_demand(stated_world(), record, {0, gum, {}});
    const std::vector<StepCost> steps{{StepKind::rub_out, 0, minutes(10), grams(2), {}},
                                      {StepKind::swatches, 1, minutes(10), grams(.2), minutes(1440)},
                                      {StepKind::swatches, 2, minutes(15), grams(.4), minutes(1440)},
                                      {StepKind::swatches, 4, minutes(30), grams(.8), minutes(1440)}};
    CoachRule rule;
    rule.least_gain_per_minute = .001;
    rule.most_steps = 7;
    for (auto _ : state)
        benchmark::DoNotOptimize(coaching(belief, {pan_window(), batch_spread}, steps, rule, {swatch_spread, false}));
    std::size_t nodes = 0;
    for (const auto& part : belief.parts)
        nodes += part.nodes.size();
    state.counters["nodes"] = static_cast<double>(nodes);
}
BENCHMARK(coaching_of_a_jar)->ArgName("swatches")->Arg(0)->Arg(12)->Unit(benchmark::kMillisecond);

} // namespace
