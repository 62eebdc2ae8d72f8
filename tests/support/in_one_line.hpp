#pragma once
// The text of a page as one line with single spaces, so that a sentence is found wherever the line was broken.

#include <string>

#include "lakebound/page/text_writer.hpp"

namespace lakebound::testing {

inline std::string in_one_line(const page::Page& page) {
    std::string line;
    for (const char c : page::write_text(page))
        if (c != ' ' && c != '\n') line += c;
        else if (!line.empty() && line.back() != ' ') line += ' ';
    return line;
}

} // namespace lakebound::testing
