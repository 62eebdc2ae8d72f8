// Figures have an origin: what stands as a constant in a public header of the trade says beside it where it is from, in
// the words that the shelf uses (docs/references.md), or names its source.

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "source_files.hpp"

namespace fs = std::filesystem;

using lakebound::testing::slurp;

namespace {

/// A figure of its own: a constant that is a number, or made of one. What is made of another constant alone has its
/// origin there, and a count is none.
bool is_figure(const std::string& line) {
    static const std::regex figure(R"(^(?:inline )?constexpr (?!(?:auto|std::size_t|unsigned|int)\b)[A-Za-z_:<>]+ [a-z_]\w*(?: = |\{)[^;]*\b\d[^;]*;.*)");
    return std::regex_match(line, figure);
}

bool tells_origin(const std::string& words) {
    static const std::regex origin(R"(\b(measured|published|memory|computed|estimate|definition|common practice|Source:))");
    return std::regex_search(words, origin);
}

/// Figures of a header without an origin in their line or in the comment above it.
std::vector<std::string> without_origin(const std::string& text) {
    std::vector<std::string> found;
    std::istringstream lines(text);
    std::string above;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("//")) {
            above += line + "\n";
            continue;
        }
        if (is_figure(line) && !tells_origin(above + line.substr(std::min(line.find("//"), line.size())))) found.push_back(line);
        above.clear();
    }
    return found;
}

} // namespace

TEST_CASE("a figure in a public header of the trade says where it is from", "[unit]") {
    std::size_t figures = 0;
    for (const char* room : {"material", "particle", "bath", "paint", "record"})
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(LAKEBOUND_SOURCE_DIR) / "include" / "lakebound" / room)) {
            const std::string text = slurp(entry.path());
            std::istringstream lines(text);
            for (std::string line; std::getline(lines, line);) figures += is_figure(line);
            for (const auto& line : without_origin(text)) FAIL_CHECK(entry.path().filename().string() + ": " + line);
        }
    CHECK(figures > 30);
}

TEST_CASE("the check of figures sees one without an origin", "[unit]") {
    const auto faults = [](const std::string& text) { return without_origin(text).size(); };
    CHECK(faults("inline constexpr double far = 3.0;\n") == 1);
    CHECK(faults("inline constexpr Length screen = micrometres(600); ///< sand\n") == 1);
    CHECK(faults("inline constexpr std::chrono::days news{31};\n") == 1);
    CHECK(faults("inline constexpr OilAbsorption drop = OilAbsorption::from_proven(0.03);\n") == 1);
    CHECK(faults("/// So far (estimate).\nint f();\ninline constexpr double far = 3.0;\n") == 1); // of another line
    CHECK(faults("inline constexpr double far = 3.0; ///< times (estimate)\n") == 0);
    CHECK(faults("/// Sand.\n/// Source: astm-c136.\ninline constexpr Length screen = micrometres(600);\n") == 0);
    CHECK(faults("inline constexpr double same = other;\n") == 0);
    CHECK(faults("[[nodiscard]] constexpr double half(double x) { return 0.5 * x; }\n") == 0);
    CHECK(faults("    double ph = 7.0;\n") == 0);
    CHECK(faults("inline constexpr std::size_t element_count = 10;\n") == 0);
}
