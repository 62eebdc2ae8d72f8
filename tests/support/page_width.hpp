#pragma once
// The width that every page of text keeps to.

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>
#include <string>

namespace lakebound::testing {

/// Characters of a line, not bytes.
inline std::size_t columns(const std::string& line) {
    return static_cast<std::size_t>(
        std::count_if(line.begin(), line.end(), [](unsigned char c) { return (c & 0xC0U) != 0x80U; }));
}

inline void check_page(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(columns(line) <= 80);
    }
}

} // namespace lakebound::testing
