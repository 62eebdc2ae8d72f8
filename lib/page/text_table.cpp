#include <algorithm>
#include <vector>

#include "characters.hpp"
#include "figure_cell.hpp"
#include "lakebound/page/line_fill.hpp"
#include "text_lines.hpp"

namespace lakebound::page {

namespace {

constexpr std::size_t table_margin = 2, column_gap = 2, bar_width = 20, least_left = 10;

/// A table as text: every cell is words already, every column knows its width.
struct Grid {
    std::vector<Column> columns;
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> rows;
    std::vector<std::size_t> widths; ///< with the gap before a right one, after a left one
};

bool is_left(const Column& column) { return column.align == Align::left || column.bar; }

/// Spaces before a left column that stands behind a right one, which has none after it.
std::size_t gap_before(const Grid& grid, std::size_t c) {
    return c > 0 && is_left(grid.columns[c]) && !is_left(grid.columns[c - 1]) ? column_gap : 0;
}

/// Spaces after a left column, or before a right one behind another right one.
std::size_t gap_of(const Grid& grid, std::size_t c) {
    const bool none = is_left(grid.columns[c]) ? c + 1 == grid.columns.size() : c == 0 || is_left(grid.columns[c - 1]);
    return none ? 0 : column_gap;
}

/// Figures of one quantity, made equally long behind their points.
void align_points(Grid& grid, std::size_t c) {
    std::size_t most = 0;
    for (const auto& row : grid.rows)
        most = std::max(most, columns(split_at_point(row[c]).behind));
    for (auto& row : grid.rows) {
        const auto split = split_at_point(row[c]);
        if (split.is_figure) row[c].append(most - columns(split.behind), ' ');
    }
}

std::string cell_text(const TextLines& lines, const Column& column, const Cell& cell) {
    if (column.bar) return cell.share ? lines.shown(text_bar(*cell.share, bar_width)) : std::string();
    auto text = lines.shown(cell.words);
    if (column.text_unit == UnitPlace::cells && wants_unit(text, column.unit)) text += ' ' + lines.shown(column.unit);
    return text;
}

std::string head_text(const TextLines& lines, const Column& column) {
    auto text = lines.shown(column.head);
    if (column.text_unit == UnitPlace::head && !column.unit.empty())
        text += (text.empty() ? "" : ", ") + lines.shown(column.unit);
    return text;
}

/// Words beside the row heads stand in a column of their own.
void add_details(const TextLines& lines, const Table& table, Grid& grid) {
    std::size_t key = 0;
    for (const auto& row : table.rows)
        if (!row.cells.empty() && !row.cells[0].detail.empty())
            key = std::max(key, columns(lines.shown(row.cells[0].words)));
    if (key == 0) return;
    for (std::size_t r = 0; r < table.rows.size(); ++r)
        if (!table.rows[r].cells.empty() && !table.rows[r].cells[0].detail.empty())
            grid.rows[r][0] = padded(grid.rows[r][0], key + column_gap) + lines.shown(table.rows[r].cells[0].detail);
}

Grid grid_of(const TextLines& lines, const Table& table) {
    Grid grid;
    grid.columns = table.columns;
    for (const auto& column : table.columns)
        grid.heads.push_back(head_text(lines, column));
    for (const auto& row : table.rows) {
        std::vector<std::string> cells(table.columns.size());
        for (std::size_t c = 0; c < std::min(cells.size(), row.cells.size()); ++c)
            cells[c] = cell_text(lines, table.columns[c], row.cells[c]);
        grid.rows.push_back(std::move(cells));
    }
    add_details(lines, table, grid);
    for (std::size_t c = 0; c < grid.columns.size(); ++c)
        if (grid.columns[c].align == Align::point && !grid.columns[c].bar) align_points(grid, c);
    return grid;
}

std::size_t natural(const Grid& grid, std::size_t c) {
    std::size_t most = columns(grid.heads[c]);
    for (const auto& row : grid.rows)
        most = std::max(most, columns(row[c]));
    return most;
}

/// Widths that fit into `room`, or an empty list where none do.
std::vector<std::size_t> fitted(const Grid& grid, std::size_t room) {
    const auto n = grid.columns.size();
    std::vector<std::size_t> wished(n), needed(n);
    std::size_t wish = 0, need = 0;
    for (std::size_t c = 0; c < n; ++c) {
        needed[c] = natural(grid, c) + gap_of(grid, c) + gap_before(grid, c);
        wished[c] = std::max(grid.columns[c].width, needed[c]);
        wish += wished[c];
        need += needed[c];
    }
    if (wish <= room) return wished;
    if (need <= room) { // what is left over goes to the first columns, as wished
        for (std::size_t c = 0; c < n; ++c) {
            const auto more = std::min(wished[c] - needed[c], room - need);
            needed[c] += more;
            need += more;
        }
        return needed;
    }
    for (std::size_t c = n; c-- > 0 && need > room;) { // words wrap, figures do not; row heads last
        if (!is_left(grid.columns[c]) || grid.columns[c].bar || needed[c] <= least_left + column_gap) continue;
        const auto less = std::min(need - room, needed[c] - least_left - column_gap);
        needed[c] -= less;
        need -= less;
    }
    return need <= room ? needed : std::vector<std::size_t>{};
}

void write_row(TextLines& lines, const Grid& grid, const std::vector<std::string>& cells, const char* lead) {
    const auto n = grid.columns.size();
    std::vector<std::vector<std::string>> parts(n);
    std::size_t height = 1;
    for (std::size_t c = 0; c < n; ++c) {
        const auto room = grid.widths[c] - (is_left(grid.columns[c]) ? gap_of(grid, c) : 0) - gap_before(grid, c);
        if (columns(cells[c]) <= room) {
            parts[c] = {cells[c]};
        } else if (c > 0) {
            parts[c] = wrapped(cells[c], room);
        } else { // a row head hangs, so that its second line is no row of its own
            parts[c] = wrapped(cells[c], room - column_gap);
            for (std::size_t i = 1; i < parts[c].size(); ++i)
                parts[c][i].insert(0, column_gap, ' ');
        }
        height = std::max(height, parts[c].size());
    }
    for (std::size_t i = 0; i < height; ++i) {
        std::string line = i == 0 ? lead : std::string(table_margin, ' ');
        for (std::size_t c = 0; c < n; ++c) {
            const std::string cell = i < parts[c].size() ? parts[c][i] : std::string();
            const auto before = gap_before(grid, c);
            line += std::string(before, ' ');
            line += is_left(grid.columns[c]) ? padded(cell, grid.widths[c] - before)
                                             : right_aligned(cell, grid.widths[c]);
        }
        lines.line(line);
    }
}

/// Too narrow for a table: each row is its head, and below it its figures by name.
void write_stacked(TextLines& lines, const Grid& grid) {
    const auto squeezed = [](const std::string& text) {
        const auto first = text.find_first_not_of(' '), last = text.find_last_not_of(' ');
        return first == std::string::npos ? std::string() : text.substr(first, last - first + 1);
    };
    for (const auto& row : grid.rows) {
        lines.paragraph(squeezed(row[0]));
        for (std::size_t c = 1; c < row.size(); ++c) {
            const auto cell = squeezed(row[c]);
            if (cell.empty() || grid.columns[c].bar) continue;
            lines.paragraph(grid.heads[c].empty() ? cell : grid.heads[c] + ": " + cell, 4);
        }
    }
}

} // namespace

void write_table(TextLines& lines, const Table& table) {
    if (!table.columns.empty()) {
        auto grid = grid_of(lines, table);
        grid.widths = fitted(grid, lines.width() - table_margin);
        if (grid.widths.empty()) {
            write_stacked(lines, grid);
        } else {
            const bool headed =
                std::any_of(grid.heads.begin(), grid.heads.end(), [](const auto& head) { return !head.empty(); });
            if (headed) write_row(lines, grid, grid.heads, "  ");
            for (std::size_t r = 0; r < grid.rows.size(); ++r)
                write_row(lines, grid, grid.rows[r], table.rows[r].chosen ? "* " : "  ");
        }
    }
    for (const auto& note : table.notes)
        lines.paragraph(lines.shown(note));
}

} // namespace lakebound::page
