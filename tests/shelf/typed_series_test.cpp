#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_series.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

TEST_CASE("Readings at equal intervals are parted at their commas", "[unit]") {
    const auto series = series_option("--zone", "100 mm, 62 mm ,48 mm every 2 h", "");
    CHECK(series.readings == std::vector<std::string>{"100 mm", "62 mm", "48 mm"});
    CHECK(in_seconds(series.interval) == Approx(7200.0));
}

TEST_CASE("A series says how far apart its three readings or more are", "[errors]") {
    const auto fault = [](const char* text) {
        return summary(faults_of([text] { (void)series_option("--zone", text, "an example"); }));
    };
    CHECK(fault("100 mm, 62 mm, 48 mm") == "series-form");
    CHECK(fault("100 mm, , 48 mm every 2 h") == "series-form");
    CHECK(fault("100 mm, 62 mm every 2 h") == "series-form");
    CHECK(fault("100 mm, 62 mm, every 2 h") == "series-form");
    CHECK(fault("100 mm, 62 mm, 48 mm, every 2 h") == "series-form");
    CHECK(fault(", 100 mm, 62 mm, 48 mm every 2 h") == "series-form");
    CHECK(fault("100 mm, 62 mm, 48 mm every 0 h") == "out-of-range");
    CHECK(fault("100 mm, 62 mm, 48 mm every 2 mm") == "unit-dimension");
}

TEST_CASE("A decimal comma is told, not taken for the end of a reading", "[errors]") {
    const auto faults = faults_of([] { (void)series_option("--zone", "100,5 mm, 62 mm, 48 mm every 2 h", ""); });
    REQUIRE(summary(faults) == "number-comma");
    CHECK(faults.front().message == "\"100,5 mm, 62 mm, 48 mm every 2 h\": a decimal is written with a point");
    CHECK(faults.front().hint == "write \"100.5 mm, 62 mm, 48 mm every 2 h\"");
}
