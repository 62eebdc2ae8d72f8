#include <algorithm>

#include "figure_cell.hpp"
#include "html_parts.hpp"
#include "html_text.hpp"

namespace lakebound::page {

namespace {

constexpr std::size_t most_columns_on_a_phone = 4;

/// Digits that lack behind the point are set unseen, so that points stand in one line.
std::string filler(std::size_t decimals, std::size_t most) {
    if (decimals >= most) return {};
    return "<i data-fill=\"" + std::string(decimals == 0 ? "." : "") + std::string(most - decimals, '0') + "\"></i>";
}

bool bare_number(const SplitFigure& split) {
    return split.is_figure && split.behind.size() == (split.decimals == 0 ? 0 : split.decimals + 1);
}

struct Shape {
    std::vector<std::size_t> columns;  ///< those that HTML shows
    std::vector<std::size_t> decimals; ///< most, by column
    bool stacked = false;
};

Shape shape_of(const Table& table) {
    Shape shape;
    shape.decimals.assign(table.columns.size(), 0);
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        if (table.columns[c].bar) continue;
        shape.columns.push_back(c);
        if (table.columns[c].align != Align::point) continue;
        for (const auto& row : table.rows) {
            if (c >= row.cells.size()) continue;
            const auto split = split_at_point(row.cells[c].words.plain());
            if (bare_number(split)) shape.decimals[c] = std::max(shape.decimals[c], split.decimals);
        }
    }
    shape.stacked = shape.columns.size() + (table.blank.empty() ? 0 : 1) > most_columns_on_a_phone;
    return shape;
}

void write_head(std::string& out, const Table& table, const Shape& shape) {
    const bool headed = std::any_of(table.columns.begin(), table.columns.end(),
                                    [](const Column& column) { return !column.head.empty() || !column.unit.empty(); });
    if (!headed) return;
    out += "<thead role=\"rowgroup\"><tr role=\"row\">";
    if (table.tick) out += "<th scope=\"col\" role=\"columnheader\"><span class=\"unseen\">Done</span></th>";
    for (const auto c : shape.columns) {
        const auto& column = table.columns[c];
        out += "<th scope=\"col\" role=\"columnheader\"";
        if (column.align != Align::left) out += " class=\"right\"";
        out += ">" + printed(column.head);
        if (!column.unit.empty()) out += (column.head.empty() ? "" : ", ") + printed_unit(column.unit);
        out += "</th>";
    }
    if (!table.blank.empty()) out += "<th scope=\"col\" role=\"columnheader\">" + printed(table.blank) + "</th>";
    out += "</tr></thead>\n";
}

void write_cell(std::string& out, const Table& table, const Shape& shape, std::size_t c, const Row& row) {
    static const Cell none;
    const auto& column = table.columns[c];
    const auto& cell = c < row.cells.size() ? row.cells[c] : none;
    std::string name = column.align == Align::left ? "" : "right";
    if (column.strong) name += name.empty() ? "strong" : " strong";
    const bool head = c == shape.columns.front();
    out += head ? "<th scope=\"row\" role=\"rowheader\"" : "<td role=\"cell\"";
    if (!name.empty()) out += " class=\"" + name + "\"";
    out += '>';
    out += html(cell.words);
    const auto split = split_at_point(cell.words.plain());
    if (column.align == Align::point && bare_number(split)) out += filler(split.decimals, shape.decimals[c]);
    if (head && row.chosen && !table.chosen_word.empty()) out += ", " + printed(table.chosen_word);
    if (!cell.detail.empty()) out += "<br><span class=\"note\">" + printed(cell.detail) + "</span>";
    out += head ? "</th>" : "</td>";
}

std::string blank_input(const std::string& label, const std::string& unit) {
    return "<input type=\"text\" inputmode=\"decimal\" autocomplete=\"off\" aria-label=\"" + label + "\">" +
           (unit.empty() ? std::string() : "<span class=\"unit\">" + unit + "</span>");
}

/// "6.0 g" as number and unit; a word has no unit.
struct Amount {
    std::string number, unit;
};
Amount parted(const std::string& amount) {
    const auto space = amount.find_last_of(' ');
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    if (space == std::string::npos || space == 0 || !digit(amount[space - 1])) return {amount, {}};
    return {amount.substr(0, space), amount.substr(space + 1)};
}

void write_tick_line(std::string& out, const TickLine& line, std::size_t decimals, const std::string& blank_head) {
    const auto amount = parted(line.amount);
    const auto split = split_at_point(amount.number);
    const auto name = escaped(line.name);
    out += "<tr role=\"row\"><td role=\"cell\"><input type=\"checkbox\" aria-label=\"" + name + ": done\"></td>";
    out += "<td role=\"cell\" class=\"amount\">" + printed(amount.number);
    if (bare_number(split)) out += filler(split.decimals, decimals);
    if (!amount.unit.empty()) out += "<span class=\"unit\">" + printed_unit(amount.unit) + "</span>";
    out += "</td><th scope=\"row\" role=\"rowheader\"><b>" + printed(line.name) + "</b>";
    if (!line.instrument.empty() || !line.alternative.empty()) {
        out += "<span class=\"note\">" + printed(line.instrument);
        if (!line.alternative.empty()) out += (line.instrument.empty() ? "or " : "; or ") + html(line.alternative);
        out += "</span>";
    }
    for (const auto& note : line.notes)
        out += "<span class=\"note\">" + html(note) + "</span>";
    out += "</th><td role=\"cell\" class=\"got\">";
    if (!amount.unit.empty())
        out += blank_input(name + ": " + escaped(blank_head), printed_unit(amount.unit));
    out += "</td></tr>\n";
}

} // namespace

