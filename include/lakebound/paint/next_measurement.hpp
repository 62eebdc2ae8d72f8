#pragma once
// Next measurement: which test would raise the chance of landing in the family's window most per minute.
//
// A test replaces one term of the spread of ln k by a smaller one. Nothing is known beforehand of which
// way the reading will go, but whoever has it aims anew, where landing in the window is likeliest:
//   gain = P(in the window at the best aim after it) - P(at the best aim now),   rate = gain / minutes
// Rule: measure the test of the highest rate; stop when the chance of missing the window is already
// within the maker's limit, or when no rate reaches the least that pays. A paint that will not hold wants another
// recipe first. Rule of this library (estimate).

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/paint/spread.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct CandidateTest {
    std::string id;   ///< "rub-out"
    std::string name; ///< as a person says it
    Time duration;    ///< of the maker's attention, above 0
    SpreadTerm replaces{};
    double spread_after = 0.0; ///< the term once the test is done, 0 or more
    Mass pigment{};            ///< that the test uses up, 0 or more
};

struct TestGain {
    std::size_t test = 0;        ///< index in the candidates
    double spread_of_ln_k = 0.0; ///< sigma after it
    Probability after;           ///< of landing in the window, aimed anew
    double gain = 0.0;           ///< over aiming anew without it; 0 when the test cannot narrow its term
    double gain_per_minute = 0.0;
};

enum class MeasurementAdvice {
    measure,           ///< do the recommended test
    good_enough,       ///< the chance of missing the window is within the maker's limit: paint
    stop_measuring,    ///< no test is worth its minutes: aim at the middle of the window, or accept
    change_the_recipe, ///< it will not hold: aim anew before anything is measured
};
template <> struct WordTable<MeasurementAdvice> {
    static constexpr WordRow<MeasurementAdvice> rows[] = {
        {MeasurementAdvice::measure, "measure"},
        {MeasurementAdvice::good_enough, "good enough"},
        {MeasurementAdvice::stop_measuring, "stop measuring"},
        {MeasurementAdvice::change_the_recipe, "change the recipe"},
    };
};

/// When a measurement pays; the caller fills it from the shelf (learning/home.yaml).
struct MeasurementRule {
    Probability accepted;           ///< chance of missing the window that the maker accepts
    double least_gain_per_minute{}; ///< .001 is a percentage point per 10 minutes
};

/// What a maker could measure next, and when that pays.
struct BenchTests {
    std::vector<CandidateTest> candidates;
    MeasurementRule rule;
};

struct NextMeasurement {
    MeasurementAdvice advice{};
    Probability now;                        ///< of landing in the window as it stands
    Probability aimed_anew;                 ///< the same with nothing measured, at `aim`
    BinderSufficiency aim;                  ///< k where that chance is greatest now
    std::vector<TestGain> gains;            ///< highest rate first
    std::optional<std::size_t> recommended; ///< index in the candidates; present with `measure`
};

/// judgement: of the paint, made with the same doubt and window; now: the terms that the doubt is made of.
/// Throws DomainError unless every duration is above 0 and spreads are 0 or more.
[[nodiscard]] NextMeasurement next_measurement(const Judgement& judgement, const NormalMixture& doubt, const LogSpread& now,
                                               std::span<const CandidateTest> tests, const SufficiencyWindow& window,
                                               const MeasurementRule& rule);

} // namespace lakebound
