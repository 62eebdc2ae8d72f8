#include "lakebound/report/powder_pictures.hpp"

#include <catch2/catch.hpp>

#include "support/four_pours.hpp"
#include "support/grinding_tests.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const page::Chart& chart_of(const page::Picture& picture) { return std::get<page::Chart>(picture.is); }

} // namespace

TEST_CASE("A mark of a sieve test bears its doubt within nothing and all", "[unit]") {
    auto answer = read_sieving(worked_sieving());
    auto& rows = answer.analysis.fractions;
    REQUIRE(rows.size() >= 5);
    const auto set = [&](std::size_t i, double passing, double u) { rows[i].passing = MassFraction::of(passing), rows[i].fraction_uncertainty = u; };
    set(0, 0.999, 0.01), set(1, 0.5, 0.01), set(2, 0.4, 0.0), set(3, 0.3, 0.000005), set(4, 0.001, 0.01);
    const auto picture = sieve_picture(answer);
    REQUIRE(picture);
    const auto& marks = chart_of(*picture).marks;
    REQUIRE(marks.size() == 5);
    // Nine times in ten a value lies within 1.645 standard deviations.
    CHECK(marks[0].nearly_sure->low == Approx(99.9 - 1.645));
    CHECK(marks[0].nearly_sure->high == Approx(100.0));
    CHECK(marks[1].nearly_sure->low == Approx(50.0 - 1.645));
    CHECK(marks[1].nearly_sure->high == Approx(50.0 + 1.645));
    CHECK_FALSE(marks[2].nearly_sure);
    CHECK(marks[3].nearly_sure->high == Approx(30.0 + 1.645 * 0.0005));
    CHECK(marks[4].nearly_sure->low == Approx(0.0).margin(1e-9));
    CHECK(marks[4].nearly_sure->high == Approx(0.1 + 1.645));
    // From half the finest screen, 45 um, to twice the coarsest, 250 um; a target beyond that is not marked.
    const auto& chart = chart_of(*picture);
    CHECK(chart.x.low == Approx(22.5));
    CHECK(chart.x.high == Approx(500.0));
    const auto marked = [&](double um) {
        answer.target = plain_target(micrometres(um), MassFraction::of(0.125), usual_habits());
        const auto drawn = sieve_picture(answer);
        const auto& limits = chart_of(*drawn).limits;
        return limits.empty() ? std::string("none") : limits[0].label;
    };
    CHECK(marked(22.4) == "none");
    CHECK(marked(22.6) == "wanted 87.5 %");
    CHECK(marked(499.0) == "wanted 87.5 %");
    CHECK(marked(501.0) == "none");
    // One screen is no curve, two are.
    rows.erase(rows.begin() + 2, rows.begin() + 5);
    CHECK(sieve_picture(answer));
    rows.erase(rows.begin() + 1);
    CHECK_FALSE(sieve_picture(answer));
}

