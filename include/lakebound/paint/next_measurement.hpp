#pragma once
// Next measurement: which test would lower the chance of an underbound batch most per minute.
//
// A test replaces one term of the spread of ln k by a smaller one; the best estimate of k is kept, for
// nothing is known beforehand of which way the reading will go. With P = Phi(ln(limit/k)/sigma):
//   gain = P_now - P_after,   rate = gain / minutes
// Rule: measure the test of the highest rate; stop when P_now is already within the maker's limit, or
// when no rate reaches 1 percentage point per 10 minutes. At k at or below the limit no measurement
// lowers P (it is 1/2 or more whatever sigma): change the recipe first. Rule of this library (estimate).

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/paint/spread.hpp"

namespace lakebound {

struct CandidateTest {
    std::string id;   ///< "rub-out"
    std::string name; ///< as a person says it
    Time duration;    ///< of the maker's attention, above 0
    SpreadTerm replaces{};
    double spread_after = 0.0; ///< the term once the test is done, 0 or more
    Mass pigment{};            ///< that the test uses up, 0 or more
};

/// The tests of a home bench with the precision of home practice (estimate, no source): rub-out 10 min,
/// three rub-outs 30 min, swatch ladder 40 min, solids of the medium 15 min, pyknometer 25 min,
/// moisture of the powder 15 min. Drying and waiting times are not the maker's attention.
std::vector<CandidateTest> common_tests();

struct TestGain {
    std::size_t test = 0;        ///< index in the candidates
    double spread_of_ln_k = 0.0; ///< sigma after it
    Probability after;
    double gain = 0.0; ///< P_now - P_after, 0 when the test cannot narrow its term
    double gain_per_minute = 0.0;
};

enum class MeasurementAdvice {
    measure,           ///< do the recommended test
    below_limit,       ///< the chance is within the maker's limit: paint
    stop_measuring,    ///< no test is worth its minutes: add binder or accept
    change_the_recipe, ///< k is at or below the limit: no test lowers the chance
};

struct MeasurementRule {
    Probability accepted = Probability::of(0.05); ///< chance of an underbound batch the maker accepts
    double least_gain_per_minute = 0.001;         ///< 1 percentage point per 10 minutes
    BinderSufficiency limit = BinderSufficiency::of(1.0);
};

struct NextMeasurement {
    MeasurementAdvice advice{};
    Probability now;
    std::vector<TestGain> gains;            ///< highest rate first
    std::optional<std::size_t> recommended; ///< index in the candidates; present with `measure`
};

/// Throws DomainError unless k and every duration are above 0 and spreads are 0 or more.
NextMeasurement next_measurement(BinderSufficiency k, const LogSpread& now,
                                 std::span<const CandidateTest> tests, const MeasurementRule& rule = {});

} // namespace lakebound
