#include <catch2/catch.hpp>

#include "lakebound/report/chance_words.hpp"

using namespace lakebound;

TEST_CASE("A chance is said as people say it", "[unit]") {
    const auto said = [](double p) { return chance_text(Probability::of(p)); };
    CHECK(said(0.05) == "about 1 chance in 20 (5 %)");
    CHECK(said(0.206) == "about 1 chance in 5 (21 %)");
    CHECK(said(0.0044) == "about 1 chance in 200 (0.4 %)");
    CHECK(said(0.5) == "about 1 chance in 2 (50 %)");
    CHECK(said(0.67) == "about 2 chances in 3 (67 %)");
    CHECK(said(0.0) == "less than 1 chance in 1000 (below 0.1 %)");
    CHECK(said(1.0) == "almost certain (above 99.9 %)");
    CHECK(said(0.993) == "almost certain (above 99 %)");
}
