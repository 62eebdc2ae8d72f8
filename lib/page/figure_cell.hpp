#pragma once
// What the cell of a table holds: a figure is known by its digits.

#include <string>
#include <string_view>

namespace lakebound::page {

/// A cell parted at the decimal point of its first number: "0.5 %" is "0" and ".5 %", "88 %" is "88" and " %".
struct SplitFigure {
    bool is_figure = false;
    std::string before = {};
    std::string behind = {};
    std::size_t decimals = 0; ///< digits after the point
};
SplitFigure split_at_point(std::string_view cell);

/// Whether the unit of the column belongs behind this cell: it ends in a digit.
bool wants_unit(std::string_view cell, std::string_view unit);

} // namespace lakebound::page
