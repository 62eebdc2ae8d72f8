#pragma once
// The figures of formulations/practice/home.yaml, for tests that link core alone.

#include "lakebound/material/bench_practice.hpp"
#include "lakebound/material/bench_reading.hpp"
#include "lakebound/paint/bench.hpp"

namespace lakebound::testing {

inline BenchPractice shipped_practice() {
    BenchPractice practice;
    practice.rub_out = {0.095, 4.0, 0.05};
    practice.moisture_drift = 0.03;
    practice.shared_guess = 0.18;
    practice.spoon_filling = 0.10;
    practice.small_amounts = {0.10, 40.0, grams(500.0), 0.5, 3.0, grams(2.0), {}};
    for (const double strength : {0.10, 0.05, 0.02, 0.01, 0.005})
        practice.small_amounts.stock_strengths.push_back(MassFraction::of(strength));
    practice.notice = {2.0, 0.02, 0.2, 1.5, 0.02};
    practice.assumed_bench = {grams(0.1), grams(0.6), Share::of(0.03), Share::of(0.05), RelativeHumidity::of(0.5), degrees_celsius(20.0)};
    practice.typed = {0.02, 0.10, 0.003};
    practice.test_oil = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), {Origin::memory, "iso-787-5", false});
    return practice;
}

inline ReadingHabits shipped_reading_habits() { return {shipped_practice().rub_out, Share::of(0.005)}; }

/// A bench that nobody described, without its scales.
inline Bench bare_bench() {
    const auto assumed = shipped_practice().assumed_bench;
    Bench bench;
    bench.weighing_tolerance = assumed.weighing_tolerance;
    bench.humidity = assumed.humidity;
    bench.temperature = assumed.temperature;
    return bench;
}

} // namespace lakebound::testing
