#pragma once
// A sweep as it is typed: over what, from where to where, and in how many points.

#include <optional>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/sweep_answer.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SweepTexts {
    std::optional<std::string> over{}, from{}, to{}, points{};
};

/// The sweep wished for: over must be there; what is not typed is as usual_range has it. Faults name the options --sweep,
/// --from, --to and --points. Throws InputError sweep-over, points-form, and those of each quantity.
[[nodiscard]] SweepWish sweep_wish(const SweepTexts& texts, const PvcSubject& subject);

} // namespace lakebound
