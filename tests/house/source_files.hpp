#pragma once
// The sources of the project as text, for tests of the house itself.

#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace lakebound::testing {

inline std::string slurp(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// The headers that a source includes, as they are written.
inline std::vector<std::string> included(const std::string& text) {
    static const std::regex line(R"((?:^|\n)[ \t]*#[ \t]*include[ \t]*[<"]([^>"]+)[>"])");
    std::vector<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), line), end; it != end; ++it) found.push_back((*it)[1]);
    return found;
}

} // namespace lakebound::testing
