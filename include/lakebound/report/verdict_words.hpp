#pragma once
// The verdict in the words of the trade.

#include <string>

#include "lakebound/paint/judgement.hpp"

namespace lakebound {

struct VerdictWords {
    std::string head;          ///< "should hold", "on the lean side", "will chalk"
    std::string doubtful_head; ///< "should hold, not surely", "will probably chalk"
    std::string detail; ///< what that looks like in this kind of paint; a sentence
};

VerdictWords verdict_words(Verdict verdict, Process process);

/// "fails under", "amber under", "green", "amber over", "fails over" with underscores, as JSON has it.
const char* verdict_key(Verdict verdict) noexcept;

/// "sure" or "doubtful", as JSON has it.
const char* certainty_key(Certainty certainty) noexcept;

} // namespace lakebound
