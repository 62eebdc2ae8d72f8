// The bath room: a whole plan with its curves and the lake's doubt, a titration curve, a bath's standing. The curve beside
// an independent solver in Python, in one run, is tests/reference/bath_check.py.

#include <benchmark/benchmark.h>

#include <string>

#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/typed_bath.hpp"

namespace {

using namespace lakebound;

Library shelf_of_baths() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "benchmark", true}}); }

BathTexts madder_texts() {
    BathTexts texts;
    texts.plant = "100 g dry root";
    texts.alum = "potash-alum, 50 g";
    texts.alkali = "soda-ash";
    texts.water = "3.0 L";
    texts.vessel = "12 L";
    return texts;
}

void bath_plan_whole(benchmark::State& state) {
    Library library = shelf_of_baths();
    const BathWish wish = bath_wish(madder_texts(), library);
    const LakingHabits laking = library.laking_habits();
    const WashHabits washing = library.wash_habits();
    for (auto _ : state) {
        auto plan = plan_bath(wish, laking, washing);
        benchmark::DoNotOptimize(plan);
    }
}
BENCHMARK(bath_plan_whole)->Unit(benchmark::kMillisecond);

void bath_titration_curve(benchmark::State& state) {
    Library library = shelf_of_baths();
    const BathPlan plan = plan_bath(bath_wish(madder_texts(), library), library.laking_habits(), library.wash_habits());
    const Titration bath = titration_of(plan);
    for (auto _ : state) {
        auto curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), 3.6, static_cast<std::size_t>(state.range(0)));
        benchmark::DoNotOptimize(curve);
    }
}
BENCHMARK(bath_titration_curve)->ArgName("points")->Arg(200)->Unit(benchmark::kMicrosecond);

void bath_lake_expected(benchmark::State& state) {
    Library library = shelf_of_baths();
    const BathPlan plan = plan_bath(bath_wish(madder_texts(), library), library.laking_habits(), library.wash_habits());
    for (auto _ : state) {
        auto lake = expected_lake(*plan.lake_inputs);
        benchmark::DoNotOptimize(lake);
    }
}
BENCHMARK(bath_lake_expected)->Unit(benchmark::kMillisecond);

} // namespace
