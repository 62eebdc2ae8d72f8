// docs/file-formats.md promises the whole vocabulary and every fault; this holds it to that.
#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <string>

#include "lakebound/quantity/vocabulary.hpp"

namespace {

std::string in_code_marks(std::string_view word) { return std::string(1, '`').append(word).append(1, '`'); }

std::string formats_page() {
    std::ifstream file(LAKEBOUND_TESTS_DIR "/../docs/file-formats.md");
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

} // namespace

TEST_CASE("the file formats page lists every unit of the vocabulary", "[unit]") {
    const std::string page = formats_page();
    for (const lakebound::Dimension dimension : lakebound::all_dimensions())
        for (const std::string_view unit : lakebound::unit_names(dimension)) {
            CAPTURE(unit);
            CHECK(page.find(in_code_marks(unit)) != std::string::npos);
        }
}

TEST_CASE("the file formats page lists every fault of a quantity", "[unit]") {
    const std::string page = formats_page();
    for (const char* id :
         {"number-missing", "number-comma", "number-octal", "number-hex", "number-not-finite",
          "number-underflow", "number-overflow", "number-trailing", "number-range", "unit-missing",
          "unit-unknown", "unit-dimension", "unit-unqualified", "unit-uncalibrated", "percent-basis",
          "spread-negative", "spread-factor", "spread-unwanted"}) {
        CAPTURE(id);
        CHECK(page.find("| " + in_code_marks(id) + " |") != std::string::npos);
    }
}
