// --page: the answer as one HTML file, written whole or not at all, beside the answer in text or JSON.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

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
    CHECK_THAT(html, Contains("<span>--pigment</span> &quot;6 g&quot;"));
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

TEST_CASE("A sweep has a page: its curve with the window, and the rows of its text", "[cli]") {
    const TempDir folder;
    const auto file = folder.file("sweep.html");
    const std::vector<std::string> medium{shipped("recipes/ultramarine-oil.yaml"), "--total", "10 g", "--sweep", "medium"};
    const auto plain = pvc(medium), paged = pvc(and_also(medium, {"--page", file}));
    CHECK(paged.status == 0);
    CHECK(paged.out == plain.out);
    const auto html = read_bytes(file);
    CHECK_THAT(html, Contains("Sweep: Ultramarine") && Contains("<svg") && Contains("just filled at 1.00") && Contains("this paint, k ") && Contains("medium g/g"));
    // Each number of the text stands in the table.
    const auto last = plain.out.substr(plain.out.rfind('\n', plain.out.size() - 2) + 1);
    std::istringstream words(last);
    for (std::string word; words >> word;)
        if (word != "%") CHECK_THAT(html, Contains(word));

    fs::remove(file);
    CHECK(pvc(and_also(medium, {"--points", "1000", "--page", file, "--csv"})).status == 0);
    CHECK_THAT(read_bytes(file), Contains("of 1000\u00a0rows"));

    fs::remove(file);
    const std::vector<std::string> blend{"--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder",
                                         "gum-glycerol-honey: 36.5 g", "--page", file, "--sweep"};
    CHECK(pvc(and_also(blend, {"extender"})).status == 0);
    CHECK_THAT(read_bytes(file), Contains("extender") && Contains("fills mL/g"));
    fs::remove(file);
    CHECK(pvc(and_also(blend, {"size-ratio", "--median-size", "alumina-lake: 3 um", "--median-size", "chalk: 15 um"})).status == 0);
    CHECK_THAT(read_bytes(file), Contains("CPVC additive") && Contains("CPVC possible"));
}

TEST_CASE("A bench reading has a page: the figure, and a bar for each rub-out", "[cli]") {
    const TempDir folder;
    for (const auto& entry : fs::directory_iterator(studio("readings"))) {
        INFO(entry.path());
        const auto file = folder.file(entry.path().stem().string() + ".html");
        const auto plain = pvc({"--reading", entry.path().string()});
        const auto paged = pvc({"--reading", entry.path().string(), "--page", file});
        CHECK(paged.status == 0);
        CHECK(paged.out == plain.out);
        // The last line of the text is the line for the file.
        const auto line = plain.out.substr(plain.out.rfind('\n', plain.out.size() - 2) + 1);
        CHECK_THAT(read_bytes(file), Contains(line.substr(0, line.find(':'))) && Contains("Bench reading"));
    }
    CHECK_THAT(read_bytes(folder.file("weld-rub-outs.html")), Contains("rub-out 3") && Contains("<svg"));
}
