// Every error id has a file that triggers it, with the text to expect beside it; every file an id;
// every id a line in the catalogue and in docs/errors.md.
//
// tests/errors/<id>.yaml (and <id>.<case>.yaml) are read from that folder; what cannot be a file in a
// repository is made here. To write the expected texts anew after a change of wording, run this
// program with LAKEBOUND_WRITE_EXPECTED=1 and read the difference.

#include "lakebound/shelf/error_catalogue.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <regex>
#include <set>

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "lakebound/shelf/check_file.hpp"
#include "lakebound/shelf/bath_record.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/jar_starter.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/studio.hpp"
#include "lakebound/shelf/weigh_sheet_file.hpp"
#include "shelf/faults_of.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace fs = std::filesystem;

namespace {

const fs::path errors = fs::path(LAKEBOUND_TESTS_DIR) / "errors";
const fs::path top = fs::path(LAKEBOUND_TESTS_DIR).parent_path();

Library fixture_library() { return Library({{(errors / "shelf").string(), "test", true}}); }

std::string id_of(const std::string& stem) { return stem.substr(0, stem.find('.')); }

/// What cannot lie in a repository: made in an empty folder that is the current one.
const std::map<std::string, std::function<void()>>& made_cases() {
    static const std::map<std::string, std::function<void()>> cases{
        {"entry-contradicts",
         [] {
             fs::create_directories("studio/jars");
             fs::create_directories("studio/records/weld");
             std::ofstream("studio/jars/weld.yaml") << "kind: jar\nname: Weld\npigment: test-lake\nnet_mass: 20 g\n";
             std::ofstream("studio/records/weld/2026-03-02-01-weighed.yaml")
                 << "kind: entry\njar: weld\ndate: 2026-03-02\nwhat: weighed\nnet: 3.0 +- 0.1 g\n";
             std::ofstream("studio/records/weld/2026-03-03-01-drawn.yaml")
                 << "kind: entry\njar: weld\ndate: 2026-03-03\nwhat: drawn\nmass: 5 g\n";
             Library library = fixture_library();
             read_studio("studio", library, day_of_iso("2026-03-04").value());
         }},
        {"entry-name",
         [] {
             fs::create_directories("studio/jars");
             fs::create_directories("studio/records/weld");
             std::ofstream("studio/jars/weld.yaml") << "kind: jar\nname: Weld\npigment: test-lake\nnet_mass: 20 g\n";
             std::ofstream("studio/records/weld/2026-03-02-01-drawn copy.yaml")
                 << "kind: entry\njar: weld\ndate: 2026-03-02\nwhat: drawn\nmass: 5 g\n";
             Library library = fixture_library();
             read_studio("studio", library, day_of_iso("2026-03-04").value());
         }},
        {"entry-jar",
         [] {
             fs::create_directories("studio/records/madder");
             Library library = fixture_library();
             read_studio("studio", library, day_of_iso("2026-03-04").value());
         }},
        {"entry-bath",
         [] {
             fs::create_directories("baths/madder");
             std::ofstream("baths/madder.yaml") << "kind: bath\nname: M\nalum: potash-alum, 50 g\nalkali: soda-ash\n";
             std::ofstream("baths/madder/2026-03-02-01-note.yaml")
                 << "kind: bath entry\nbath: weld\ndate: 2026-03-02\nwhat: note\nnote: red\n";
             Library library({{LAKEBOUND_FORMULATIONS_DIR, "test", true}});
             (void)read_bath_record("baths/madder.yaml", library);
         }},
        {"entry-typed",
         [] {
             EntryContext context{"weld", "2026-03-02", {}, {}, {}};
             typed_rub_out(context, "2.00 g 1.56 g", {});
         }},
        {"jar-typed",
         [] {
             Library library = fixture_library();
             begin_jar_file("weld", "test-lake", {}, library);
         }},
        {"file-directory", [] { fs::create_directory("weld.yaml"), read_source("weld.yaml"); }},
        {"file-missing", [] { read_source("weld.yaml"); }},
        {"file-permission",
         [] {
             std::ofstream("weld.yaml") << "kind: jar\n";
             fs::permissions("weld.yaml", fs::perms::none);
             read_source("weld.yaml");
         }},
        {"file-special", [] { ::mkfifo("weld.yaml", 0600), read_source("weld.yaml"); }},
        {"file-too-large",
         [] {
             std::ofstream("weld.yaml") << "kind: jar\n";
             fs::resize_file("weld.yaml", 10'000'000);
             read_source("weld.yaml");
         }},
        {"file-unreadable", [] { fs::create_symlink("weld.yaml", "weld.yaml"), read_source("weld.yaml"); }},
        {"include-depth",
         [] {
             for (int i = 0; i < 10; ++i)
                 std::ofstream(std::to_string(i) + ".yaml") << "kind: jar\ninclude: [" << i + 1 << ".yaml]\n";
             load_document("0.yaml").faults.throw_if_any();
         }},
        {"schema-version",
         [] {
             Library library = fixture_library();
             read_weighed_paint(
                 load_document("sheet.json", "{\n  \"schema_version\": 9,\n  \"kind\": \"batch\"\n}\n"),
                 library);
         }},
        {"sheet-empty",
         [] {
             Library library = fixture_library();
             read_weighed_paint(load_document("sheet.json",
                                              "{\n  \"schema_version\": 3,\n  \"kind\": \"batch\",\n"
                                              "  \"recipe\": {},\n  \"pigments\": []\n}\n"),
                                library);
         }},
        {"shelf-missing",
         [] {
             SearchInputs inputs;
             inputs.options = {"no-such-shelf"};
             search_path(inputs);
         }},
        {"shelf-unusable",
         [] {
             fs::create_directory("shelf");
             std::ofstream("shelf/pigments") << "no folder\n";
             Library({{"shelf", "test", true}}).find(ShelfKind::pigment, "ultramarine");
         }},
        {"shelf-near-miss",
         [] {
             fs::create_directories("shelf/pigments");
             std::ofstream("shelf/pigments/Ultramarine.yaml") << "kind: pigment\n";
             Library({{"shelf", "test", true}}).find(ShelfKind::pigment, "ultramarine");
         }},
        {"too-many-nodes",
         [] {
             std::string text("kind: jar\nnote: [");
             for (int i = 0; i < 100'001; ++i)
                 text += "x,";
             load_document("weld.yaml", text + "]\n");
         }},
        {"write-directory", [] { safe_write(".", "sheet"); }},
        {"write-exists", [] { safe_write("sheet.txt", "sheet"), safe_write("sheet.txt", "sheet"); }},
        {"write-failed", [] { safe_write("/dev/full", "sheet"); }},
        {"write-folder", [] { safe_write("no-such-folder/sheet.txt", "sheet"); }},
        {"write-input",
         [] {
             std::ofstream("weld.yaml") << "kind: jar\n";
             safe_write("weld.yaml", "sheet", Overwrite::allow);
         }},
        {"write-permission",
         [] {
             fs::create_directory("locked");
             fs::permissions("locked", fs::perms::owner_read | fs::perms::owner_exec);
             safe_write("locked/sheet.txt", "sheet");
         }},
    };
    return cases;
}

struct Outcome {
    std::string first_id, text;
    bool skipped = false;
};

Outcome outcome_of(const std::function<void()>& code) {
    try {
        code();
    } catch (const InputError& error) {
        return {error.faults().front().id, error.text(), false};
    }
    return {};
}

/// Root may do everything: looks with the eyes of somebody else, in a process of its own.
Outcome outcome_as_nobody(const std::function<void()>& code) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        if (::setgid(65534) != 0 || ::setuid(65534) != 0) ::_exit(77);
        const Outcome outcome = outcome_of(code);
        const std::string text = outcome.first_id + "\n" + outcome.text;
        ::_exit(::write(ends[1], text.data(), text.size()) == static_cast<ssize_t>(text.size()) ? 0 : 1);
    }
    ::close(ends[1]);
    std::string text;
    char buffer[4096];
    for (ssize_t got = 0; (got = ::read(ends[0], buffer, sizeof buffer)) > 0;)
        text.append(buffer, static_cast<std::size_t>(got));
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    if (!WIFEXITED(status) || WEXITSTATUS(status) == 77) return {"", "", true};
    const std::size_t end = text.find('\n');
    return {text.substr(0, end), text.substr(std::min(end, text.size() - 1) + 1), false};
}

