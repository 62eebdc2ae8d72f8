#pragma once
// What a report on a batch is about: the question, the answer, and how sure the answer is.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/paint/chance.hpp"
#include "lakebound/paint/next_measurement.hpp"

namespace lakebound {

struct BatchSubject {
    BatchRequest request;
    BatchAnswer answer;
    std::string jar_name;       ///< empty without a jar
    bool bench_assumed = false; ///< no bench of the maker's own was found
    // Of the batch in the answer; absent when there is none.
    std::optional<BatchChance> chance;
    std::vector<CandidateTest> tests; ///< that a maker could do next
    std::optional<NextMeasurement> next;
};

/// Sizes the batch of the request and asks how sure it is and what to measure next.
/// Throws DomainError as size_batch does.
BatchSubject batch_subject(BatchRequest request);

/// The verdict a maker gets who weighs as the sheet says: that of the rounded masses.
Verdict verdict_as_weighed(const Batch& batch, const Family& family);

/// Below this k the paint does not hold: 1, or the lower limit of a family that is matt by design.
BinderSufficiency holding_limit(const Family& family);

} // namespace lakebound
