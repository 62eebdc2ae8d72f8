#pragma once
// A mortar of one screen, as a grinding plan has it, and its rounds reckoned again, for tests of the plan's ways.

#include <algorithm>
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "support/grinding_tests.hpp"

namespace lakebound::testing {

inline SieveRecord single(double min, double over, double um = 75.0) { return ground_test(min, {{um, over}}, 20.0 - over); }

/// 46 % and 23.5 % over the screen, after 5 and 15 times so many minutes.
inline GrindQuestion asked_for(double residue, double pace = 1.0, double um = 75.0) {
    return grind_question({single(5 * pace, 9.2, um), single(15 * pace, 4.7, um)}, um, residue);
}

inline GrindLoad load_of(const GrindAnswer& answer, double rate, double cushioning, double exponent) {
    GrindLoad load;
    const Length screen = answer.question.target.residue_screen;
    load.model.class_sizes = {3.0 * screen, screen};
    load.model.selection = {BreakageRate::from_value(rate), 0.0};
    load.model.cushioning = cushioning;
    load.feed = {answer.residue_now, 1.0 - answer.residue_now};
    load.load_exponent = exponent;
    return load;
}
inline GrindLoad load_of(const GrindAnswer& answer, double exponent) { return load_of(answer, answer.law->rate.value(), answer.law->cushioning, exponent); }

/// A hundred mortars of the law's draws; those that grind nothing left out.
inline std::vector<GrindLoad> drawn_loads(const GrindAnswer& answer, double exponent) {
    std::vector<GrindLoad> loads;
    for (std::size_t i = 0; i < answer.law->draws.size(); i += 5)
        if (const auto& draw = answer.law->draws[i]; draw.rate > 0.0) loads.push_back(load_of(answer, draw.rate, draw.cushioning, exponent));
    return loads;
}

inline unsigned grinds(const GrindLoad& load, const GrindWay& way, double residue) {
    const auto run = run_rounds(load, way.separation, way.plan.cycle, {residue, 60, way.separate_first});
    return run.reached ? static_cast<unsigned>(run.rounds.size()) - (way.separate_first ? 1U : 0U) : 1000U;
}

inline double stays(const GrindLoad& load, const GrindWay& way, unsigned rounds) {
    return run_rounds(load, way.separation, way.plan.cycle, {1e-300, rounds, way.separate_first}).remains;
}

/// The r-th of counts in order, r the least with a share p at or below it.
inline unsigned ranked(std::vector<unsigned> counts, double p) {
    std::sort(counts.begin(), counts.end());
    return counts[static_cast<std::size_t>(std::ceil(p * static_cast<double>(counts.size()) - 1e-9)) - 1];
}

inline void check_needed(const RoundsNeeded& needed, const std::vector<unsigned>& counts) {
    CHECK(needed.low == ranked(counts, 0.05));
    CHECK(needed.high.has_value() == (ranked(counts, 0.95) <= 60));
    if (needed.high) CHECK(*needed.high == ranked(counts, 0.95));
}

inline const GrindWay* way_by(const GrindAnswer& answer, ScreeningAdvice kind, bool in_rounds = true, bool own = false) {
    for (const auto& way : answer.ways)
        if (way.separation.kind == kind && way.plan.in_rounds == in_rounds && way.own == own) return &way;
    return nullptr;
}

} // namespace lakebound::testing
