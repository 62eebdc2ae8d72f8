#pragma once
// The colour that a judgement is shown in.

#include "lakebound/page/block.hpp"
#include "lakebound/paint/judgement.hpp"

namespace lakebound::layout {

inline bool is_surely_good(const Judgement& judgement) {
    return judgement.holds && judgement.verdict == Verdict::green && judgement.certainty == Certainty::sure &&
           judgement.objections.empty();
}

inline page::Tone tone_of(const Judgement& judgement) {
    if (!judgement.holds) return page::Tone::bad;
    return is_surely_good(judgement) ? page::Tone::good : page::Tone::care;
}

} // namespace lakebound::layout
