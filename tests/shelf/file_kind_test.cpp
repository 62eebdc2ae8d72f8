#include "lakebound/shelf/file_kind.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <string>
#include <vector>

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
