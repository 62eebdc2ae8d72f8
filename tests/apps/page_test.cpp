// --page: the answer as one HTML file, written whole or not at all, beside the answer in text or JSON.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "run.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace fs = std::filesystem;

namespace {

std::vector<std::string> weld(const std::vector<std::string>& more) {
    return and_also({shipped("recipes/lake-watercolour-half-pans.yaml"), "--jar", studio("jars/weld.yaml"), "--bench",
                     studio("bench.yaml"), "--pigment", "6 g"},
                    more);
}

} // namespace

TEST_CASE("A page holds the sheet with its pictures, and text and status stay as they are", "[cli]") {
    const TempDir folder;
    const auto file = folder.file("sheet.html");
    const auto plain = batch(weld({}));
    const auto paged = batch(weld({"--page", file}));
    CHECK(paged.status == plain.status);
    CHECK(paged.out == plain.out);
    CHECK(paged.err.empty());
    const auto html = read_bytes(file);
    CHECK_THAT(html, Contains("<!DOCTYPE html>") && Contains("Weld lake") && Contains("Should hold") &&
                         Contains("How much medium holds") && Contains("Where the doubt lies") &&
                         Contains("pour by pour") && Contains("Reedmere bench") && Contains("Take care"));
    // The command that makes it again, as it would be typed.
    CHECK_THAT(html, Contains("--pigment &quot;6 g&quot;"));
    // Nothing is fetched and nothing runs.
    for (const char* word : {"<script", "src=", "href=\"http", "@import"})
        CHECK(html.find(word) == std::string::npos);
}

TEST_CASE("A page goes with JSON, and of a paint with its explanation there are two sheets in it", "[cli]") {
    const TempDir folder;
    const auto file = folder.file("sheet.html");
    const auto json = batch(weld({"--json"}));
    CHECK(batch(weld({"--json", "--page", file})).out == json.out);
    fs::remove(file);
    CHECK(batch(weld({"--explain", "--page", file})).status == 0);
    CHECK_THAT(read_bytes(file), Contains("How it is worked out"));
    fs::remove(file);
    CHECK(pvc({shipped("recipes/ultramarine-oil.yaml"), "--total", "10 g", "--page", file}).status == 0);
    CHECK_THAT(read_bytes(file), Contains("PVC limits"));
}

TEST_CASE("A page that is there already is left alone unless --force is given", "[errors]") {
    const TempDir folder;
    const auto file = folder.file("sheet.html");
    std::ofstream(file) << "mine";
    const auto refused = batch(weld({"--page", file}));
    check_refused(refused, "write-exists");
    CHECK(read_bytes(file) == "mine");
    CHECK(batch(weld({"--page", file, "--force"})).status == 0);
    CHECK_THAT(read_bytes(file), Contains("Weigh sheet"));
}

TEST_CASE("Where -o is refused no page is written either", "[errors]") {
    const TempDir folder;
    const auto page = folder.file("sheet.html"), there = folder.write("there.txt", "mine");
    check_refused(batch(weld({"-o", there, "--page", page})), "write-exists");
    check_refused(batch(weld({"-o", folder.file("none/a.txt"), "--page", page})), "write-folder");
    check_refused(batch(weld({"-o", folder.path().string(), "--page", page})), "write-directory");
    CHECK_FALSE(fs::exists(page));
    CHECK(read_bytes(there) == "mine");
}
