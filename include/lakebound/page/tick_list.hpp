#pragma once
// What hands weigh out: a box to tick, the mass largest of all, what it is, on which scale, and a blank for
// what was really weighed.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/words.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

struct TickLine {
    std::string amount = {};          ///< "6.0 g"; or a word, "none"
    std::string name = {};
    std::string instrument = {};      ///< "kitchen scale"
    Words alternative = {};           ///< "3.0 mL in the 5 mL syringe": written after "or"
    std::vector<Words> notes = {};    ///< below the line
};

struct TickList {
    std::string caption = {}; ///< for whoever hears it read: "What to weigh"
    std::vector<TickLine> lines = {};
    std::vector<Words> notes = {};     ///< of the whole list, below it
    bool compact = false;              ///< a second list beside the first: smaller in HTML
    std::string amount_head = "Weigh"; ///< column heads of the HTML table
    std::string name_head = "Of what, on which scale";
    std::string blank_head = "Really weighed";
};

} // namespace page
} // namespace lakebound
