#include "lakebound/shelf/entry_remark.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

namespace {

constexpr std::chrono::sys_days remark_day{std::chrono::year(2026) / 5 / 2};

ReadEntry batch_read(const char* id, double powder, double k, std::chrono::sys_days day = remark_day) {
    ReadEntry read;
    read.entry = {id, "weld", day, BatchEntry{{0, BinderSufficiency::of(k), 0.01, {}, grams(powder), grams(0.01), true}}};
    read.medium = "gum-water";
    read.medium_mass = grams(7.0);
    return read;
}

ReadEntry rub_out_read(const char* id, double oil_absorption) {
    ReadEntry read;
    read.entry = {id, "weld", remark_day, RubOutEntry{grams_per_100_grams(oil_absorption), 0.0, grams(2.0)}};
    return read;
}

std::string twice(std::vector<ReadEntry> entries) {
    Studio studio;
    studio.entries = std::move(entries);
    return told_twice_remark(studio);
}

} // namespace

TEST_CASE("a batch or a rub-out that was entered twice is told", "[unit]") {
    CHECK(twice({}).empty());
    const auto first = batch_read("weld/a", 2.0, 1.4);
    CHECK(twice({first}).empty());
    CHECK(twice({first, batch_read("weld/b", 2.0, 1.4)}) ==
          "Entry a, of the same day, tells the very same. If it was entered twice, take one back: lakebound-jar weld --undo a.");
    CHECK(twice({first, batch_read("weld/b", 2.1, 1.4)}).empty());
    CHECK(twice({first, batch_read("weld/b", 2.0, 1.5)}).empty());
    CHECK(twice({first, batch_read("weld/b", 2.0, 1.4, remark_day + std::chrono::days(1))}).empty());
    auto oil = batch_read("weld/b", 2.0, 1.4);
    oil.medium = "linseed";
    CHECK(twice({first, oil}).empty());
    auto more = batch_read("weld/b", 2.0, 1.4);
    more.medium_mass = grams(7.5);
    CHECK(twice({first, more}).empty());
    auto other_family = batch_read("weld/b", 2.0, 1.4);
    std::get<BatchEntry>(other_family.entry.what).paint.family = 1;
    CHECK(twice({first, other_family}).empty());
    auto other_jar = batch_read("madder/b", 2.0, 1.4);
    other_jar.entry.jar = "madder";
    CHECK(twice({first, other_jar}).empty());

    CHECK_FALSE(twice({rub_out_read("weld/a", 78.0), first, rub_out_read("weld/c", 78.0)}).empty());
    CHECK(twice({rub_out_read("weld/a", 78.0), rub_out_read("weld/c", 79.0)}).empty());
    CHECK(twice({first, rub_out_read("weld/c", 79.0)}).empty());
    ReadEntry undo; // what was taken back may be told again
    undo.entry = {"weld/b", "weld", remark_day, UndoEntry{"weld/a"}};
    CHECK(twice({first, undo, batch_read("weld/c", 2.0, 1.4)}).empty());
}

TEST_CASE("a bottle that no entry names yet is told where others are named", "[unit]") {
    Studio studio;
    studio.entries = {batch_read("weld/a", 2.0, 1.4)};
    CHECK(new_bottle_remark(studio, "May").empty()); // the first
    studio.entries[0].bottle = "May";
    CHECK(new_bottle_remark(studio, "May").empty());
    CHECK(new_bottle_remark(studio, "Mai") ==
          "No entry names the bottle 'Mai' yet, so it is taken for a new one. If 'May' was meant, take this back with --undo last, "
          "and enter it again.");
    CHECK(new_bottle_remark(studio, "of the second honey") == "No entry names the bottle 'of the second honey' yet, so it is taken for a new one.");
}
