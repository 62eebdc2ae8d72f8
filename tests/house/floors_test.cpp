// The floors hold: no room includes a room above it, domain rooms reach no file, format or stream
// library, and no header includes itself by a detour.

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "source_files.hpp"

namespace fs = std::filesystem;

using lakebound::testing::included;
using lakebound::testing::slurp;

namespace {

using Names = std::set<std::string>;

/// The rooms that each room may look into: those on the floors below, and on its own floor only
/// where the trade does (paint packs particles and mixes materials, a bath is water and settles).
const std::map<std::string, Names> may_include = {
    {"quantity", {}},
    {"estimate", {"quantity"}},
    {"material", {"quantity", "estimate"}},
    {"particle", {"quantity", "estimate"}},
    {"bath", {"quantity", "estimate", "material", "particle"}},
    {"paint", {"quantity", "estimate", "material", "particle"}},
    {"record", {"quantity", "estimate", "material", "particle", "bath", "paint"}},
    {"shelf", {"quantity", "estimate", "material", "particle", "bath", "paint", "record"}},
    {"page", {}},
    {"report", {"quantity", "estimate", "material", "particle", "bath", "paint", "record", "page"}},
    {"apps", {"quantity", "estimate", "material", "particle", "bath", "paint", "record", "page", "shelf", "report"}},
};
const Names domain_rooms = {"quantity", "estimate", "material", "particle", "bath", "paint", "record"};

bool forbidden_in_domain(const std::string& header) {
    static const std::regex pattern(R"((yaml-cpp|fmt|CLI|nlohmann)/.*|.*stream|iomanip|cstdio|stdio\.h|filesystem|format|print)");
    return std::regex_match(header, pattern);
}

std::string room_of(const std::string& header) {
    static const std::regex ours(R"(lakebound/([a-z]+)/.+)");
    std::smatch match;
    return std::regex_match(header, match, ours) ? std::string(match[1]) : std::string();
}

/// What is wrong with one file of a room; empty when the floors hold.
std::vector<std::string> faults(const std::string& room, const std::string& text) {
    std::vector<std::string> result;
    const auto& allowed = may_include.at(room);
    for (const auto& header : included(text)) {
        const auto other = room_of(header);
        if (!other.empty() && other != room && allowed.count(other) == 0)
            result.push_back(room + " looks up or sideways at " + header);
        if (domain_rooms.count(room) != 0 && forbidden_in_domain(header))
            result.push_back(room + " reaches " + header);
    }
    return result;
}

std::vector<std::pair<std::string, fs::path>> sources() {
    const fs::path top = LAKEBOUND_SOURCE_DIR;
    std::vector<std::pair<std::string, fs::path>> found;
    for (const auto& base : {top / "include" / "lakebound", top / "lib"})
        for (const auto& entry : fs::recursive_directory_iterator(base)) {
            const auto extension = entry.path().extension();
            if (extension != ".hpp" && extension != ".cpp") continue;
            if (entry.path().parent_path() == base) continue; // of no room: export.hpp
            found.emplace_back(fs::relative(entry.path(), base).begin()->string(), entry.path());
        }
    for (const auto& entry : fs::recursive_directory_iterator(top / "apps"))
        if (entry.path().extension() == ".hpp" || entry.path().extension() == ".cpp")
            found.emplace_back("apps", entry.path());
    return found;
}

} // namespace

TEST_CASE("the floors of the house hold", "[unit]") {
    const auto files = sources();
    REQUIRE(files.size() > 10);
    for (const auto& [room, path] : files) {
        INFO(path);
        REQUIRE(may_include.count(room) == 1);
        for (const auto& fault : faults(room, slurp(path))) {
            // Where a standard library has no to_chars, printf writes numbers: into memory, to no stream.
            if (path.filename() == "portable.cpp" && fault == "quantity reaches cstdio") continue;
            FAIL_CHECK(fault);
        }
    }
}

TEST_CASE("the floor check sees a broken floor", "[unit]") {
    CHECK(faults("quantity", "#include \"lakebound/paint/pvc.hpp\"\n").size() == 1);
    CHECK(faults("material", "#include \"lakebound/paint/pvc.hpp\"\n").size() == 1);
    CHECK(faults("paint", "# include <yaml-cpp/yaml.h>\n#include <sstream>\n").size() == 2);
    CHECK(faults("paint", "#include <fmt/format.h>\n").size() == 1);
    CHECK(faults("report", "#include \"lakebound/shelf/library.hpp\"\n").size() == 1);
    CHECK(faults("page", "#include \"lakebound/paint/pvc.hpp\"\n").size() == 1);
    CHECK(faults("page", "#include \"lakebound/quantity/text.hpp\"\n").size() == 1);
    CHECK(faults("paint", "#include \"lakebound/page/page.hpp\"\n").size() == 1);
    CHECK(faults("report", "#include \"lakebound/page/page.hpp\"\n").empty());
    CHECK(faults("paint", "#include \"lakebound/material/pigment.hpp\"\n#include <vector>\n").empty());
}

TEST_CASE("no header includes itself by a detour", "[unit]") {
    const fs::path base = fs::path(LAKEBOUND_SOURCE_DIR) / "include";
    std::map<std::string, std::vector<std::string>> graph;
    for (const auto& entry : fs::recursive_directory_iterator(base))
        if (entry.path().extension() == ".hpp")
            graph[fs::relative(entry.path(), base).generic_string()] = included(slurp(entry.path()));
    std::map<std::string, int> state; // 1 = on the way, 2 = done
    std::function<void(const std::string&)> visit = [&](const std::string& header) {
        state[header] = 1;
        for (const auto& next : graph[header]) {
            if (graph.count(next) == 0) continue;
            if (state[next] == 1) FAIL_CHECK("circle through " << header << " and " << next);
            if (state[next] == 0) visit(next);
        }
        state[header] = 2;
    };
    for (const auto& [header, unused] : std::map(graph))
        if (state[header] == 0) visit(header);
}

TEST_CASE("the top level holds what was agreed", "[unit]") {
    const Names agreed = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "lib", "include",
                          "apps", "tests", "formulations", "docs"};
    for (const auto& entry : fs::directory_iterator(LAKEBOUND_SOURCE_DIR)) {
        const auto name = entry.path().filename().string();
        const bool build_tree = name.rfind("build", 0) == 0;
        if (name.front() != '.' && !build_tree) CHECK(agreed.count(name) == 1);
    }
}
