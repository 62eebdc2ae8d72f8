#include "lakebound/report/bath_pictures.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "lakebound/page/picture.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
template <class Q> Estimate<Q> exactly(const Q& value) { return Estimate<Q>::exact(value, {}); }
const page::Chart& chart_of(const page::Picture& picture) { return std::get<page::Chart>(picture.is); }

WashedLake washed_lake(double strength) {
    WashedLake w{};
    w.water.strength = {kilograms_per_cubic_metre(strength)};
    w.water.standard_uncertainty = kilograms_per_cubic_metre(.03);
    w.bed = Estimate<Volume>::lognormal(litres(.45), 1.08, {});
    w.filled = Estimate<Volume>::lognormal(litres(1.5), 1.03, {});
    w.lake = Estimate<Mass>::lognormal(grams(10.7), 1.1, {});
    w.stirred_to = exactly(Share::of(.1));
    return w;
}
DryingHabits drying_habits() {
    DryingHabits h{};
    h.usual_tau = Estimate<Time>::lognormal(hours(36), 2, {});
    h.weighing_repeats_to = exactly(Share::of(.003));
    h.dry_within = exactly(Share::of(.01));
    h.constant_within = exactly(Share::of(.005));
    h.constant_over = exactly(hours(20));
    return h;
}
} // namespace

TEST_CASE("the picture of a filter shows what was read and the finish with its band", "[unit]") {
    const std::vector<FilterReading> readings{{minutes(30), litres(.3)}, {hours(2), litres(.6)}};
    const FilterHabits habits{exactly(Share::of(.03)), exactly(seconds(20)), exactly(Share::of(.35)), exactly(minutes(5))};
    const auto outlook = filter_outlook(readings, litres(1.2), habits);
    const auto picture = filter_picture(outlook, readings);
    const auto& chart = chart_of(picture);
    REQUIRE(chart.marks.size() == 3);
    CHECK(chart.marks[1].at.x == Approx(2));
    CHECK(chart.marks[1].at.y == Approx(.6));
    CHECK(chart.marks[2].at.x == Approx(in_hours(outlook.finish.middle)));
    REQUIRE(chart.marks[2].along);
    CHECK(chart.marks[2].along->high == Approx(in_hours(outlook.finish.high)));
    CHECK(chart.x.high > chart.marks[2].along->high);
    REQUIRE(chart.series.size() == 2);
    CHECK(chart.series[1].points.back().y == Approx(1.2));
    CHECK(chart.series[0].points.size() == 25); // of 48 steps the half, and where they begin
    CHECK(chart.series[1].points.size() == 24);
    // Nothing left to run: no finish to tell.
    const auto done = filter_picture(filter_outlook(readings, litres(.6), habits), readings);
    CHECK(chart_of(done).marks.size() == 2);
}

TEST_CASE("the picture of the washes falls to what is allowed", "[unit]") {
    const auto outlook = wash_outlook(washed_lake(2), MassFraction::of(.01), exactly(kilograms_per_cubic_metre(0)));
    const auto picture = wash_picture(outlook, MassFraction::of(.01));
    REQUIRE(picture);
    const auto& chart = chart_of(*picture);
    REQUIRE(chart.marks.size() == outlook.course.size());
    CHECK(chart.marks[0].symbol == page::Symbol::square);
    CHECK(chart.marks[0].at.y == Approx(8.41).margin(.05));
    CHECK(chart.marks[1].symbol == page::Symbol::diamond);
    for (std::size_t i = 1; i < chart.marks.size(); ++i)
        CHECK(chart.marks[i].at.y < chart.marks[i - 1].at.y);
    REQUIRE(chart.limits.size() == 1);
    CHECK(chart.limits[0].at == Approx(1));
    CHECK(chart.limits[0].label == "allowed 1 %");
    CHECK(chart.y.low > 0);
    CHECK(chart.y.high > chart.marks[0].nearly_sure->high);
    CHECK_FALSE(wash_picture({}, MassFraction::of(.01)));
}

