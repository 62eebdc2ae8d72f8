#pragma once
// Tables: units in the head, numbers aligned at the point, the first cell of a row its head.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/words.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

enum class Align {
    left,
    right, ///< figures of mixed quantities
    point  ///< figures of one quantity: flush at the decimal point
};

/// Where text of 80 columns writes the unit of a column; the HTML table has it in the head.
enum class UnitPlace { cells, head };

struct Column {
    std::string head = {};
    Align align = Align::point;
    std::string unit = {};     ///< of every cell that ends in a digit: "%", "um"
    std::size_t width = 0;     ///< least columns in text, the gap before it included; 0: as its cells need
    UnitPlace text_unit = UnitPlace::cells;
    bool strong = false;       ///< the figures that hands or eyes look for
    bool bar = false;          ///< cells are `Cell::share`, drawn as bars in text only: a chart shows them in HTML
};

struct Cell {
    Words words = {};
    std::string detail = {};              ///< of a row head: "k" with the detail "binder over what just fills"
    std::optional<double> share = {};     ///< of a bar column, 0 to 1

    Cell() = default;
    Cell(const char* text) : words(text) {}                                             // NOLINT
    Cell(std::string text) : words(std::move(text)) {}                                  // NOLINT
    Cell(Words text) : words(std::move(text)) {}                                        // NOLINT
    Cell(std::string text, std::string beside) : words(std::move(text)), detail(std::move(beside)) {}
    [[nodiscard]] static Cell bar(double share) {
        Cell cell;
        cell.share = share;
        return cell;
    }
};

struct Row {
    std::vector<Cell> cells = {}; ///< those lacking at the end are empty
    bool chosen = false;          ///< the one taken: a star in text, bold with the table's word in HTML
    bool total = false;           ///< the sum of the rows above
};

struct Table {
    std::string caption = {};           ///< what the table is, for whoever hears it read
    bool caption_shown = false;         ///< HTML shows it too; text never does
    std::vector<Column> columns = {};   ///< the first is that of the row heads
    std::vector<Row> rows = {};
    std::vector<Words> notes = {};      ///< below the table
    std::string chosen_word = "taken";
    bool tick = false;                  ///< HTML: a box to tick at the left of each row
    std::string blank = {};             ///< HTML: head of a last column of blanks to fill, "really"; empty: none
    std::string blank_unit = {};
    bool large = false;                 ///< HTML: rows for hands at work, as in a tick list
};

} // namespace page
} // namespace lakebound
