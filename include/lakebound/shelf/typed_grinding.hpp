#pragma once
// What a maker types of grinding and mulling: rounds weighed, habits of the hands, readings of a gauge.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/fineness_of_grind.hpp"
#include "lakebound/particle/grind_answer.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct GrindTexts {
    std::optional<std::string> cycle{}, handling{}, drying{}, loss{}, emptier{}, density{}, largest{}, stays{};
};

/// Each text in place of a habit of the shelf, named in a fault by the option that carries it, as "--drying". Throws
/// InputError out-of-range, stays-form, and those of each quantity.
[[nodiscard]] GrindSay grind_say(const GrindTexts& texts);

/// "6.3 g after 2 rounds of 5 min", and "wet", "dry" or "levigated" behind a comma. Throws InputError stays-form, and
/// those of a mass and a time.
[[nodiscard]] WeighedStay stays_option(const std::string& option, const std::string& text);

/// Readings of the gauge at equal intervals: "60 um, 38 um, 27 um every 10 min", each a length or in Hegman units, as
/// "4.5 Hegman". Throws InputError series-form, and those of a grain's size.
[[nodiscard]] std::vector<FinenessReading> gauge_option(const std::string& option, const std::string& text);

} // namespace lakebound
