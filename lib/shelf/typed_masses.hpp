#pragma once
// What typed entries and starters share: a text of two parts, and the scale that a typed mass was read on.

#include <string>
#include <string_view>
#include <utility>

#include "lakebound/paint/bench.hpp"

namespace lakebound {

/// Two parts about the first `mark`; the second empty where there is none. Throws InputError number-comma: a comma that is
/// meant as a decimal point.
std::pair<std::string, std::string> parted(std::string_view text, char mark);
/// To a tenth of a milligram, without zeros that say nothing.
std::string grams_text(Mass mass);
/// The scale that shows a mass with as many decimals as were typed; else the one that it would be weighed on.
const Scale& scale_of(std::string_view typed, Mass mass, const Bench& bench);

} // namespace lakebound
