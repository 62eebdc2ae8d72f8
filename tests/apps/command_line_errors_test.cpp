// Every id of a command-line fault has a case that triggers it, with the text to expect beside it.
//
// tests/errors/command-line/<id>.args (and <id>.<case>.args) hold one argument in each line; "@/" at
// its start stands for the shipped shelf. Those of lakebound-batch lie at the top, those of every other
// program in the folder of its name, with the files that they read. To write the expected texts anew after a
// change of wording, run this program with LAKEBOUND_WRITE_EXPECTED=1 and read the difference.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <span>

#include "bath.hpp"
#include "grind.hpp"
#include "jar.hpp"
#include "lakebound/shelf/error_catalogue.hpp"
#include "run.hpp"
#include "settle.hpp"
#include "sieve.hpp"
#include "support/in_folder.hpp"
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

/// The ids in the table of docs/errors.md below a heading.
std::set<std::string> documented_below(const std::string& heading) {
    const auto page = read_bytes(top / "docs/errors.md");
    const auto at = page.find("\n### " + heading + "\n");
    REQUIRE(at != std::string::npos);
    return all_of(page.substr(at, page.find("\n#", at + 1) - at), std::regex("\n\\| `([a-z0-9-]+)` \\|"));
}

/// The ids that sources (named from the top folder) give to faults of the command line.
std::set<std::string> ids_in(const std::vector<std::string>& sources) {
    std::set<std::string> ids;
    for (const auto& source : sources)
        ids.merge(
            all_of(read_bytes(top / source), std::regex("fault\\(\\s*\"([a-z]+(?:-[a-z]+)+)\"")));
    return ids;
}

/// A program for powders: the folder of its cases, and where its faults of the command line come from.
struct PowderProgram {
    std::string name;
    int (*run)(std::span<const std::string>, Streams&);
    std::vector<std::string> sources;
    std::set<std::string> unreachable; ///< with the reason where it is listed
};

const std::vector<PowderProgram>& powder_programs() {
    static const std::vector<PowderProgram> programs{
        {"sieve", run_sieve, {"apps/sieve.cpp", "lib/shelf/typed_fineness.cpp", "apps/common/command_line.cpp"}, {"option-unread"}}, // it has one question
        {"grind",
         run_grind,
         {"apps/grind.cpp", "lib/shelf/typed_fineness.cpp", "lib/shelf/typed_grinding.cpp", "lib/shelf/typed_series.cpp",
          "apps/common/command_line.cpp"},
         {"argument-extra"}}, // it takes any number of tests
        {"settle", run_settle, {"apps/settle.cpp", "lib/shelf/typed_series.cpp", "apps/common/command_line.cpp"}, {}},
    };
    return programs;
}

/// Where the shelf lies on this machine is written "@/", as in the command lines.
std::string without_machine_paths(std::string text) {
    const auto here = shipped("");
    for (std::size_t at = 0; (at = text.find(here, at)) != std::string::npos;)
        text.replace(at, here.size(), "@/");
    return text;
}

/// The text beside a case, written anew first when that is asked for.
void check_text(const fs::path& arguments, const std::string& shown) {
    const auto text = without_machine_paths(shown);
    auto expected = arguments;
    expected.replace_extension(".expected");
    if (std::getenv("LAKEBOUND_WRITE_EXPECTED") != nullptr) std::ofstream(expected, std::ios::binary) << text;
    REQUIRE(fs::exists(expected));
    CHECK(text == read_bytes(expected));
}

/// The command lines of a folder, each refused with the text beside it; returns how many.
template <class Command> std::size_t check_refused(const fs::path& folder, Command command) {
    const InFolder here(folder);
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() == ".expected") {
            INFO(entry.path().filename().string() << " has no command line beside it");
            CHECK(fs::exists(fs::path(entry.path()).replace_extension(".args")));
        }
        if (entry.path().extension() != ".args") continue;
        ++files;
        INFO(entry.path().filename().string());
        const auto run = command(arguments_of(entry.path()));
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::Contains(std::string("[").append(id_of(entry.path())).append("]")));
        CHECK_THAT(run.err, Catch::Contains("\nhint: "));
        check_text(entry.path(), run.err);
    }
    return files;
}

} // namespace

