#include "lakebound/shelf/iso_date.hpp"

#include <cstddef>

namespace lakebound {

std::optional<std::chrono::sys_days> day_of_iso(std::string_view text) {
    if (text.size() != 10) return std::nullopt;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (i == 4 || i == 7 ? text[i] != '-' : text[i] < '0' || text[i] > '9') return std::nullopt;
    const auto digits = [text](std::size_t at, std::size_t count) {
        int value = 0;
        for (std::size_t i = at; i < at + count; ++i)
            value = value * 10 + (text[i] - '0');
        return value;
    };
    const std::chrono::year_month_day day{std::chrono::year(digits(0, 4)),
                                          std::chrono::month(static_cast<unsigned>(digits(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(digits(8, 2)))};
    if (!day.ok()) return std::nullopt;
    return std::chrono::sys_days(day);
}

} // namespace lakebound
