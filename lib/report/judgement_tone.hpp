#pragma once
// The colour that a judgement is shown in.

#include "lakebound/paint/judgement.hpp"
#include "text_layout.hpp"

namespace lakebound::layout {

inline Tone tone_of(const Judgement& judgement) {
    if (!judgement.holds) return Tone::bad;
    return judgement.verdict == Verdict::green && judgement.certainty == Certainty::sure &&
                   judgement.objections.empty()
               ? Tone::good : Tone::care;
}

} // namespace lakebound::layout
