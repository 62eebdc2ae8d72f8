#include "lakebound/report/sweep_page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"
#include "page_builder.hpp"

namespace lakebound {

namespace {

constexpr std::size_t most_rows = 25, most_points = 200;

/// So many of n things, evenly, the first and the last among them.
std::vector<std::size_t> evenly(std::size_t n, std::size_t most) {
    std::vector<std::size_t> chosen;
    const std::size_t count = std::min(n, most);
    for (std::size_t i = 0; i < count; ++i)
        chosen.push_back(i * (n - 1) / (count - 1));
    return chosen;
}

/// Shares are drawn in per cent.
double drawn_value(const SweepColumn& column, std::size_t row) {
    return column.values[row] * (column.percent ? 100.0 : 1.0);
}

page::Axis axis_of(const SweepColumn& column) {
    const auto [low, high] = std::minmax_element(column.values.begin(), column.values.end());
    const double unit = column.percent ? 100.0 : 1.0;
    page::Axis axis{.name = column.heading, .low = unit * *low, .high = unit * *high};
    if (column.percent) axis.unit = "%";
    if (!(axis.high > axis.low)) axis.high = axis.low + 1.0;
    return axis;
}

page::Series curve_of(const SweepColumn& over, const SweepColumn& column, page::Stroke stroke) {
    page::Series series{.label = column.heading, .stroke = stroke};
    for (const auto row : evenly(over.values.size(), most_points))
        series.points.push_back({drawn_value(over, row), drawn_value(column, row)});
    return series;
}

page::Picture curve_picture(const SweepTable& table) {
    page::Chart chart{.question = "The curve"};
    const auto& over = table.columns.front();
    chart.x = axis_of(over);
    chart.y = axis_of(table.columns[1]);
    chart.y.low = 0.0;
    for (const auto& column : table.columns) {
        if (!column.drawn) continue;
        chart.series.push_back(
            curve_of(over, column, chart.series.empty() ? page::Stroke::solid : page::Stroke::dashed));
        const auto axis = axis_of(column);
        if (chart.series.size() == 1)
            chart.y.name = axis.name, chart.y.unit = axis.unit, chart.y.high = axis.high;
        chart.y.high = std::max(chart.y.high, axis.high);
    }
    if (chart.series.size() > 1)
        chart.y.name = "CPVC";
    else
        chart.series.front().label.clear();
    if (table.window) {
        chart.bands = {{table.window->green_low.value(), table.window->green_high.value(), "holds"}};
        chart.limits = {{1.0, "just filled at 1.00"}};
        chart.y.high = std::max(chart.y.high, 1.1 * table.window->green_high.value());
    }
    if (table.here)
        chart.marks = {{.at = {*table.here, table.k_here.value().value()},
                        .symbol = page::Symbol::diamond,
                        .label = "this paint, k " + sufficiency_text(*table.k_here),
                        .dropped = true}};
    chart.y.high *= 1.05;
    return {std::move(chart)};
}

} // namespace

page::Page sweep_page(const SweepTable& table) {
    layout::PageBuilder page({.kind = "Sweep", .name = table.paint, .form = page::TitleForm::below});
    page.section(table.title).keep_together = true;
    page.drawn(curve_picture(table));
    page.section("In numbers");
    const auto all = table.columns.front().values.size();
    const auto shown = evenly(all, most_rows);
    if (shown.size() < all)
        page.note(fmt::format("{} of {} rows; --csv gives every one, unrounded.", shown.size(), all));
    page::Table numbers{.caption = table.title};
    for (const auto& column : table.columns)
        numbers.columns.push_back({.head = column.heading, .width = 13});
    for (const auto row : shown) {
        page::Row line;
        for (const auto& column : table.columns)
            line.cells.emplace_back(sweep_cell(column, column.values[row]));
        numbers.rows.push_back(std::move(line));
    }
    page.add(std::move(numbers));
    return std::move(page).page();
}

} // namespace lakebound
