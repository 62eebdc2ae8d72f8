#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "lakebound/page/line_fill.hpp"
#include "svg.hpp"
#include "text_lines.hpp"

namespace lakebound::page {

namespace {

/// A plot in letters: points as o, lines as dots, limits as dashes.
void write(TextLines& lines, const Chart& chart) {
    if (!chart.in_text) return;
    const std::size_t wide = std::min<std::size_t>(lines.width() - 12, 60), high = 12;
    std::vector<std::string> rows(high + 1, std::string(wide + 1, ' '));
    const auto put = [&](double x, double y, char sign) {
        const double fx = along(chart.x, x), fy = along(chart.y, y);
        if (!(fx >= 0.0 && fx <= 1.0 && fy >= 0.0 && fy <= 1.0)) return;
        const auto column = static_cast<std::size_t>(std::lround(fx * static_cast<double>(wide)));
        const auto row = high - static_cast<std::size_t>(std::lround(fy * static_cast<double>(high)));
        rows[row][column] = sign;
    };
    for (const auto& limit : chart.limits) {
        const double f = along(limit.of_x ? chart.x : chart.y, limit.at);
        if (!(f >= 0.0 && f <= 1.0)) continue;
        if (limit.of_x)
            for (auto& row : rows)
                row[static_cast<std::size_t>(std::lround(f * static_cast<double>(wide)))] = '|';
        else
            rows[high - static_cast<std::size_t>(std::lround(f * static_cast<double>(high)))].assign(wide + 1, '-');
    }
    for (const auto& series : chart.series)
        for (const auto& p : series.points)
            put(p.x, p.y, '.');
    for (const auto& mark : chart.marks)
        put(mark.at.x, mark.at.y, mark.symbol == Symbol::square ? 'o' : 'X');
    lines.line("  " + lines.shown(chart.y.name));
    const auto ends = [](const Axis& axis, double value) {
        return short_number(axis.scale == Scale::probability ? 100.0 * value : value);
    };
    for (std::size_t r = 0; r <= high; ++r) {
        const auto label = r == 0 ? ends(chart.y, chart.y.high) : r == high ? ends(chart.y, chart.y.low) : std::string();
        lines.line(right_aligned(label, 8) + " |" + rows[r]);
    }
    const auto low = ends(chart.x, chart.x.low), end = ends(chart.x, chart.x.high);
    lines.line(std::string(10, ' ') + padded(low, wide + 1 - std::min(columns(end), wide)) + end);
    lines.paragraph(lines.shown(chart.x.name + (chart.x.unit.empty() ? "" : ", " + chart.x.unit)), 10);
}

void write(TextLines& lines, const Bars& bars) {
    if (!bars.in_text) return;
    double full = bars.full;
    const auto sum = [](const Bars::Bar& bar) {
        double total = 0.0;
        for (const auto& segment : bar.segments)
            total += std::max(segment.value, 0.0);
        return total;
    };
    for (const auto& bar : bars.bars)
        full = std::max(full, sum(bar));
    Table table{.columns = {{.align = Align::left}, {.align = Align::right}, {.bar = true}}};
    for (const auto& bar : bars.bars)
        table.rows.push_back({.cells = {bar.label, bar.value, Cell::bar(full > 0.0 ? sum(bar) / full : 0.0)},
                              .chosen = bar.chosen});
    write_table(lines, table);
}

template <class Other>
void write(TextLines& lines, const Other& picture) {
    if constexpr (requires { picture.in_text; })
        if (picture.in_text) lines.paragraph(lines.shown(described(picture)));
}

} // namespace

void write_picture(TextLines& lines, const Picture& picture) {
    std::visit([&lines](const auto& drawn) { write(lines, drawn); }, picture.is);
}

} // namespace lakebound::page
