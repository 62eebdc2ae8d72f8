#pragma once
// Batch subject: a batch as it was asked for, with its answer: what to weigh, whether it will hold and how
// sure that is, and what to measure next. Everything that lakebound-batch says is in here.
// Example: docs/examples/judge_a_batch.cpp.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/chance.hpp"
#include "lakebound/paint/next_measurement.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct BatchSubject {
    BatchRequest request;
    BatchAnswer answer;
    std::string jar_name;       ///< empty without a jar
    bool bench_assumed = false; ///< no bench of the maker's own was found
    // Of the batch in the answer; absent when there is none.
    std::optional<BatchChance> chance;
    std::optional<Judgement> judgement; ///< of what is weighed
    std::vector<CandidateTest> tests; ///< that a maker could do next
    std::optional<NextMeasurement> next;
};

/// Sizes the batch of the request, judges what the sheet lets the maker weigh, and asks what to measure
/// next of the tests. Throws DomainError as size_batch does.
[[nodiscard]] BatchSubject batch_subject(BatchRequest request, BenchTests tests);

/// False when the answer is that it will not hold, or that there is too little: exit status 1.
[[nodiscard]] bool is_good(const BatchSubject& subject);

} // namespace lakebound
