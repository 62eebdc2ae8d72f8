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
    Length worth_gaining{};       ///< of PowderHabits: what a spell of mulling must gain to pay
    Time spell{};                 ///< and that spell
};
struct MullRow {
    Time mulled;                  ///< since the first reading
    Length read, curve;           ///< on the gauge, and as fitted
    std::optional<double> hegman; ///< of what was read; nothing where its gauge does not reach
};
struct MullAnswer {
    MullQuestion question;
    Mulling mulling;
    std::vector<MullRow> rows; ///< one for each reading
    Time stop;                          ///< after the first reading: the next spell gains less than is worth it
    std::optional<Time> reached;        ///< when the target is reached
    bool out_of_reach = false;          ///< the target lies below what mulling can do
    Time so_far;                        ///< of mulling, to the last reading
    Time more_to_stop;                  ///< from the last reading, 0 when it is past
    bool past_stop = false;             ///< more mulling tells nothing on the gauge
    std::optional<Time> more_to_target; ///< as more_to_stop, in whole minutes upward
    Time in_all;                        ///< so_far and more_to_target
};
/// Errors: DomainError as fit_mulling.
[[nodiscard]] MullAnswer plan_mulling(const MullQuestion& question);

} // namespace lakebound
