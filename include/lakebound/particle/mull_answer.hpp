#pragma once
// Readings of the gauge while mulling: when it stops to pay.

#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_of_grind.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct MullQuestion {
    std::vector<FinenessReading> readings;
    std::optional<Length> target; ///< grain wanted in the paint
};
struct MullAnswer {
    MullQuestion question;
    Mulling mulling;
    Time stop;                          ///< after the first reading: the next 10 min gain less than 2 um
    std::optional<Time> reached;        ///< when the target is reached
    bool out_of_reach = false;          ///< the target lies below what mulling can do
    Time so_far;                        ///< of mulling, to the last reading
    Time more_to_stop;                  ///< from the last reading, 0 when it is past
    std::optional<Time> more_to_target; ///< the same, in whole minutes upward
};
/// Errors: DomainError as fit_mulling.
[[nodiscard]] MullAnswer plan_mulling(const MullQuestion& question);

} // namespace lakebound