TEST_CASE("the picture of a drying cake carries its band to the day it is dry", "[unit]") {
    const auto seen = weighed_daily({38.6, 24.9, 17.9});
    const auto outlook = drying_outlook(seen, {grams(.1), grams(0)}, drying_habits());
    const auto picture = drying_picture(outlook, seen);
    const auto& chart = chart_of(picture);
    REQUIRE(chart.marks.size() == 3);
    CHECK(chart.marks[2].at.x == Approx(2));
    CHECK(chart.marks[2].at.y == Approx(17.9));
    REQUIRE(chart.limits.size() == 1);
    CHECK(chart.limits[0].at == Approx(in_hours(*outlook.sure) / 24));
    CHECK(chart.x.high > chart.limits[0].at);
    REQUIRE(chart.regions.size() == 1);
    for (std::size_t i = 0; i < chart.regions[0].low.size(); ++i)
        CHECK(chart.regions[0].low[i].y <= chart.regions[0].high[i].y);
    CHECK(chart.series[1].points.back().y == Approx(in_grams(outlook.end)).epsilon(.03));
    // Days are counted from the first weighing, whatever the clock said then.
    auto later = seen;
    for (auto& each : later)
        each.time += hours(50);
    const auto shifted = drying_picture(drying_outlook(later, {grams(.1), grams(0)}, drying_habits()), later);
    CHECK(chart_of(shifted).x.high == Approx(chart.x.high).epsilon(1e-6));
    CHECK(chart_of(shifted).marks[2].at.x == Approx(2));
    CHECK(chart_of(shifted).limits[0].at == Approx(chart.limits[0].at).epsilon(1e-6));
    // Each place of the way and its band, from where the belief begins to the end of the picture; what was weighed is drawn
    // through, what is to come dashed. The end: a tenth beyond the day it is dry, or half the time that was weighed if later.
    for (const auto& [chart_here, outlook_here, begin] :
         {std::tuple{&chart, outlook, seen.front().time}, std::tuple{&chart_of(shifted), drying_outlook(later, {grams(.1), grams(0)}, drying_habits()), later.front().time}}) {
        const Time end = begin + std::max(1.5 * hours(48), 1.1 * (*outlook_here.sure - begin)), first = outlook_here.belief.origin;
        CHECK(chart_here->x.high == Approx(in_hours(end - begin) / 24).epsilon(1e-9));
        CHECK(chart_here->x.low == 0.0);
        CHECK(chart_here->y.low == 0.0);
        CHECK(chart_here->y.high == Approx(1.1 * 38.6).epsilon(1e-9));
        const auto& band = chart_here->regions[0];
        REQUIRE(band.low.size() == 49);
        for (const std::size_t i : {0u, 7u, 24u, 48u}) {
            const Time at = first + (end - first) * (static_cast<double>(i) / 48.0);
            CHECK(band.low[i].x == Approx(in_hours(at - begin) / 24).epsilon(1e-9).margin(1e-9));
            CHECK(band.low[i].y == Approx(in_grams(drying_mass_quantile(outlook_here.belief, at, 0.05))).epsilon(1e-9));
            CHECK(band.high[i].y == Approx(in_grams(drying_mass_quantile(outlook_here.belief, at, 0.95))).epsilon(1e-9));
            const bool past = at <= begin + hours(48);
            const auto& series = chart_here->series[past ? 0 : 1].points;
            const auto& point = series[past ? i : i - chart_here->series[0].points.size()];
            CHECK(point.x == Approx(band.low[i].x));
            CHECK(point.y == Approx(in_grams(drying_mass_quantile(outlook_here.belief, at, 0.5))).epsilon(1e-9));
        }
    }
    // A cake that is stuck has no way to show.
    const auto stuck_seen = weighed_daily({38.6, 24.9, 17.9, 17.9, 17.9});
    const auto stuck = drying_picture(drying_outlook(stuck_seen, {grams(.1), grams(0)}, drying_habits()), stuck_seen);
    CHECK(chart_of(stuck).regions.empty());
    CHECK(chart_of(stuck).limits.empty());
    CHECK(chart_of(stuck).marks.size() == 5);
}
