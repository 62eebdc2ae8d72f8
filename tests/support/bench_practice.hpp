#pragma once
// The figures of formulations/practice/home.yaml, for tests that link core alone.

#include "lakebound/material/bench_practice.hpp"

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
    practice.assumed_bench = {grams(0.1), grams(0.6), Share::of(0.03)};
    practice.typed = {0.02, 0.10, 0.003};
    return practice;
}

} // namespace lakebound::testing
