// The record room: what a whole studio teaches of one jar, and what the coach then advises.

#include <benchmark/benchmark.h>

#include "lakebound/record/coach.hpp"
#include "record/drawn_studio.hpp"

namespace {

using namespace lakebound;
using namespace lakebound::test;

void learning_of_a_studio(benchmark::State& state) {
    const auto record = drawn_studio(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
    const DemandWorld world = stated_world();
    DemandBelief belief{.reference = record.jars.front().reference};
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
    const auto record = drawn_studio(3, static_cast<std::size_t>(state.range(0)));
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
