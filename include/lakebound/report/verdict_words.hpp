#pragma once
// The verdict in the words of the trade.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/judgement.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct VerdictWords {
    std::string head;          ///< "should hold", "on the lean side", "will chalk"
    std::string doubtful_head; ///< "should hold, not surely", "will probably chalk"
    std::string detail; ///< what that looks like in this kind of paint; a sentence
};

[[nodiscard]] VerdictWords verdict_words(Verdict verdict, Process process);



} // namespace lakebound
