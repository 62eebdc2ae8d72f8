#include "lakebound/shelf/entry_names.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

#include "faults_of.hpp"
#include "support/as_nobody.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("numbers of a day that were skipped are found", "[unit]") {
    using Names = std::vector<std::string>;
    const auto missing = [](const Names& names) { return missing_entries(names); };
    CHECK(missing({}).empty());
    CHECK(missing({"2026-05-03-01-swatch.yaml"}).empty());
    CHECK(missing({"2026-05-03-01-swatch.yaml", "2026-05-03-02-outcome.yaml", "2026-05-04-01-note.yaml"}).empty());
    CHECK(missing({"2026-05-03-02-swatch.yaml"}) == Names{"2026-05-03-01"});
    CHECK(missing({"2026-05-03-04-swatch.yaml", "2026-05-03-02-note.yaml", "2026-05-04-02-note.yaml"}) ==
          Names{"2026-05-03-01", "2026-05-03-03", "2026-05-04-01"});
    CHECK(missing({"2026-05-03-11-swatch.yaml"}).size() == 10);
    CHECK(missing({"2026-05-03-11-swatch.yaml"}).back() == "2026-05-03-10");
    // A number that a person chose is no count; a name of another form is told elsewhere.
    CHECK(missing({"2026-05-03-2000000000-swatch.yaml"}).size() == 99);
    CHECK(missing({"odd.yaml", "2026-05-03-x-swatch.yaml"}).empty());
}

TEST_CASE("a free name is one above the highest of its day", "[unit]") {
    const std::vector<std::string> stems{"2026-05-03-01-swatch", "2026-05-03-09-note", "2026-05-04-17-note"};
    CHECK(free_entry_stem(stems, "2026-05-03", "drawn") == "2026-05-03-10-drawn");
    CHECK(free_entry_stem(stems, "2026-05-04", "drawn") == "2026-05-04-18-drawn");
    CHECK(free_entry_stem(stems, "2026-05-05", "drawn") == "2026-05-05-01-drawn");
    CHECK(free_entry_stem({}, "2026-05-05", "drawn") == "2026-05-05-01-drawn");
}

TEST_CASE("a number of an entry is one of figures, and a short name is counted for nothing", "[unit][errors]") {
    const auto day = std::chrono::sys_days(std::chrono::year(2026) / 6 / 2);
    const auto told = [&](const char* stem) { return summary(faults_of([&] { check_entry_name(day, "cake", stem, "p"); })); };
    for (const char* good : {"2026-06-02-1-cake", "2026-06-02-01-cake", "2026-06-02-0123456789-cake"})
        CHECK(told(good).empty());
    for (const char* wrong : {"2026-06-02-x1-cake", "2026-06-02-1x-cake", "2026-06-02-/1-cake", "2026-06-02-1:-cake", "2026-06-02--cake", "2026-06-02-cake", "cake", "",
                              "2026-06-02-01-cakes", "2026-06-03-01-cake"})
        CHECK(told(wrong) == "entry-name");
    const auto fault = faults_of([&] { check_entry_name(day, "cake", "2026-06-03-01-cake", "p.yaml"); }).at(0);
    CHECK(fault.message == "this entry is of 2026-06-02 and tells 'cake', and its name says otherwise");
    CHECK(fault.hint == "call it 2026-06-02-01-cake.yaml, with a number of its own; or is it a copy?");
    CHECK(fault.at.place.path == "p.yaml");
    const std::vector<std::string> stems{"2026-05-03-", "2026-05-03-9", "2026-05-03-09", "2026-05-03-3-note"};
    CHECK(free_entry_stem(stems, "2026-05-03", "drawn") == "2026-05-03-04-drawn");
}

TEST_CASE("a record whose folder cannot be made is told, and nothing is written", "[errors]") {
    const TempDir dir;
    const std::string plain = dir.write("plain", "x");
    auto faults = faults_of([&] { (void)write_entry_file(plain + "/weld", "2026-05-03", "note", "x"); });
    REQUIRE(summary(faults) == "write-failed");
    CHECK(faults[0].message == "the folder of the record cannot be made: Not a directory");
    CHECK(faults[0].hint == "nothing was written");
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0555));
    {
        const AsNobody nobody;
        if (nobody) faults = faults_of([&] { (void)write_entry_file(dir.file("weld"), "2026-05-03", "note", "x"); });
    }
    std::filesystem::permissions(dir.path(), std::filesystem::perms(0755));
    REQUIRE(summary(faults) == "write-permission");
    CHECK(faults[0].message == "the folder of the record cannot be made: Permission denied");
    CHECK(write_entry_file(dir.file("weld"), "2026-05-03", "note", "x") == dir.file("weld/2026-05-03-01-note.yaml"));
    // What cannot be written is told as it is, not tried again.
    std::filesystem::permissions(dir.path() / "weld", std::filesystem::perms(0555));
    {
        const AsNobody nobody;
        if (nobody) faults = faults_of([&] { (void)write_entry_file(dir.file("weld"), "2026-05-03", "note", "x"); });
    }
    std::filesystem::permissions(dir.path() / "weld", std::filesystem::perms(0755));
    CHECK(summary(faults) == "write-permission");
    CHECK(entry_files(dir.file("weld")).size() == 1);
}
