#include "lakebound/report/bath_pictures.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {
namespace {

constexpr int bath_curve_points = 48;
constexpr double seconds_in_day = 86400.0;

double in_days(Time t) { return in_seconds(t) / seconds_in_day; }
double wash_percent(MassFraction x) { return 100.0 * x.value(); }

} // namespace

page::Picture filter_picture(const FilterOutlook& outlook, std::span<const FilterReading> readings) {
    page::Chart chart{.question = "How much has run through the filter, and when the rest will have"};
    const Volume last = readings.back().filtrate, whole = last + outlook.rest;
    page::Series seen, to_come{.stroke = page::Stroke::dashed};
    for (int i = 0; i <= bath_curve_points; ++i) {
        const Volume at = whole * (static_cast<double>(i) / bath_curve_points);
        const page::Point point{in_hours(filter_time(outlook.law, at)), in_litres(at)};
        (at <= last ? seen : to_come).points.push_back(point);
    }
    for (const FilterReading& r : readings)
        chart.marks.push_back({.at = {in_hours(r.time), in_litres(r.filtrate)}});
    const auto finish = [&](const TimeBand& band, const char* label) {
        page::Mark mark{.at = {in_hours(band.middle), in_litres(whole)}, .symbol = page::Symbol::diamond, .label = label};
        mark.along = page::Interval{in_hours(band.low), in_hours(band.high)};
        chart.marks.push_back(std::move(mark));
    };
    if (outlook.rest.value() > 0.0) finish(outlook.finish, "done");
    chart.x = {.name = "since pouring", .unit = "h", .low = 0.0,
               .high = 1.05 * std::max(in_hours(outlook.finish.high), in_hours(readings.back().time))};
    chart.y = {.name = "through", .unit = "L", .low = 0.0, .high = 1.12 * in_litres(whole)};
    chart.series = {std::move(seen), std::move(to_come)};
    chart.caption = "Squares: read. Dashed: to come; the bar holds the finish 9 times in 10.";
    return {std::move(chart)};
}

std::optional<page::Picture> wash_picture(const WashOutlook& outlook, MassFraction allowed) {
    if (outlook.course.empty() || !(outlook.course.front().high.value() > 0.0)) return std::nullopt;
    page::Chart chart{.question = "Salts left in the lake, wash by wash"};
    const double floor_percent = 0.05 * wash_percent(allowed), top = wash_percent(outlook.course.front().high);
    const auto shown = [&](MassFraction x) { return std::max(floor_percent, wash_percent(x)); };
    for (const WashCourse& at : outlook.course) {
        page::Mark mark{.at = {static_cast<double>(at.washes), shown(at.left)}, .symbol = page::Symbol::diamond};
        if (at.washes == 0) mark.symbol = page::Symbol::square;
        mark.nearly_sure = page::Interval{shown(at.low), shown(at.high)};
        chart.marks.push_back(std::move(mark));
        chart.x.ticks.push_back(at.washes);
    }
    chart.x.name = "washes more";
    chart.x.low = -0.4;
    chart.x.high = outlook.course.back().washes + 0.4;
    chart.y = {.name = "salts", .unit = "% of the lake", .low = floor_percent, .high = std::max(2.0 * wash_percent(allowed), 1.3 * top),
               .scale = page::Scale::logarithmic};
    chart.limits = {{wash_percent(allowed), fmt::format("allowed {} %", plain_text(wash_percent(allowed)))}};
    chart.caption = "Square: now, by the pen; diamonds: to come. Bars: 9 times in 10.";
    return page::Picture{std::move(chart)};
}

page::Picture drying_picture(const DryingOutlook& outlook, std::span<const DryingWeighing> weighings) {
    page::Chart chart{.question = "What the cake weighs, and when it comes to rest"};
    const Time begin = weighings.front().time, last = weighings.back().time;
    Time end = last + 0.5 * (last - begin);
    if (outlook.sure) end = std::max(end, begin + 1.1 * (*outlook.sure - begin));
    double heaviest = 0.0;
    for (const DryingWeighing& w : weighings) {
        chart.marks.push_back({.at = {in_days(w.time - begin), in_grams(w.mass)}});
        heaviest = std::max(heaviest, in_grams(w.mass));
    }
    page::Region doubt{.label = "9 in 10"};
    page::Series line, to_come{.stroke = page::Stroke::dashed};
    if (outlook.state != DryingState::stuck)
        for (int i = 0; i <= bath_curve_points; ++i) {
            const Time at = outlook.belief.origin + (end - outlook.belief.origin) * (static_cast<double>(i) / bath_curve_points);
            const double day = in_days(at - begin);
            const auto grams_at = [&](double p) { return in_grams(drying_mass_quantile(outlook.belief, at, p)); };
            (at <= last ? line : to_come).points.push_back({day, grams_at(0.5)});
            doubt.low.push_back({day, grams_at(0.05)});
            doubt.high.push_back({day, grams_at(0.95)});
        }
    if (!doubt.low.empty()) chart.regions = {std::move(doubt)};
    chart.series = {std::move(line), std::move(to_come)};
    if (outlook.sure) chart.limits.push_back({in_days(*outlook.sure - begin), "dry, 9 in 10", true});
    chart.x = {.name = "days", .unit = "d", .low = 0.0, .high = in_days(end - begin)};
    chart.y = {.name = "cake", .unit = "g", .low = 0.0, .high = 1.1 * heaviest};
    chart.caption = "Squares: weighed. Dashed and shaded: to come, 9 times in 10.";
    return {std::move(chart)};
}

} // namespace lakebound