void compare(const std::string& stem, const Outcome& outcome) {
    INFO(stem);
    CHECK(outcome.first_id == id_of(stem));
    const fs::path expected = errors / (stem + ".expected");
    if (std::getenv("LAKEBOUND_WRITE_EXPECTED") != nullptr)
        std::ofstream(expected, std::ios::binary) << outcome.text;
    REQUIRE(fs::exists(expected));
    CHECK(outcome.text == read_bytes(expected));
}

/// The ids in the tables of docs/errors.md: of files, and of command lines.
std::pair<std::set<std::string>, std::set<std::string>> documented_ids() {
    std::pair<std::set<std::string>, std::set<std::string>> found;
    const std::string page = read_bytes(top / "docs/errors.md");
    const std::size_t command_line = page.find("\n## On the command line");
    const std::regex row("\n\\| `([a-z0-9-]+)` \\| [^|]+ \\| [^|]+ \\|");
    for (std::sregex_iterator at(page.begin(), page.end(), row), end; at != end; ++at)
        (static_cast<std::size_t>(at->position()) < command_line ? found.first : found.second).insert((*at)[1]);
    return found;
}

std::set<std::string> catalogue_ids() {
    std::set<std::string> ids;
    for (const CatalogueEntry& entry : error_catalogue())
        ids.emplace(entry.id);
    return ids;
}

} // namespace

