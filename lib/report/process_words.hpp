#pragma once
// What is said otherwise of each way of making up a paint: one row for each.

#include <array>
#include <optional>
#include <vector>

#include "lakebound/report/caution.hpp"
#include "lakebound/report/verdict_words.hpp"
#include "work_steps.hpp"

namespace lakebound::layout {

struct ProcessWords {
    Process process;
    std::array<VerdictWords, 5> verdicts; ///< from fails_under to fails_over
    const char* binds;                    ///< "gum"
    const char* fills;                    ///< "wax fills but does not bind"
    const char* ground;                   ///< "the paper that you paint on"
    const char* swatch_work;              ///< how a swatch of it is worked up
    std::vector<const char*> too_much;    ///< signs of too much binder in a swatch, beside shine and cracks
    std::optional<Caution> self_heating;  ///< in place of what is said elsewhere
    std::optional<Caution> perishable;    ///< likewise; {}: how long the medium keeps
    OrderOfWork order_of_work;
};

const ProcessWords& process_words(Process process);

} // namespace lakebound::layout
