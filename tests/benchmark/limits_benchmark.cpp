// The paint room's limits: a million draws of a paint, a million-point sweep, a
// blend, a quick look. against_numpy.py times the first two beside NumPy in one
// run.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "lakebound/estimate/budget.hpp"
#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/paint/blend.hpp"
#include "lakebound/paint/chance_kernel.hpp"
#include "lakebound/paint/next_measurement.hpp"
#include "lakebound/paint/quick_check.hpp"
#include "lakebound/paint/spread.hpp"
#include "lakebound/paint/sweep.hpp"
#include "support/example_paint.hpp"

namespace {

using namespace lakebound;

constexpr std::size_t million = 1'000'000;

/// The recipe of against_numpy.py: lake in gum medium, ten uncertain inputs.
void draws_of_a_watercolour(benchmark::State &state) {
  const auto normal = [](double m, double s) {
    return Distribution{Shape::normal, m, s};
  };
  const auto lognormal = [](double m, double s) {
    return Distribution{Shape::lognormal, m, s};
  };
  const PaintInputs inputs{normal(.010, 3e-5),    lognormal(1, .03),
                           lognormal(.6878, .30), normal(930, 3),
                           lognormal(1, .10),     lognormal(1880, .106),
                           normal(.0365, 3e-5),   normal(.3685, .01),
                           lognormal(1398, .02),  normal(.97, .02)};
  const auto k = [](double x) { return BinderSufficiency::of(x); };
  const SufficiencyWindow window{k(1.0), k(1.2), k(1.8), k(2.4)};
  PaintDraws d;
  for (auto _ : state) {
    d = draw_paint(inputs, window, million, 1,
                   static_cast<unsigned>(state.range(0)));
    benchmark::DoNotOptimize(d);
  }
  state.counters["chance_percent"] = 100 * d.underbound;
  state.SetItemsProcessed(state.iterations() *
                          static_cast<std::int64_t>(million));
}
BENCHMARK(draws_of_a_watercolour)
    ->ArgName("threads")
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

/// The same recipe, for its chance alone.
std::vector<UncertainInput> watercolour_inputs() {
  const auto normal = [](double m, double s) {
    return UncertainInput{"", {Shape::normal, m, s}, {}};
  };
  const auto lognormal = [](double m, double s) {
    return UncertainInput{"", {Shape::lognormal, m, s}, {}};
  };
  return {normal(.010, 3e-5),    lognormal(1, .03),    normal(930, 3),
          lognormal(.6878, .30), lognormal(1, .10),    normal(.0365, 3e-5),
          normal(.3685, .01),    lognormal(1398, .02), normal(.97, .02),
          lognormal(1880, .106)};
}
double watercolour_k(std::span<const double> x) {
  return std::min(1.0, x[8]) * x[5] * x[6] / x[7] /
         (x[0] * x[1] * x[3] * x[4] / x[2]);
}

/// From the first-order budget of ln k. A binder index stops at 1, so it is
/// only nearly exact here.
void closed_form_of_a_watercolour(benchmark::State &state) {
  const auto inputs = watercolour_inputs();
  double chance = 0.0;
  for (auto _ : state) {
    const Budget b = budget(
        [](std::span<const double> x) { return std::log(watercolour_k(x)); },
        inputs);
    chance = chance_below({.k = BinderSufficiency::of(std::exp(b.value)),
                           .sigma = b.standard_uncertainty})
                 .value();
    benchmark::DoNotOptimize(chance);
  }
  state.counters["chance_percent"] = 100 * chance;
}
BENCHMARK(closed_form_of_a_watercolour)->Unit(benchmark::kMillisecond);

/// By quasi-random draws turned along the gradient, to a standard error below
/// 0.1 point.
void turned_sobol_of_a_watercolour(benchmark::State &state) {
  const auto inputs = watercolour_inputs();
  MonteCarloOptions options;
  options.draws = 2048;
  options.drawing = Drawing::directed;
  EstimatedProbability p;
  for (auto _ : state) {
    p = probability_below(monte_carlo(watercolour_k, inputs, options), 1.0);
    benchmark::DoNotOptimize(p);
  }
  state.counters["chance_percent"] = 100 * p.value;
  state.counters["standard_error_points"] = 100 * p.standard_error;
}
BENCHMARK(turned_sobol_of_a_watercolour)->Unit(benchmark::kMillisecond);

struct Columns {
  std::array<std::vector<double>, 6> v;
  Columns() {
    for (auto &x : v)
      x.resize(million);
  }
  SweepColumns spans() { return {v[0], v[1], v[2], v[3], v[4], v[5]}; }
};

void sweep_of_a_million_media(benchmark::State &state) {
  Columns c;
  const MediumSweep s{MediumPerPigment::of(0.5),
                      MediumPerPigment::of(10),
                      millilitres_per_gram(.264),
                      {},
                      millilitres_per_gram(.74),
                      grams_per_cubic_centimetre(1.88),
                      .155};
  for (auto _ : state) {
    sweep_medium(s, c.spans());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() *
                          static_cast<std::int64_t>(million));
}
BENCHMARK(sweep_of_a_million_media)->Unit(benchmark::kMillisecond);

void sweep_of_a_million_extenders(benchmark::State &state) {
  Columns c;
  const ExtenderSweep s{MassFraction::of(0),
                        MassFraction::of(1),
                        millilitres_per_gram(.74),
                        millilitres_per_gram(.19),
                        grams_per_cubic_centimetre(1.88),
                        grams_per_cubic_centimetre(2.70),
                        millilitres_per_gram(1),
                        .155};
  for (auto _ : state) {
    sweep_extender(s, c.spans());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() *
                          static_cast<std::int64_t>(million));
}
BENCHMARK(sweep_of_a_million_extenders)->Unit(benchmark::kMillisecond);

void blend_with_packing(benchmark::State &state) {
  const std::array<BlendPigment, 2> both{
      BlendPigment{millilitres_per_gram(.74), grams_per_cubic_centimetre(1.88),
                   micrometres(3)},
      BlendPigment{millilitres_per_gram(.19), grams_per_cubic_centimetre(2.70),
                   micrometres(15)}};
  const std::array<VolumeFraction, 2> shares{VolumeFraction::of(.7),
                                             VolumeFraction::of(.3)};
  for (auto _ : state)
    benchmark::DoNotOptimize(
        blend(both, std::span<const VolumeFraction>(shares)));
}
BENCHMARK(blend_with_packing);

void quick_look(benchmark::State &state) {
  QuickQuestion q;
  q.test_oil = grams_per_cubic_centimetre(0.93);
  q.pigment = grams(10);
  q.oil_absorption = grams_per_100_grams(68.8);
  q.pigment_density = grams_per_cubic_centimetre(1.88);
  q.binders = {{"oil", millilitres(9.98), MassFraction::of(1), {}, {}}};
  for (auto _ : state)
    benchmark::DoNotOptimize(quick_check(q));
}
BENCHMARK(quick_look);

void advice_on_the_next_measurement(benchmark::State &state) {
  const auto tests = testing::example_tests();
  const auto k = [](double x) { return BinderSufficiency::of(x); };
  const SufficiencyWindow pans{k(1.0), k(1.2), k(1.8), k(2.4)};
  const LogSpread spread{0.30, 0.10, 0.04, 0.04, 0.03, 0.006, 0.106};
  const NormalMixture doubt(sufficiency_spread(spread));
  const auto judgement = judge(k(1.3), doubt, pans);
  for (auto _ : state)
    benchmark::DoNotOptimize(next_measurement(judgement, doubt, spread, tests.candidates, pans, tests.rule));
}
BENCHMARK(advice_on_the_next_measurement);

} // namespace
