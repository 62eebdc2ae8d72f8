// Every file that comes with the program loads without a fault.
#include <catch2/catch.hpp>

#include <filesystem>
#include <set>

#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/studio.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/bath_record.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/bench_reading_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "shelf/faults_of.hpp"

using namespace lakebound;

namespace {

const std::string shipped = LAKEBOUND_FORMULATIONS_DIR;

Library shipped_library() { return Library({{shipped, "test", true}}); }

std::string fault_text(const std::vector<Diagnostic>& faults) {
    std::string text;
    for (const Diagnostic& fault : faults)
        text += render(fault);
    return text;
}

template <class Code> void check_no_fault(Code&& code) {
    CHECK(fault_text(lakebound::testing::faults_of(std::forward<Code>(code))) == "");
}

} // namespace

TEST_CASE("every shipped material, medium, family and vessel loads", "[unit]") {
    Library library = shipped_library();
    for (const std::string& id : library.ids(ShelfKind::pigment))
        check_no_fault([&] { library.pigment(id); });
    for (const std::string& id : library.ids(ShelfKind::ingredient))
        check_no_fault([&] { library.ingredient(id); });
    for (const std::string& id : library.ids(ShelfKind::medium))
        check_no_fault([&] { library.medium(id); });
    for (const std::string& id : library.ids(ShelfKind::family))
        check_no_fault([&] { library.family(id); });
    for (const std::string& id : library.ids(ShelfKind::vessel))
        check_no_fault([&] { library.vessel(id); });
    for (const std::string& id : library.ids(ShelfKind::fineness_target))
        check_no_fault([&] { library.fineness_target(id); });
    check_no_fault([&] { library.powder_habits(); });
    check_no_fault([&] { library.learning_habits(); });
    check_no_fault([&] { library.laking_habits(); });
    check_no_fault([&] { library.wash_habits(); });
    for (const std::string& id : library.ids(ShelfKind::salt))
        check_no_fault([&] { library.salt(id); });
    CHECK(library.ids(ShelfKind::salt).size() >= 20);
    CHECK(library.ids(ShelfKind::fineness_target) == library.ids(ShelfKind::family));
    CHECK(library.ids(ShelfKind::pigment).size() + library.ids(ShelfKind::ingredient).size() >= 30);
    CHECK(library.ids(ShelfKind::family).size() >= 3);
    CHECK(library.ids(ShelfKind::recipe).size() >= 6);
}

TEST_CASE("every shipped recipe and the jars and bench of the studios load", "[unit]") {
    Library library = shipped_library();
    std::size_t jars = 0, benches = 0, sieve_tests = 0, settling_tests = 0, readings = 0, entries = 0, bath_entries = 0;
    Jar jar;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(shipped + "/studios")) {
        if (entry.path().extension() != ".yaml") continue;
        const std::string path = entry.path().string();
        const std::string kind = load_document(path).kind();
        if (kind == "entry")
            ++entries; // read with the studio, below
        else if (kind == "jar")
            check_no_fault([&] { jar = library.jar(path); }), ++jars;
        else if (kind == "bench")
            check_no_fault([&] { read_bench_file(path); }), ++benches;
        else if (kind == "sieve test")
            check_no_fault([&] { read_sieve_test_file(path); }), ++sieve_tests;
        else if (kind == "bath")
            check_no_fault([&] { read_bath(load_document(path), library); });
        else if (kind == "bath entry")
            check_no_fault([&] { (void)read_bath_record(entry.path().parent_path().string() + ".yaml", library); }), ++bath_entries;
        else if (kind == "bench reading")
            check_no_fault([&] { read_bench_reading_file(path); }), ++readings;
        else
            check_no_fault([&] { read_settling_test_file(path); }), ++settling_tests;
    }
    CHECK(sieve_tests >= 3);
    CHECK(settling_tests >= 2);
    CHECK(jars >= 2);
    CHECK(benches >= 1);
    CHECK(readings >= 2);
    CHECK(bath_entries >= 15);
    check_no_fault([&] {
        const auto day = day_of_iso("2026-10-01").value();
        const Studio studio = read_studio(shipped + "/studios/reedmere-second-year", library, day);
        CHECK(studio.entries.size() == entries);
        CHECK(entries >= 15);
    });
    CHECK(library.bench_tests().candidates.size() >= 8);
    for (const std::string& id : library.ids(ShelfKind::recipe))
        check_no_fault([&] { library.recipe(id, &jar); });
}

TEST_CASE("no file lies on the shipped shelf that nothing reads", "[unit]") {
    const std::set<std::string> folders{"pigments", "ingredients", "media",   "families",    "vessels",
                                        "recipes",  "jars",        "targets", "sieve-tests", "settling-tests",
                                        "tests",    "readings",    "practice",   "habits",   "learning",
                                        "salts",    "laking",     "washing",  "baths"};
    for (const auto& entry : std::filesystem::recursive_directory_iterator(shipped)) {
        if (!entry.is_regular_file() || entry.path().extension() == ".json") continue;
        INFO(entry.path().string());
        const bool table = entry.path().extension() == ".csv"; // a sieve test may be one
        CHECK((entry.path().extension() == ".yaml" || table));
        const std::string stem = entry.path().stem().string();
        CHECK((is_id(stem) &&
               (folders.count(entry.path().parent_path().filename().string()) == 1 || stem == "bench" ||
                entry.path().parent_path().parent_path().filename() == "records" ||
                entry.path().parent_path().parent_path().filename() == "baths")));
    }
}