void write_table(std::string& out, const Table& table) {
    if (table.columns.empty()) return;
    const auto shape = shape_of(table);
    std::string name;
    if (shape.stacked) name = "stacked";
    if (table.large) name += name.empty() ? "large" : " large";
    out += "<table role=\"table\"";
    if (!name.empty()) out += " class=\"" + name + "\"";
    if (shape.stacked) {
        const auto cells = shape.columns.size() - 1 + (table.tick ? 1 : 0) + (table.blank.empty() ? 0 : 1);
        out += " style=\"--n:" + std::to_string(cells) + "\"";
    }
    out += ">";
    if (!table.caption.empty())
        out += (table.caption_shown ? "<caption>" : "<caption class=\"unseen\">") + printed(table.caption) + "</caption>";
    out += '\n';
    write_head(out, table, shape);
    out += "<tbody role=\"rowgroup\">\n";
    for (const auto& row : table.rows) {
        const auto label = row.cells.empty() ? std::string() : escaped(row.cells.front().words.plain());
        out += row.chosen || row.total ? "<tr role=\"row\" class=\"chosen\">" : "<tr role=\"row\">";
        if (table.tick) out += "<td role=\"cell\"><input type=\"checkbox\" aria-label=\"" + label + ": done\"></td>";
        for (const auto c : shape.columns)
            write_cell(out, table, shape, c, row);
        if (!table.blank.empty())
            out += "<td role=\"cell\" class=\"got\">" +
                   blank_input(label + ": " + escaped(table.blank), printed_unit(table.blank_unit)) + "</td>";
        out += "</tr>\n";
    }
    out += "</tbody></table>\n";
}

void write_tick_list(std::string& out, const TickList& list) {
    std::size_t decimals = 0;
    for (const auto& line : list.lines) {
        const auto split = split_at_point(parted(line.amount).number);
        if (bare_number(split)) decimals = std::max(decimals, split.decimals);
    }
    out += list.compact ? "<table role=\"table\" class=\"ticks compact\">" : "<table role=\"table\" class=\"ticks\">";
    if (!list.caption.empty()) out += "<caption class=\"unseen\">" + printed(list.caption) + "</caption>";
    out += "\n<thead role=\"rowgroup\"><tr role=\"row\">";
    out += "<th scope=\"col\" role=\"columnheader\">Done</th>";
    out += "<th scope=\"col\" role=\"columnheader\" class=\"right\">" + printed(list.amount_head) + "</th>";
    for (const auto& head : {list.name_head, list.blank_head})
        out += "<th scope=\"col\" role=\"columnheader\">" + printed(head) + "</th>";
    out += "</tr></thead>\n<tbody role=\"rowgroup\">\n";
    for (const auto& line : list.lines)
        write_tick_line(out, line, decimals, list.blank_head);
    out += "</tbody></table>\n";
}

} // namespace lakebound::page