TEST_CASE("A forecast is drawn from its first test or half a minute to beyond its last row, and to all at most", "[unit]") {
    auto answer = planned(grind_question({early(), late()}));
    REQUIRE(answer.forecast.size() >= 2);
    answer.forecast.resize(2), answer.rows.resize(2);
    const auto drawn = [&] { return forecast_picture(answer); };
    answer.forecast[0].time = minutes(5), answer.forecast[1].time = minutes(30);
    answer.forecast[0].residue = 0.4, answer.forecast[0].interval = {0.3, 0.5};
    answer.forecast[1].residue = 0.1, answer.forecast[1].interval = {0.05, 0.2};
    answer.rows[0].time = minutes(4), answer.rows[1].time = minutes(15);
    for (auto& row : answer.rows) row.residue = {MassFraction::of(0.45), 0.003, 0.004, Reach::within};
    auto picture = drawn();
    CHECK(chart_of(picture).x.low == Approx(0.8 * 4));
    CHECK(chart_of(picture).x.high == Approx(1.1 * 30));
    CHECK(chart_of(picture).y.high == Approx(1.1 * 50));
    CHECK(chart_of(picture).marks[0].nearly_sure->high == Approx(45 + 1.645 * 0.5)); // 3 and 4 at right angles make 5
    answer.forecast[0].time = minutes(3);
    picture = drawn();
    CHECK(chart_of(picture).x.low == Approx(0.8 * 3));
    answer.rows[0].time = minutes(0), answer.forecast[0].time = minutes(0);
    answer.forecast[0].interval.high = 1.2;
    picture = drawn();
    CHECK(chart_of(picture).x.low == Approx(0.4));
    CHECK(chart_of(picture).y.high == Approx(100.0));
    CHECK(chart_of(picture).regions.at(0).high.at(0).y == Approx(100.0));
    CHECK(chart_of(picture).regions.at(0).low.at(0).y == Approx(30.0));
    answer.forecast[0].interval.high = 0.6, answer.rows[0].residue.share = MassFraction::of(0.7);
    picture = drawn();
    CHECK(chart_of(picture).y.high == Approx(1.1 * 70)); // a test may lie above what is foreseen
}

TEST_CASE("Ways are drawn by pestle and other hands, the first as the chosen one", "[unit]") {
    auto answer = planned(grind_question({early(), late()}));
    REQUIRE(answer.ways.size() >= 2);
    answer.ways.resize(2);
    for (auto& way : answer.ways) way.plan.run.grinding = minutes(30), way.plan.run.hands = minutes(50), way.plan.run.through = 0.9;
    answer.ways[1].plan.run.hands = minutes(20); // no hands but those at the pestle, whatever the figures say
    const auto picture = ways_picture(answer);
    const auto& bars = std::get<page::Bars>(picture.is).bars;
    REQUIRE(bars.size() == 2);
    CHECK(bars[0].chosen);
    CHECK_FALSE(bars[1].chosen);
    CHECK(bars[0].segments[0].value == Approx(30));
    CHECK(bars[0].segments[1].value == Approx(20));
    CHECK(bars[1].segments[1].value == Approx(0).margin(1e-12));
    CHECK(bars[0].value == "90 % through");
    CHECK(bars[0].end == "50 min");
}

TEST_CASE("Glass and clock of a levigation stand by its depths and its seconds", "[unit]") {
    auto answer = plan_settling(four_pours(micrometres(45.0)));
    answer.plan.how.total_depth = millimetres(100), answer.plan.how.draw_depth = millimetres(80);
    const auto glass = glass_picture(answer);
    const auto& drawn = std::get<page::Glass>(glass.is);
    CHECK(drawn.drawn == Approx(0.8));
    CHECK(drawn.pour_off == "pour off 80 mm");
    CHECK(drawn.mark == "mark, 80 mm below the water");
    CHECK(drawn.stays == "leave 20 mm");
    answer.plan.steps.resize(2);
    answer.plan.steps[0].stirred = seconds(180), answer.plan.steps[0].pour = seconds(245);
    answer.plan.steps[1].stirred = seconds(400), answer.plan.steps[1].pour = seconds(3661.4);
    answer.question.handling.pour = seconds(20);
    const auto clock = clock_picture(answer);
    const auto& spans = std::get<page::Clock>(clock.is).spans;
    REQUIRE(spans.size() == 6);
    const std::pair<double, double> want[] = {{0, 180}, {180, 245}, {245, 265}, {265, 400}, {400, 3661.4}, {3661.4, 3681.4}};
    for (std::size_t i = 0; i < 6; ++i) {
        CAPTURE(i);
        CHECK(spans[i].from_seconds == Approx(want[i].first).margin(1e-9));
        CHECK(spans[i].to_seconds == Approx(want[i].second));
    }
    CHECK(spans[2].label == "pour 1: 4:05");
    CHECK(spans[5].label == "pour 2: 61:01");
}
