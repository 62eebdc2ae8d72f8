// The estimate room: random numbers, Monte Carlo of a whole paint, budget, fits.

#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/least_squares.hpp"
#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/estimate/random.hpp"

namespace {

using namespace lakebound;

/// A watercolour with ten uncertain inputs; SI units, medians as for a weld lake in gum medium.
std::vector<UncertainInput> paint_inputs() {
    const auto factor = [](const char* name, double median, double s) {
        return UncertainInput{name, {Shape::lognormal, median, s}, {}};
    };
    const auto normal = [](const char* name, double mean, double u) {
        return UncertainInput{name, {Shape::normal, mean, u}, {}};
    };
    return {normal("pigment mass", 0.010, 3e-5),    factor("oil absorption", 0.6878, 0.30),
            factor("method transfer", 1.0, 0.10),   factor("pigment density", 1880, 0.106),
            normal("test oil density", 930, 3),     normal("medium mass", 0.0370, 3e-5),
            normal("medium solids", 0.3685, 0.01),  factor("solids density", 1398, 0.02),
            normal("pigment moisture", 0.15, 0.01), normal("slab loss", 0.03, 0.01)};
}

struct Paint {
    double k, pvc, cpvc, reduced;
};
Paint paint(std::span<const double> x) {
    const double pigment = x[0] / x[3] * (1.15 - x[8]), demand = x[0] * x[1] * x[2] / x[4];
    const double binder = x[5] * x[6] / x[7] * (1.03 - x[9]);
    const double pvc = pigment / (pigment + binder), cpvc = pigment / (pigment + demand);
    return {binder / demand, pvc, cpvc, pvc / cpvc};
}
double sufficiency(std::span<const double> x) { return paint(x).k; }

void fill_normal(benchmark::State& state) {
    RandomEngine engine(1);
    std::vector<double> z(4096);
    for (auto _ : state) {
        fill_standard_normal(engine, z);
        benchmark::DoNotOptimize(z.data());
    }
    state.SetItemsProcessed(state.iterations() * 4096);
}
BENCHMARK(fill_normal);

/// Range 0: draws; 1: drawing; 2: threads.
void monte_carlo_of_k(benchmark::State& state) {
    const auto inputs = paint_inputs();
    MonteCarloOptions options;
    options.draws = static_cast<std::size_t>(state.range(0));
    options.drawing = static_cast<Drawing>(state.range(1));
    options.threads = static_cast<unsigned>(state.range(2));
    EstimatedProbability p;
    for (auto _ : state) {
        p = probability_below(
            monte_carlo([](std::span<const double> x) { return paint(x).k; }, inputs, options), 1.0);
        benchmark::DoNotOptimize(p);
    }
    state.counters["chance_percent"] = 100 * p.value;
    state.counters["standard_error_points"] = 100 * p.standard_error;
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(monte_carlo_of_k)
    ->ArgNames({"draws", "drawing", "threads"})
    ->Args({1'000'000, 0, 1})
    ->Args({1'000'000, 0, 2})
    ->Args({100'000, 0, 1})
    ->Args({160'000, 0, 1})
    ->Args({16 * 256, 1, 1})
    ->Args({16 * 64, 2, 1})
    ->Args({16 * 256, 2, 1})
    ->Args({16 * 16, 3, 1})
    ->Args({16 * 32, 3, 1})
    ->Args({16 * 64, 3, 1})
    ->Args({16 * 256, 3, 1})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// All four outputs from the same draws, with their intervals, as a report needs them.
void monte_carlo_of_the_whole_paint(benchmark::State& state) {
    const auto inputs = paint_inputs();
    const auto model = [](std::span<const double> x, std::span<double> y) {
        const Paint p = paint(x);
        y[0] = p.k, y[1] = p.pvc, y[2] = p.cpvc, y[3] = p.reduced;
    };
    MonteCarloOptions options;
    options.draws = static_cast<std::size_t>(state.range(0));
    for (auto _ : state) {
        const auto draws = joint_monte_carlo(model, 4, inputs, options);
        for (std::size_t i = 0; i < 4; ++i)
            benchmark::DoNotOptimize(summarise(draws, 0.95, i));
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(monte_carlo_of_the_whole_paint)->Arg(100'000)->Unit(benchmark::kMillisecond);

void budget_of_k(benchmark::State& state) {
    const auto inputs = paint_inputs();
    for (auto _ : state)
        benchmark::DoNotOptimize(budget(sufficiency, inputs));
}
BENCHMARK(budget_of_k);

void first_order_uncertainty_of_k(benchmark::State& state) {
    const auto inputs = paint_inputs();
    for (auto _ : state)
        benchmark::DoNotOptimize(first_order_uncertainty(sufficiency, inputs));
}
BENCHMARK(first_order_uncertainty_of_k);

void closed_form_chance(benchmark::State& state) {
    double k = 1.3;
    for (auto _ : state) {
        benchmark::DoNotOptimize(k);
        benchmark::DoNotOptimize(lognormal_probability_below(k, 0.323, 1.0));
    }
}
BENCHMARK(closed_form_chance);

/// NIST StRD Misra1a from its far start.
void least_squares_misra1a(benchmark::State& state) {
    constexpr std::array y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                           44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
    constexpr std::array x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                           378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
    const auto model = [&](std::span<const double> b, std::span<double> r) {
        for (std::size_t i = 0; i < x.size(); ++i)
            r[i] = y[i] + b[0] * std::expm1(-b[1] * x[i]);
    };
    const std::array start{500.0, 1e-4};
    for (auto _ : state)
        benchmark::DoNotOptimize(least_squares(model, x.size(), start));
}
BENCHMARK(least_squares_misra1a)->Unit(benchmark::kMicrosecond);

} // namespace