TEST_CASE("Every command line under tests/errors is refused with the text beside it", "[errors]") {
    CHECK(check_refused(cases, [](const auto& arguments) { return batch(arguments); }) >= 20);
    CHECK(check_refused(cases / "pvc", [](const auto& arguments) { return pvc(arguments); }) >= 30);
    CHECK(check_refused(cases / "jar", [](const auto& arguments) { return run_command(run_jar, arguments); }) >= 25);
    for (const auto& program : powder_programs()) {
        INFO("lakebound-" << program.name);
        CHECK(check_refused(cases / program.name,
                            [&](const auto& arguments) { return run_command(program.run, arguments); }) >= 40);
    }
}

TEST_CASE("What is lost over the limit is answered and flagged, with the text beside it", "[errors]") {
    const auto folder = cases / "sieve/answered";
    const InFolder here(folder);
    const auto arguments = folder / "loss-over-limit.args";
    const auto run = run_command(run_sieve, arguments_of(arguments));
    CHECK(run.status == 1);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Catch::Contains("TOO MUCH LOST"));
    check_text(arguments, run.out);
}

TEST_CASE("Every fault of the powder programs has its case and its row", "[errors]") {
    const auto of_every_program = documented_below("Of every program");
    const auto of_these = documented_below("Of lakebound-sieve, lakebound-grind and lakebound-settle");
    CHECK(of_every_program.size() >= 5);
    CHECK(of_these.size() >= 9);

    std::set<std::string> in_code, in_cases;
    for (const auto& program : powder_programs()) {
        INFO("lakebound-" << program.name);
        const auto of_program = triggered(cases / program.name);
        CHECK(without(without(of_every_program, program.unreachable), of_program) == std::set<std::string>{});
        CHECK(without(without(ids_in(program.sources), program.unreachable), of_program) ==
              std::set<std::string>{});
        in_code.merge(ids_in(program.sources));
        in_cases.insert(of_program.begin(), of_program.end());
    }
    CHECK(without(of_these, in_cases) == std::set<std::string>{});
    const auto own = without(without(in_code, shelf_ids()), of_every_program);
    CHECK(own == of_these);
    CHECK(without(without(without(in_cases, shelf_ids()), of_every_program), of_these) ==
          std::set<std::string>{});
}

TEST_CASE("Every fault of lakebound-jar has its case and its row", "[errors]") {
    const auto of_jar = documented_below("Of lakebound-jar");
    const auto in_cases = triggered(cases / "jar");
    const auto of_every_program = documented_below("Of every program");
    CHECK(without(of_every_program, in_cases) == std::set<std::string>{});
    CHECK(without(ids_in({"apps/jar.cpp"}), in_cases) == std::set<std::string>{});
    CHECK(without(without(without(ids_in({"apps/jar.cpp"}), shelf_ids()), of_every_program),
                  documented_below("Of lakebound-batch and lakebound-pvc")) == of_jar);
}

TEST_CASE("Every fault of lakebound-bath has its case and its row", "[errors]") {
    CHECK(check_refused(cases / "bath", [](const auto& arguments) { return run_command(run_bath, arguments); }) >= 20);
    const auto of_bath = documented_below("Of lakebound-bath");
    const auto in_code = ids_in({"apps/bath.cpp", "lib/shelf/typed_bath.cpp", "lib/shelf/typed_bath_reading.cpp", "lib/shelf/typed_salt.cpp"});
    CHECK(without(in_code, triggered(cases / "bath")) == std::set<std::string>{});
    CHECK(without(without(without(in_code, shelf_ids()), documented_below("Of every program")),
                  documented_below("Of lakebound-batch and lakebound-pvc")) == of_bath);
}

TEST_CASE("Every fault of lakebound-pvc has its case and its row", "[errors]") {
    const auto page = read_bytes(top / "docs/errors.md");
    const auto documented = all_of(page, std::regex("\n\\| `([a-z0-9-]+)` \\|"));
    const auto in_code = ids_in({"apps/pvc.cpp", "lib/shelf/typed_paint.cpp", "lib/shelf/typed_pigments.cpp",
                                 "lib/shelf/typed_binder.cpp", "lib/shelf/typed_sweep.cpp", "lib/shelf/typed_text.cpp"});
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
    std::vector<fs::path> files{top / "apps/batch.cpp", top / "lib/shelf/maker_files.cpp", top / "lib/shelf/typed_batch.cpp"};
    for (const auto& entry : fs::directory_iterator(top / "apps/common"))
        files.push_back(entry.path());
    for (const auto& file : files) {
        in_code.merge(all_of(read_bytes(file), std::regex("fault\\(\\s*\"([a-z]+(?:-[a-z]+)+)\"")));
    }
    CHECK(without(in_code, shelf_ids()) == cases_ids);
}
