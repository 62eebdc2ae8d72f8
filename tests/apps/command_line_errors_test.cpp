// Every id of a command-line fault has a case that triggers it, with the text to expect beside it.
//
// tests/errors/command-line/<id>.args (and <id>.<case>.args) hold one argument in each line; "@/" at
// its start stands for the shipped shelf. To write the expected texts anew after a change of wording,
// run this program with LAKEBOUND_WRITE_EXPECTED=1 and read the difference.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>

#include "lakebound/shelf/error_catalogue.hpp"
#include "run.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

const fs::path cases = fs::path(LAKEBOUND_TESTS_DIR) / "errors/command-line";
const fs::path top = fs::path(LAKEBOUND_TESTS_DIR).parent_path();

std::vector<std::string> arguments_of(const fs::path& file) {
    std::ifstream in(file);
    std::vector<std::string> arguments;
    for (std::string line; std::getline(in, line);)
        arguments.push_back(line.rfind("@/", 0) == 0 ? shipped(line.substr(2)) : line);
    return arguments;
}

std::string id_of(const fs::path& file) {
    const auto stem = file.stem().string();
    return stem.substr(0, stem.find('.'));
}

std::set<std::string> triggered(const fs::path& folder = cases) {
    std::set<std::string> ids;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == ".args") ids.insert(id_of(entry.path()));
    return ids;
}

std::set<std::string> shelf_ids() {
    std::set<std::string> ids;
    for (const auto& entry : error_catalogue())
        ids.emplace(entry.id);
    return ids;
}

std::set<std::string> all_of(const std::string& text, const std::regex& pattern) {
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at)
        found.insert((*at)[1]);
    return found;
}

std::set<std::string> without(std::set<std::string> ids, const std::set<std::string>& others) {
    for (const auto& id : others)
        ids.erase(id);
    return ids;
}

} // namespace

namespace {

/// The command lines of a folder, each refused with the text beside it; returns how many.
template <class Command> std::size_t check_refused(const fs::path& folder, Command command) {
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() != ".args") continue;
        ++files;
        INFO(entry.path().filename().string());
        const auto run = command(arguments_of(entry.path()));
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::Contains(std::string("[").append(id_of(entry.path())).append("]")));
        auto expected = entry.path();
        expected.replace_extension(".expected");
        if (std::getenv("LAKEBOUND_WRITE_EXPECTED") != nullptr)
            std::ofstream(expected, std::ios::binary) << run.err;
        REQUIRE(fs::exists(expected));
        CHECK(run.err == read_bytes(expected));
    }
    return files;
}

} // namespace

TEST_CASE("Every command line under tests/errors is refused with the text beside it", "[errors]") {
    CHECK(check_refused(cases, [](const auto& arguments) { return batch(arguments); }) >= 20);
    CHECK(check_refused(cases / "pvc", [](const auto& arguments) { return pvc(arguments); }) >= 30);
}

TEST_CASE("Every fault of lakebound-pvc has its case and its row", "[errors]") {
    const auto page = read_bytes(top / "docs/errors.md");
    const auto documented = all_of(page, std::regex("\n\\| `([a-z0-9-]+)` \\|"));
    std::set<std::string> in_code;
    for (const auto& entry : fs::directory_iterator(top / "apps"))
        if (entry.path().filename().string().rfind("pvc", 0) == 0)
            in_code.merge(all_of(read_bytes(entry.path()), std::regex("fault\\(\\s*\"([a-z]+(?:-[a-z]+)+)\"")));
    CHECK(in_code.size() >= 20);
    CHECK(without(in_code, documented).empty());
    CHECK(without(without(in_code, triggered(cases / "pvc")), triggered()).empty());
}

TEST_CASE("Code, cases and docs/errors.md name the same faults of the command line", "[errors]") {
    const auto cases_ids = without(triggered(), shelf_ids());

    const auto page = read_bytes(top / "docs/errors.md");
    const auto section = page.find("## On the command line");
    REQUIRE(section != std::string::npos);
    const auto documented = all_of(page.substr(section, page.find("\n## ", section) - section),
                                   std::regex("\n\\| `([a-z0-9-]+)` \\| [^|]+ \\| [^|]+ \\|"));
    CHECK(without(cases_ids, documented).empty());

    std::set<std::string> in_code;
    std::vector<fs::path> files{top / "apps/batch.cpp"};
    for (const auto& entry : fs::directory_iterator(top / "apps/common"))
        files.push_back(entry.path());
    for (const auto& file : files) {
        in_code.merge(all_of(read_bytes(file), std::regex("fault\\(\\s*\"([a-z]+(?:-[a-z]+)+)\"")));
    }
    CHECK(without(in_code, shelf_ids()) == cases_ids);
}
