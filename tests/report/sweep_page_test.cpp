#include "lakebound/report/sweep_page.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "lakebound/page/html_writer.hpp"

using namespace lakebound;
using Catch::Contains;

namespace {

SweepTable line_of(std::size_t rows) {
    SweepTable table{"Over the medium", {{"medium", "medium g/g", false, {}}, {"k", "k", false, {}, true}}};
    for (std::size_t i = 0; i < rows; ++i) {
        table.columns[0].values.push_back(1000.0 + static_cast<double>(i));
        table.columns[1].values.push_back(0.5);
    }
    return table;
}
const page::Table& numbers(const page::Page& page) {
    return std::get<page::Table>(page.sections.back().blocks.back().is);
}
const page::Chart& chart(const page::Page& page) {
    return std::get<page::Chart>(std::get<page::Picture>(page.sections.front().blocks.front().is).is);
}

} // namespace

TEST_CASE("A sweep of 25 rows is shown whole, a longer one evenly from end to end", "[unit]") {
    const auto whole = sweep_page(line_of(25));
    CHECK(numbers(whole).rows.size() == 25);
    CHECK(page::write_html({whole}).find("rows; --csv") == std::string::npos);
    for (const std::size_t rows : {26u, 1001u}) {
        const auto thinned = sweep_page(line_of(rows));
        CHECK(numbers(thinned).rows.size() == 25);
        CHECK_THAT(page::write_html({thinned}), Contains("of " + std::to_string(rows) + "\u00a0rows"));
        const auto& points = chart(thinned).series.front().points;
        CHECK(points.size() == std::min<std::size_t>(rows, 200));
        CHECK(points.front().x == Approx(1000.0));
        CHECK(points.back().x == Approx(999.0 + static_cast<double>(rows)));
    }
}

TEST_CASE("The window of k lies in the picture whole, and shares are drawn in per cent", "[unit]") {
    auto table = line_of(5);
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    table.window = SufficiencyWindow{k(1.0), k(1.2), k(1.8), k(2.4)};
    table.here = 1002.0;
    table.k_here = k(0.5);
    const auto drawn = chart(sweep_page(table));
    REQUIRE(drawn.bands.size() == 1);
    CHECK(drawn.bands[0].from == Approx(1.2));
    CHECK(drawn.bands[0].to == Approx(1.8));
    CHECK(drawn.y.low == Approx(0.0).margin(1e-12));
    CHECK(drawn.y.high > 1.8);
    REQUIRE(drawn.marks.size() == 1);
    CHECK(drawn.marks[0].at.x == Approx(1002.0));
    CHECK(drawn.marks[0].at.y == Approx(0.5));

    table.columns[1].percent = true;
    const auto shares = chart(sweep_page(table));
    CHECK(shares.series[0].points[0].y == Approx(50.0));
    CHECK(shares.y.unit == "%");
}
