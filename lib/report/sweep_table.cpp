#include "lakebound/report/sweep_table.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

/// How a curve stands in a table: its heading, whether in per cent, and whether it is drawn.
SweepColumn column_of(SweepFigure figure) {
    switch (figure) {
    case SweepFigure::medium_per_pigment:
        return {.heading = "medium g/g"};
    case SweepFigure::extender_mass_fraction:
        return {.heading = "extender", .percent = true};
    case SweepFigure::size_ratio:
        return {.heading = "ratio"};
    case SweepFigure::binder_demand:
        return {.heading = "fills mL/g"};
    case SweepFigure::k:
        return {.heading = "k", .drawn = true};
    case SweepFigure::pvc:
        return {.heading = "PVC", .percent = true};
    case SweepFigure::cpvc:
        return {.heading = "CPVC", .percent = true};
    case SweepFigure::reduced_pvc:
        return {.heading = "Lambda"};
    case SweepFigure::chance_underbound:
        return {.heading = "underbound", .percent = true};
    case SweepFigure::additive_cpvc:
        return {.heading = "CPVC additive", .percent = true, .drawn = true};
    case SweepFigure::possible_cpvc:
        return {.heading = "CPVC possible", .percent = true, .drawn = true};
    case SweepFigure::possible_saving:
        return {.heading = "saving", .percent = true};
    }
    return {};
}

const char* title_of(SweepOver over) {
    switch (over) {
    case SweepOver::medium:
        return "Over the medium, g for each g of pigment";
    case SweepOver::extender:
        return "Over the extender, by weight of all pigment, binder as it is";
    case SweepOver::size_ratio:
        return "Over the grain size of the extender, in sizes of the pigment";
    }
    return "";
}

std::size_t rows(const SweepTable& table) { return table.columns.front().values.size(); }

/// Of each column: even where the terminal is wide enough for that, else no wider than what stands in it.
std::vector<std::size_t> widths_of(const SweepTable& table, std::size_t width) {
    std::vector<std::size_t> even, narrow;
    for (const auto& column : table.columns) {
        even.push_back(std::max<std::size_t>(13, column.heading.size() + 2));
        std::size_t widest = column.heading.size();
        for (const double x : column.values)
            widest = std::max(widest, sweep_cell(column, x).size());
        narrow.push_back(widest + 2);
    }
    return std::accumulate(even.begin(), even.end(), std::size_t{0}) <= width ? even : narrow;
}

} // namespace

SweepTable sweep_table(SweepAnswer answer) {
    SweepTable table{.title = title_of(answer.over),
                     .paint = std::move(answer.paint),
                     .window = answer.window,
                     .here = answer.here,
                     .k_here = answer.k_here};
    for (auto& curve : answer.curves) {
        table.columns.push_back(column_of(curve.figure));
        table.columns.back().key = key_of(curve.figure);
        table.columns.back().values = std::move(curve.values);
    }
    return table;
}

std::string sweep_cell(const SweepColumn& column, double x) {
    if (!column.percent) return significant_text(x, 3);
    if (column.key == "chance_underbound" && x < 0.0005) return "below 0.1 %";
    return fmt::format("{:.1f} %", 100.0 * x);
}

std::string sweep_text(const SweepTable& table, std::size_t width) {
    const std::vector<std::size_t> widths = widths_of(table, width);
    std::string text = table.title + "\n";
    // As many columns as fit, each block with the first of them; one at least, however narrow it is.
    for (std::size_t from = 1; from < widths.size();) {
        std::size_t to = from, taken = widths.front();
        while (to < widths.size() && (to == from || taken + widths[to] <= width))
            taken += widths[to++];
        const auto line = [&](auto cell) {
            text += layout::right_aligned(cell(table.columns.front()), widths.front());
            for (std::size_t c = from; c < to; ++c)
                text += layout::right_aligned(cell(table.columns[c]), widths[c]);
            text += '\n';
        };
        text += '\n';
        line([](const SweepColumn& column) { return column.heading; });
        for (std::size_t i = 0; i < rows(table); ++i)
            line([i](const SweepColumn& column) { return sweep_cell(column, column.values[i]); });
        from = to;
    }
    return text;
}

std::string sweep_csv(const SweepTable& table) {
    fmt::memory_buffer out;
    for (std::size_t c = 0; c < table.columns.size(); ++c)
        fmt::format_to(std::back_inserter(out), "{}{}", c == 0 ? "" : ",", table.columns[c].key);
    out.push_back('\n');
    for (std::size_t i = 0; i < rows(table); ++i) {
        for (std::size_t c = 0; c < table.columns.size(); ++c)
            fmt::format_to(std::back_inserter(out), "{}{}", c == 0 ? "" : ",", table.columns[c].values[i]);
        out.push_back('\n');
    }
    return fmt::to_string(out);
}

} // namespace lakebound
