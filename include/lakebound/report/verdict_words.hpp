#pragma once
// The verdict in the words of the trade.

#include <string>

#include "lakebound/paint/verdict.hpp"

namespace lakebound {

struct VerdictWords {
    std::string head;   ///< "should hold", "on the lean side", "will chalk"
    std::string detail; ///< what that looks like in this kind of paint; a sentence
};

VerdictWords verdict_words(Verdict verdict, Process process);

/// "fails under", "amber under", "green", "amber over", "fails over" with underscores, as JSON has it.
const char* verdict_key(Verdict verdict) noexcept;

/// True when the paint will not hold: exit status 1.
constexpr bool fails(Verdict verdict) noexcept {
    return verdict == Verdict::fails_under || verdict == Verdict::fails_over;
}

} // namespace lakebound
