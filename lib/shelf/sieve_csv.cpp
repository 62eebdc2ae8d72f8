// A sieve test written as a table: turned into the tree that YAML would give, so that one reader checks
// both and every fault keeps its cell.
#include <algorithm>
#include <cctype>
#include <utility>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"

namespace lakebound {
namespace {

/// Rows that are not screens, and the key each stands for.
struct NamedRow {
    std::string_view name, key;
};
constexpr NamedRow named_rows[] = {
    {"pan", "pan"},
    {"charge", "charge"},
    {"scale step", "scale_step"},
    {"grinding time", "grinding_time"},
    {"density", "density"},
    {"method", "method"},
    {"name", "name"},
    {"note", "note"},
};

struct Cell {
    std::string text;
    std::size_t offset = 0, length = 0;
};
using Row = std::vector<Cell>;

Diagnostic fault_in(const Source& source, const Cell& cell, std::string_view id, std::string message,
                    std::string hint) {
    Diagnostic fault = whole_file_fault(id, source.path(), std::move(message), std::move(hint));
    fault.at = source.excerpt(cell.offset, std::max<std::size_t>(cell.length, 1));
    return fault;
}

Cell trimmed_cell(std::string_view line, std::size_t from, std::size_t to, std::size_t line_start) {
    while (from < to && line[from] == ' ')
        ++from;
    while (to > from && line[to - 1] == ' ')
        --to;
    return {std::string(line.substr(from, to - from)), line_start + from, to - from};
}

/// The cells of one line; a quoted cell may hold commas, and "" for a quote.
Row split(const Source& source, std::size_t number, Faults& faults) {
    const std::string_view line = source.line(number);
    const std::size_t start = source.line_start(number);
    Row row;
    for (std::size_t at = 0; at <= line.size();) {
        const std::size_t first = std::min(line.find_first_not_of(' ', at), line.size());
        if (first < line.size() && line[first] == '"') {
            Cell cell{{}, start + first, 0};
            std::size_t i = first + 1;
            for (; i < line.size(); ++i) {
                if (line[i] != '"')
                    cell.text += line[i];
                else if (i + 1 < line.size() && line[i + 1] == '"')
                    cell.text += line[i++];
                else
                    break;
            }
            cell.length = std::min(i + 1, line.size()) - first;
            if (i >= line.size()) {
                faults.add(fault_in(source, cell, "csv-quote", "this quote is never closed",
                                    "close it, or leave quotes out: they are needed only round commas"));
                return {};
            }
            const std::size_t after = std::min(line.find_first_not_of(' ', i + 1), line.size());
            if (after < line.size() && line[after] != ',') {
                faults.add(fault_in(source, trimmed_cell(line, after, line.size(), start), "csv-quote",
                                    "something stands between the closing quote and the comma", "delete it"));
                return {};
            }
            row.push_back(std::move(cell));
            at = after + 1;
        } else {
            const std::size_t comma = std::min(line.find(',', at), line.size());
            row.push_back(trimmed_cell(line, at, comma, start));
            at = comma + 1;
        }
    }
    return row;
}

bool is_remark(std::string_view line) {
    const auto first = line.find_first_not_of(' ');
    return first == std::string_view::npos || line[first] == '#';
}

bool digit_at(const std::string& text, std::size_t i) {
    return i < text.size() && text[i] >= '0' && text[i] <= '9';
}

Node scalar(const Source& source, const Cell& cell, std::string text) {
    Node node;
    node.kind = Node::Kind::scalar;
    node.source = &source;
    node.offset = cell.offset;
    node.length = std::max<std::size_t>(cell.length, 1);
    node.text = std::move(text);
    return node;
}
Node scalar(const Source& source, const Cell& cell) { return scalar(source, cell, cell.text); }

Node empty_node(const Source& source, Node::Kind kind, const Cell& where) {
    Node node = scalar(source, where, {});
    node.kind = kind;
    return node;
}

void put(Node& map, Node key, Node value) {
    map.keys.push_back(std::move(key));
    map.items.push_back(std::move(value));
}

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

/// True when the row has as many cells as the header wants; a comma decimal is told apart.
bool check_cells(const Source& source, const Row& row, const Row& header, Faults& faults) {
    for (std::size_t i = 1; i < row.size() && row.size() > header.size(); ++i) {
        const Cell& left = row[i - 1];
        if (left.text.empty() || !digit_at(left.text, left.text.size() - 1) || !digit_at(row[i].text, 0))
            continue;
        const Cell both{{}, left.offset, row[i].offset + row[i].length - left.offset};
        faults.add(fault_in(source, both, "number-comma",
                            "commas part the columns here, so a comma cannot be the decimal sign",
                            "write '" + left.text + "." + row[i].text + "'"));
        return false;
    }
    if (row.size() > header.size()) {
        faults.add(fault_in(source, row[header.size()], "csv-columns", "this cell belongs to no column",
                            "the header has " + std::to_string(header.size()) + " columns"));
        return false;
    }
    return true;
}

Row read_header(const Source& source, std::size_t number, Faults& faults) {
    Row header = split(source, number, faults);
    faults.throw_if_any();
    const std::string form = "the first line must be 'screen,mass' or 'screen,gross,tare'";
    if (header.size() == 1 && header[0].text.find(';') != std::string::npos)
        faults.add(fault_in(source, header[0], "csv-separator", "columns are parted by commas, not semicolons",
                            "save the table with commas between the columns and points in the numbers"));
    faults.throw_if_any();
    static const std::vector<std::string_view> known{"screen", "mass", "gross", "tare"};
    std::vector<std::string> names;
    for (Cell& cell : header) {
        cell.text = lower(cell.text);
        if (std::find(known.begin(), known.end(), cell.text) == known.end())
            faults.add(fault_in(source, cell, "csv-header", "there is no column '" + cell.text + "'", form));
        else if (std::find(names.begin(), names.end(), cell.text) != names.end())
            faults.add(
                fault_in(source, cell, "csv-header", "the column '" + cell.text + "' stands here twice", form));
        names.push_back(cell.text);
    }
    faults.throw_if_any();
    const auto has = [&](std::string_view name) {
        return std::find(names.begin(), names.end(), name) != names.end();
    };
    const auto missing = [&](const char* name) {
        Cell end = header.back();
        end.offset += end.length > 0 ? end.length - 1 : 0;
        end.length = 1;
        faults.add(
            fault_in(source, end, "csv-header", std::string("the column '") + name + "' is missing", form));
    };
    if (!has("screen")) missing("screen");
    if (has("gross") && !has("tare")) missing("tare");
    if (has("tare") && !has("gross")) missing("gross");
    if (!has("mass") && !has("gross") && !has("tare")) missing("mass");
    if (has("mass") && has("gross"))
        faults.add(
            fault_in(source, header.back(), "csv-header", "masses are given both net and with tares", form));
    faults.throw_if_any();
    return header;
}

/// Columns may stand in any order; the one that names the screen is wanted first.
std::size_t column(const Row& header, std::string_view name) {
    std::size_t i = 0;
    while (i < header.size() && header[i].text != name)
        ++i;
    return i;
}

} // namespace

bool is_sieve_csv(const Source& source) {
    if (is_table_name(source.path())) return true;
    for (std::size_t number = 1; number <= source.line_count(); ++number) {
        const std::string_view line = source.line(number);
        if (is_remark(line)) continue;
        return line.find(':') == std::string_view::npos && line.find_first_of(",;") != std::string_view::npos;
    }
    return false;
}

Document parse_sieve_csv(std::shared_ptr<const Source> shared) {
    const Source& source = *shared;
    Document document;
    document.sources.push_back(std::move(shared));
    Faults& faults = document.faults;
    std::size_t number = 1;
    while (number < source.line_count() && is_remark(source.line(number)))
        ++number;
    const Row header = read_header(source, number, faults);
    const std::size_t name_column = column(header, "screen");

    const Cell top = header.front();
    document.root = empty_node(source, Node::Kind::map, top);
    put(document.root, scalar(source, top, "kind"), scalar(source, top, "sieve test"));
    Node retained = empty_node(source, Node::Kind::sequence, top);
    for (++number; number <= source.line_count(); ++number) {
        if (is_remark(source.line(number))) continue;
        const Row row = split(source, number, faults);
        if (row.empty() || !check_cells(source, row, header, faults)) continue;
        if (row.size() <= name_column || row[name_column].text.empty()) {
            faults.add(fault_in(source, row.front(), "csv-columns", "this row does not say which screen it is",
                                "write the screen in the column 'screen'"));
            continue;
        }
        const Cell& name = row[name_column];
        const std::string word = lower(name.text);
        const auto named = std::find_if(std::begin(named_rows), std::end(named_rows),
                                        [&](const NamedRow& r) { return r.name == word; });
        const bool tared = column(header, "gross") < header.size();
        Node masses = empty_node(source, Node::Kind::map, name);
        std::size_t filled = 0;
        const Cell* first_value = nullptr;
        for (std::size_t i = 0; i < header.size(); ++i) {
            if (i == name_column) continue;
            if (i >= row.size() || row[i].text.empty()) continue;
            put(masses, scalar(source, header[i]), scalar(source, row[i]));
            if (first_value == nullptr) first_value = &row[i];
            ++filled;
        }
        if (named == std::end(named_rows) && name.text.find_first_of("0123456789") == std::string::npos) {
            std::vector<std::string_view> words;
            for (const auto& each : named_rows)
                words.push_back(each.name);
            const auto near = nearest_names(word, words, 1);
            faults.add(
                fault_in(source, name, "csv-row", "'" + name.text + "' is no screen and no row known here",
                         near.empty() ? "rows are screens, pan, charge, scale step, grinding time, density, "
                                        "method, name, note"
                                      : "did you mean '" + near[0] + "'?"));
            continue;
        }
        const bool is_weighed = named == std::end(named_rows) || named->key == "pan";
        const std::size_t wanted = is_weighed && tared ? 2 : 1;
        if (filled < wanted) {
            Cell gap = row.back();
            if (gap.length == 0) gap.length = 1;
            std::string missing;
            for (std::size_t i = 0; i < header.size() && missing.empty(); ++i)
                if (i >= row.size() || row[i].text.empty()) missing = header[i].text;
            faults.add(fault_in(source, gap, "csv-columns",
                                "the column '" + missing + "' is missing in this row", "fill it in"));
            continue;
        }
        if (named == std::end(named_rows)) {
            put(masses, scalar(source, top, "screen"), scalar(source, name));
            retained.items.push_back(std::move(masses));
            continue;
        }
        if (const Node* first = document.root.find_key(named->key)) {
            Diagnostic fault = fault_in(source, name, "csv-row", "the row '" + word + "' stands here twice",
                                        "keep the one that is right");
            fault.second = SecondPlace{first->excerpt(), "it stands here first"};
            faults.add(std::move(fault));
        } else if (named->key == "pan" && tared) {
            put(document.root, scalar(source, name, "pan"), std::move(masses));
        } else {
            put(document.root, scalar(source, name, std::string(named->key)), scalar(source, *first_value));
        }
    }
    if (!retained.items.empty()) put(document.root, scalar(source, top, "retained"), std::move(retained));
    if (document.root.find("name") == nullptr) {
        std::string stem = id_of_path(source.path());
        if (stem.size() > 4 && lower(stem.substr(stem.size() - 4)) == ".csv") stem.resize(stem.size() - 4);
        put(document.root, scalar(source, top, "name"), scalar(source, top, std::move(stem)));
    }
    faults.throw_if_any(); // a row that was not understood would only be reported as missing besides
    return document;
}

} // namespace lakebound
