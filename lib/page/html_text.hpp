#pragma once
// Text as HTML: escaped, with units as print spells them, and number and unit unparted.

#include <string>
#include <string_view>

#include "lakebound/page/words.hpp"

namespace lakebound::page {

/// Cleaned and escaped for an element or a quoted attribute; nothing re-spelled.
std::string escaped(std::string_view text);

/// As `escaped`, but "45 um" as "45 µm", "20 degC" as "20 °C", "g/cm3" as "g/cm³", and no break between a
/// number and its unit.
std::string printed(std::string_view text);

/// Spans with their elements; code is `escaped`, the rest `printed`.
std::string html(const Words& words);

/// A unit on its own, in the head of a column or beside a figure: "um" as "µm".
std::string printed_unit(std::string_view unit);

/// The same spelling without escapes, for texts that are measured: "45 µm".
std::string spelled(std::string_view text);

} // namespace lakebound::page
