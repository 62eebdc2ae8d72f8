#pragma once
// The parts of plan_grinding: the tests as they were analysed, and what the fitted mortar says of rounds and ways.

#include <cstddef>
#include <optional>
#include <vector>

#include "lakebound/particle/grind_answer.hpp"
#include "lakebound/particle/record_error.hpp"

namespace lakebound::detail {

/// 9 in 10, of every interval of a grinding plan.
inline constexpr double grind_coverage = 0.90;

struct Analysed {
    std::vector<SieveAnalysis> analyses;
    std::vector<GrindingTest> tests;
    std::vector<std::size_t> asked; ///< places of the tests in the question as it was asked
    bool same_screens = true;
};

/// The middle 9 in 10 of drawn values; nothing of fewer than 20.
std::optional<CoverageInterval> range_of(std::vector<double> values);

/// Every way to the target, the one with the least work of hands first, with the rounds it needs and, where the
/// maker weighed what stays, those that are left. Needs the fit or the law, and what is taken for granted.
void plan_ways(GrindAnswer& answer, const Analysed& data, Progress progress);

} // namespace lakebound::detail
