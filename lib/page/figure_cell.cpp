#include "figure_cell.hpp"

#include "characters.hpp"

namespace lakebound::page {

namespace {

} // namespace

SplitFigure split_at_point(std::string_view cell) {
    const auto first = cell.find_first_of("0123456789");
    if (first == std::string_view::npos) return {};
    auto end = first;
    while (end < cell.size() && is_digit(cell[end]))
        ++end;
    std::size_t decimals = 0;
    if (end + 1 < cell.size() && cell[end] == '.')
        while (end + 1 + decimals < cell.size() && is_digit(cell[end + 1 + decimals]))
            ++decimals;
    return {true, std::string(cell.substr(0, end)), std::string(cell.substr(end)), decimals};
}

bool wants_unit(std::string_view cell, std::string_view unit) {
    return !unit.empty() && !cell.empty() && is_digit(cell.back());
}

} // namespace lakebound::page
