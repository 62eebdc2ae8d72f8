#include "lakebound/shelf/entry_names.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

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
