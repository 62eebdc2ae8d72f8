#pragma once
// Whole texts that were read once and are held from then on.

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

namespace lakebound::testing {

/// Holds a text against tests/<room>/expected/<name>.txt. After a change of wording run the program with
/// LAKEBOUND_WRITE_EXPECTED=1 and read the difference line by line: what is written there is believed from then on.
inline void check_expected(const std::string& room, const std::string& name, const std::string& text) {
    const std::string path = std::string(LAKEBOUND_TESTS_DIR) + "/" + room + "/expected/" + name + ".txt";
    if (std::getenv("LAKEBOUND_WRITE_EXPECTED") != nullptr) std::ofstream(path, std::ios::binary) << text;
    std::ifstream file(path, std::ios::binary);
    INFO(path);
    REQUIRE(file);
    std::istringstream told(text);
    std::string want, got;
    for (int line = 1;; ++line) {
        const bool more = static_cast<bool>(std::getline(file, want)), said = static_cast<bool>(std::getline(told, got));
        INFO("line " << line);
        REQUIRE(more == said);
        if (!more) break;
        REQUIRE(got == want);
    }
}

} // namespace lakebound::testing
