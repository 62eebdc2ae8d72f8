#pragma once
// Pictures of sieving, grinding and settling.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/page/picture.hpp"
#include "lakebound/particle/decant_answer.hpp"
#include "lakebound/particle/grind_answer.hpp"
#include "lakebound/particle/settle_answer.hpp"
#include "lakebound/particle/sieve_answer.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Share finer over the screens, with the curve taken: solid where screens looked, dashed beyond. Absent for a
/// single screen.
[[nodiscard]] std::optional<page::Picture> sieve_picture(const SieveAnswer& answer);

/// What stays over the target's screen in one grind, with its 9 in 10 and the tests. The answer must have a
/// forecast.
[[nodiscard]] page::Picture forecast_picture(const GrindAnswer& answer);
/// Hands of each way, the pestle's part solid.
[[nodiscard]] page::Picture ways_picture(const GrindAnswer& answer);

/// The glass with its mark.
[[nodiscard]] page::Picture glass_picture(const SettleAnswer& answer);
/// Stirring, waiting and pouring by the kitchen clock.
[[nodiscard]] page::Picture clock_picture(const SettleAnswer& answer);

/// Height of the blanket over time, the readings marked.
[[nodiscard]] page::Picture blanket_picture(const DecantAnswer& answer);

} // namespace lakebound
