// The particle room: a grind of twelve classes, a Rosin-Rammler fit, a breakage fit with its bootstrap, a
// search for the best rounds. against_scipy.py times the first two beside SciPy in one run and compares
// the answers.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/particle/breakage.hpp"
#include "lakebound/particle/breakage_fit.hpp"
#include "lakebound/particle/grind_plan.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "support/brezani.hpp"
#include "support/powder_habits.hpp"

namespace {

using namespace lakebound;
using namespace lakebound::testing;

/// The mortar of against_scipy.py: twelve classes, coarse to fine.
BreakageModel mortar() {
    BreakageModel model;
    for (const double um : {850., 600., 425., 300., 212., 150., 106., 75., 53., 45., 38., 32.})
        model.class_sizes.push_back(micrometres(um));
    model.selection = {per_minute(0.15), 0.8};
    model.breakage = {1.0, 0.9, 5.8};
    return model;
}
const std::vector<double> feed{.20, .18, .15, .12, .09, .07, .06, .05, .03, .02, .02, .01};
constexpr std::size_t limit = 7; ///< 75 um

void grind_of_twelve_classes(benchmark::State& state) {
    const PopulationBalance balance(mortar());
    const Time time = minutes(static_cast<double>(state.range(0)));
    std::vector<double> masses(feed.size());
    for (auto _ : state) {
        std::copy(feed.begin(), feed.end(), masses.begin());
        balance.grind(masses, time);
        benchmark::DoNotOptimize(masses.data());
        benchmark::ClobberMemory();
    }
    state.counters["residue"] = residue_above(masses, limit);
}
BENCHMARK(grind_of_twelve_classes)->ArgName("minutes")->Arg(10)->Arg(60)->Arg(600);

/// As above, with the matrix made anew for every grind.
void grind_of_a_new_mortar(benchmark::State& state) {
    const BreakageModel model = mortar();
    const Time time = minutes(static_cast<double>(state.range(0)));
    std::vector<double> masses(feed.size());
    for (auto _ : state) {
        std::copy(feed.begin(), feed.end(), masses.begin());
        PopulationBalance(model).grind(masses, time);
        benchmark::DoNotOptimize(masses.data());
        benchmark::ClobberMemory();
    }
}
BENCHMARK(grind_of_a_new_mortar)->ArgName("minutes")->Arg(10);

void rosin_rammler_fit(benchmark::State& state) {
    const PassingCurve curve = brezani();
    SizeFit fit;
    for (auto _ : state) {
        fit = fit_size(curve, SizeModel::rosin_rammler);
        benchmark::DoNotOptimize(fit);
    }
    state.counters["size_mm"] = in_millimetres(fit.size);
    state.counters["slope"] = fit.slope;
}
BENCHMARK(rosin_rammler_fit);

/// Sieve tests after 5, 15 and 30 min whose fractions scatter by half a point.
std::vector<GrindingTest> three_tests() {
    const PopulationBalance balance(mortar());
    RandomEngine engine(1);
    std::vector<GrindingTest> tests;
    for (const double t : {5., 15., 30.}) {
        std::vector<double> w = feed;
        balance.grind(w, minutes(t));
        double sum = 0.0;
        for (double& x : w)
            sum += x = std::max(0.0, x + 0.005 * standard_normal(engine));
        for (double& x : w)
            x /= sum;
        tests.push_back({minutes(t), w});
    }
    return tests;
}

void breakage_fit_with_resamples(benchmark::State& state) {
    const std::vector<Length> sizes = mortar().class_sizes;
    const std::vector<GrindingTest> tests = three_tests();
    BreakageFitOptions options;
    options.prior = usual_breakage();
    options.resamples = static_cast<unsigned>(state.range(0));
    BreakageFit fit;
    for (auto _ : state) {
        fit = fit_breakage(sizes, tests, options);
        benchmark::DoNotOptimize(fit);
    }
    state.counters["draws"] = static_cast<double>(fit.draws.size());
    state.counters["rate_per_minute"] = in_per_minute(fit.model.selection.top);
}
BENCHMARK(breakage_fit_with_resamples)
    ->ArgName("resamples")
    ->Arg(0)
    ->Arg(500)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// Above a load exponent of 0 the rate differs from round to round.
void search_of_ten_thousand_cycles(benchmark::State& state) {
    GrindLoad load;
    load.model = mortar();
    load.feed = feed;
    load.limit = limit;
    load.load_exponent = 0.1 * static_cast<double>(state.range(0));
    const Separation sieve = sieving(load, ScreeningAdvice::dry_sieving, Share::of(0.9), minutes(4), minutes(0), Share::of(0.005));
    CycleSearch search;
    search.points = 10'000;
    GrindPlan plan;
    for (auto _ : state) {
        plan = best_rounds(load, sieve, {}, search);
        benchmark::DoNotOptimize(plan);
    }
    state.counters["rounds"] = static_cast<double>(plan.run.rounds.size());
    state.counters["hands_minutes"] = in_minutes(plan.run.hands);
}
BENCHMARK(search_of_ten_thousand_cycles)
    ->ArgName("load_exponent_tenths")
    ->Arg(0)
    ->Arg(5)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

} // namespace