TEST_CASE("every file under tests/errors is refused with the text beside it", "[errors]") {
    const InFolder here(errors);
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(errors)) {
        const bool table = entry.path().extension() == ".csv";
        if (entry.path().extension() != ".yaml" && !table) continue;
        ++files;
        const std::string stem = entry.path().stem().string(), name = entry.path().filename().string();
        compare(stem, outcome_of([&] {
                    Library library = fixture_library();
                    const Jar jar; // any will do where a recipe wants one
                    if (stem == "kind-wrong")
                        read_pigment_file(name, [&] { return library.practice().test_oil; });
                    else if (table)
                        read_sieve_test_file(name);
                    else
                        check_file(name, library, stem == "jar-missing" ? nullptr : &jar);
                }));
    }
    CHECK(files >= 60);
}

TEST_CASE("what cannot be a file in a repository is refused too", "[errors]") {
    for (const auto& [id, code] : made_cases()) {
        const TempDir dir;
        fs::permissions(dir.path(), fs::perms::all);
        const InFolder here(dir.path());
        const bool needs_nobody = id.find("permission") != std::string::npos && ::geteuid() == 0;
        const Outcome outcome = needs_nobody ? outcome_as_nobody(code) : outcome_of(code);
        if (outcome.skipped)
            WARN("SKIPPED: root here cannot become another user, so " << id << " was not tested");
        else
            compare(id, outcome);
    }
}

TEST_CASE("catalogue, triggering files, expected texts and docs/errors.md name the same ids", "[errors]") {
    const std::set<std::string> ids = catalogue_ids();
    CHECK(ids.size() == error_catalogue().size());
    std::set<std::string> triggered;
    for (const auto& [id, code] : made_cases())
        triggered.insert(id);
    for (const auto& entry : fs::directory_iterator(errors)) {
        const std::string stem = entry.path().stem().string();
        const bool read = entry.path().extension() == ".yaml" || entry.path().extension() == ".csv";
        if (read) triggered.insert(id_of(stem));
        if (entry.path().extension() == ".expected") {
            INFO(stem << " has an expected text but nothing triggers it");
            CHECK((fs::exists(errors / (stem + ".yaml")) || fs::exists(errors / (stem + ".csv")) ||
                   made_cases().count(stem) == 1));
        }
    }
    CHECK(triggered == ids);

    const auto [of_files, of_command_lines] = documented_ids();
    CHECK(of_files == ids);
}

namespace {

/// Typed texts stand on a command line, and their faults belong to it.
bool reads_a_command_line(const fs::path& source) {
    return source.stem().string().rfind("typed_", 0) == 0 || source.stem() == "maker_files" || source.stem() == "bath_record";
}

/// The sources that refuse a command line.
std::vector<fs::path> command_line_sources() {
    std::vector<fs::path> sources;
    for (const auto& entry : fs::recursive_directory_iterator(top / "apps"))
        if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp") sources.push_back(entry.path());
    for (const char* folder : {"lib/shelf", "include/lakebound/shelf"})
        for (const auto& entry : fs::directory_iterator(top / folder))
            if (reads_a_command_line(entry.path())) sources.push_back(entry.path());
    return sources;
}

} // namespace

TEST_CASE("every id that is given to a command line is in docs/errors.md", "[errors]") {
    const std::set<std::string> of_files = catalogue_ids();
    const auto of_command_lines = documented_ids().second;
    const std::regex literal("fault\\(\\s*\"([a-z]+(-[a-z0-9]+)+)\"");
    std::size_t found = 0;
    for (const auto& path : command_line_sources()) {
        const std::string code = read_bytes(path);
        for (std::sregex_iterator at(code.begin(), code.end(), literal), end; at != end; ++at, ++found) {
            INFO((*at)[1] << " of " << path.filename() << " needs a row under 'On the command line'");
            CHECK(of_files.count((*at)[1]) + of_command_lines.count((*at)[1]) == 1);
        }
    }
    CHECK(found > 10);
}

TEST_CASE("every id in the code is in the catalogue, and none there is dead", "[errors]") {
    std::set<std::string> in_code;
    const std::regex literal("\"([a-z]+(-[a-z0-9]+)+)\"");
    const std::set<std::string> no_ids{"self-heating", "iso-787-5", "astm-e11", "iso-3310-1",
                                       "rub-out", "wash-water", "alumina-lake", "chalk-lake"}; // a hazard word, source keys, a test, an entry, pigments
    for (const char* folder : {"lib/shelf", "lib/quantity", "lib/particle"})
        for (const auto& entry : fs::directory_iterator(top / folder)) {
            if (entry.path().extension() != ".cpp" || entry.path().stem() == "error_catalogue") continue;
            if (reads_a_command_line(entry.path())) continue;
            if (entry.path().parent_path().stem() == "particle" && entry.path().stem() != "sieve_series")
                continue;
            const std::string code = read_bytes(entry.path());
            for (std::sregex_iterator at(code.begin(), code.end(), literal), end; at != end; ++at)
                if (no_ids.count((*at)[1]) == 0) in_code.insert((*at)[1]);
        }
    CHECK(in_code == catalogue_ids());
}
