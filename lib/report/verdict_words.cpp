#include "lakebound/report/verdict_words.hpp"

#include "process_words.hpp"

namespace lakebound {

VerdictWords verdict_words(Verdict verdict, Process process) {
    return layout::process_words(process).verdicts.at(static_cast<std::size_t>(verdict));
}

} // namespace lakebound
