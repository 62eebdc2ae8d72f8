#include "lakebound/report/verdict_words.hpp"

namespace lakebound {

VerdictWords verdict_words(Verdict verdict, Process process) {
    struct Signs {
        const char *under, *maybe_under, *holds, *maybe_over, *over;
    };
    const Signs signs = [process]() -> Signs {
        switch (process) {
        case Process::watercolour:
            return {"The dry cake powders and the colour comes off on a finger.",
                    "May chalk: rub a dry swatch with a tissue before you make more.",
                    "Enough gum to bind, not so much that it shines.",
                    "May crack or shine, and be slow to give colour.",
                    "Cracks as it dries, shines, and stays hard under the brush."};
        case Process::oil:
            return {"Too little oil: it drags, dries matt and powders.",
                    "May chalk or sink: lay a thin stripe and rub it once it is dry.",
                    "Enough oil to bind, not so much that it wrinkles.",
                    "May wrinkle and yellow in thick strokes.",
                    "Wrinkles, yellows, and stays soft under its skin."};
        case Process::egg_tempera:
            break;
        }
        return {"Powders off under a finger.",
                "May powder off: a stripe dried on glass should peel as one film.",
                "Enough yolk to bind; a stripe dried on glass should peel as one film.",
                "May turn greasy and clump.", "Greasy, clumps, and flakes off later."};
    }();
    switch (verdict) {
    case Verdict::fails_under:
        if (process == Process::egg_tempera) return {"will powder off", "will probably powder off", signs.under};
        return {"will chalk", "will probably chalk", signs.under};
    case Verdict::amber_under:
        return {"on the lean side", "on the lean side", signs.maybe_under};
    case Verdict::green:
        return {"should hold", "should hold, not surely", signs.holds};
    case Verdict::amber_over:
        return {"on the rich side", "on the rich side", signs.maybe_over};
    case Verdict::fails_over:
        switch (process) {
        case Process::oil:
            return {"too rich: will wrinkle", "too rich: will probably wrinkle", signs.over};
        case Process::egg_tempera:
            return {"too rich: will not last", "too rich: will probably not last", signs.over};
        case Process::watercolour:
            break;
        }
        return {"too rich: will crack", "too rich: will probably crack", signs.over};
    }
    return {};
}

const char* certainty_key(Certainty certainty) noexcept {
    return certainty == Certainty::sure ? "sure" : "doubtful";
}

const char* verdict_key(Verdict verdict) noexcept {
    switch (verdict) {
    case Verdict::fails_under:
        return "fails_under";
    case Verdict::amber_under:
        return "amber_under";
    case Verdict::green:
        return "green";
    case Verdict::amber_over:
        return "amber_over";
    case Verdict::fails_over:
        return "fails_over";
    }
    return "";
}

} // namespace lakebound
