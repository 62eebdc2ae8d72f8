#include "lakebound/shelf/file_kind.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/check_file.hpp"
#include "lakebound/shelf/library.hpp"

namespace fs = std::filesystem;
using namespace lakebound;

TEST_CASE("every kind of file has a word and a schema of its own", "[identity]") {
    const fs::path schemas = fs::path(LAKEBOUND_FORMULATIONS_DIR) / "schema";
    std::set<std::string> words, named;
    for (const FileKind& kind : file_kinds()) {
        INFO(kind.word);
        CHECK(words.insert(std::string(kind.word)).second);
        CHECK(fs::exists(schemas / schema_file(kind)));
        CHECK(kind.folder.empty() == !kind.shelf);
        CHECK(kind.read != nullptr);
        named.insert(schema_file(kind));
    }
    // And no schema lies there that no kind names.
    for (const auto& entry : fs::directory_iterator(schemas)) {
        const auto name = entry.path().filename().string();
        if (name.ends_with(".schema.json") && name != "common.schema.json") {
            INFO(name);
            CHECK(named.count(name) == 1);
        }
    }
}

TEST_CASE("the shelf's own folders are those of its kinds", "[identity]") {
    std::set<std::string> folders{"schema", "studios"}; // no kind lies there itself
    for (const FileKind& kind : file_kinds())
        if (kind.shelf) {
            CHECK(&file_kind(*kind.shelf) == &kind);
            CHECK(kind_word(*kind.shelf) == kind.word);
            CHECK(kind_folder(*kind.shelf) == kind.folder);
            folders.insert(std::string(kind.folder));
        }
    for (const auto& entry : fs::directory_iterator(LAKEBOUND_FORMULATIONS_DIR))
        if (entry.is_directory()) {
            INFO(entry.path());
            CHECK(folders.count(entry.path().filename().string()) == 1);
        }
}

TEST_CASE("what --list shows, in its order", "[unit]") {
    const auto listed = listed_kinds();
    CHECK(std::vector(listed.begin(), listed.end()) ==
          std::vector{ShelfKind::recipe, ShelfKind::pigment, ShelfKind::medium, ShelfKind::vessel, ShelfKind::jar});
}

TEST_CASE("each shipped file is checked as what its kind says", "[unit]") {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}});
    const fs::path root = LAKEBOUND_FORMULATIONS_DIR;
    for (const char* folder : {"practice", "habits", "learning", "laking", "washing", "tests", "targets", "salts", "studios/reedmere/readings", "studios/reedmere/baths",
                               "studios/reedmere/settling-tests", "studios/reedmere/sieve-tests"})
        for (const auto& entry : fs::directory_iterator(root / folder)) {
            INFO(entry.path());
            if (entry.path().extension() == ".yaml") CHECK_NOTHROW(check_file(entry.path().string(), library));
        }
}

TEST_CASE("an entry is checked for the jar it names, or for a stand-in", "[unit][errors]") {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}});
    const std::string text = "kind: entry\njar: nowhere\ndate: 2026-05-02\nwhat: weighed\nnet: 20.0 +- 0.1 g\n";
    const auto check = [&](const std::string& of, const Jar* jar) {
        return lakebound::testing::summary(lakebound::testing::faults_of([&] { check_document(load_document("e.yaml", of), "e", library, jar); }));
    };
    CHECK(check(text, nullptr) == "id-unknown");
    Jar jar;
    jar.id = "weld";
    jar.pigment = library.pigment("alumina-lake");
    CHECK(check(text, &jar).empty()); // the stand-in takes the name that the entry has
    std::string unnamed = text;
    unnamed.erase(unnamed.find("jar: nowhere\n"), 13);
    CHECK(check(unnamed, &jar) == "key-missing 1:1");
    CHECK_FALSE(check(text + "moisture: 3\n", &jar).empty());
}
