#pragma once
// Readings at equal intervals, as they are typed: "100 mm, 62 mm, 48 mm every 2 h".

#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/zone_settling.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Series {
    std::vector<std::string> readings;
    Time interval;
};

/// A comma between two digits is meant as a decimal point; it would be read as the end of a number. Throws InputError
/// number-comma.
void refuse_decimal_comma(std::string_view text);

/// Throws InputError series-form, and those of a time.
[[nodiscard]] Series series_option(const std::string& option, const std::string& text, const std::string& example);

/// Three heights of a settling blanket. Throws InputError as above, and out-of-range.
[[nodiscard]] InterfaceHeights blanket_option(const std::string& option, const std::string& text);

} // namespace lakebound
