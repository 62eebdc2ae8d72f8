#include "lakebound/report/powder_pictures.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/powder_words.hpp"

namespace lakebound {

namespace {

constexpr double hundred = 100.0;
constexpr int powder_curve_points = 60;

/// From `low` to `high` in equal steps, or in equal ratios.
std::vector<double> steps_between(double low, double high, int count, bool by_ratio = false) {
    std::vector<double> values;
    for (int i = 0; i < count; ++i) {
        const double share = static_cast<double>(i) / (count - 1);
        values.push_back(by_ratio ? low * std::pow(high / low, share) : low + (high - low) * share);
    }
    return values;
}

/// 1, 2 or 5 times a power of ten, at least x.
double round_up(double x) {
    const double power = std::pow(10.0, std::floor(std::log10(std::max(x, 1e-9))));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * power >= x * (1.0 - 1e-9)) return step * power;
    return 10.0 * power;
}

page::Mark measured(double x, double y, double u) {
    page::Mark mark{.at = {x, y}};
    if (u > 0.0) mark.nearly_sure = page::Interval{std::max(0.0, y - 1.645 * u), std::min(hundred, y + 1.645 * u)};
    return mark;
}

} // namespace

std::optional<page::Picture> sieve_picture(const SieveAnswer& answer) {
    const auto& rows = answer.analysis.fractions;
    std::vector<page::Mark> marks;
    for (const auto& row : rows)
        if (row.aperture)
            marks.push_back(measured(in_micrometres(*row.aperture), hundred * row.passing.value(),
                                     hundred * row.fraction_uncertainty));
    if (marks.size() < 2) return std::nullopt;
    const double coarsest = marks.front().at.x, finest = marks.back().at.x;
    page::Chart chart{.question = "How much is finer than each screen"};
    chart.x = {.name = "screen", .unit = "um", .low = 0.5 * finest, .high = 2.0 * coarsest,
               .scale = page::Scale::logarithmic};
    for (const auto& mark : marks)
        chart.x.ticks.push_back(mark.at.x);
    chart.y = {.name = "finer", .unit = "%", .low = 0.0, .high = hundred};
    if (answer.best) {
        const auto& fit = answer.fits.at(answer.best->index).fit;
        page::Series seen, below{.stroke = page::Stroke::dashed}, above{.stroke = page::Stroke::dashed};
        for (const double um : steps_between(chart.x.low, chart.x.high, powder_curve_points, true)) {
            const page::Point point{um, hundred * predicted_passing(fit, micrometres(um)).passing.value()};
            (um < finest ? below : um > coarsest ? above : seen).points.push_back(point);
        }
        chart.series = {std::move(seen), std::move(below), std::move(above)};
        chart.caption = fmt::format("Line: the {} curve, dashed where no screen looked. ", word_of(fit.model));
    }
    if (answer.target) {
        const double wanted = hundred * (1.0 - answer.target->allowed_residue.value().value());
        const double um = in_micrometres(answer.target->residue_screen);
        if (um > chart.x.low && um < chart.x.high)
            chart.limits = {{um, fmt::format("wanted {} %", plain_text(wanted)), true}};
    }
    chart.caption += "Bars: 9 times in 10, by the scale alone.";
    chart.marks = std::move(marks);
    return page::Picture{std::move(chart)};
}

page::Picture forecast_picture(const GrindAnswer& answer) {
    page::Chart chart{.question = "What stays over the screen as you grind on"};
    page::Region doubt{.label = "9 in 10"};
    page::Series line;
    double highest = 0.0;
    for (const auto& row : answer.forecast) {
        const double minutes = in_minutes(row.time);
        line.points.push_back({minutes, hundred * row.residue});
        doubt.low.push_back({minutes, hundred * row.interval.low});
        doubt.high.push_back({minutes, hundred * std::min(row.interval.high, 1.0)});
        highest = std::max(highest, hundred * std::min(row.interval.high, 1.0));
    }
    for (const auto& row : answer.rows) {
        chart.marks.push_back(measured(in_minutes(row.time), hundred * row.residue.share.value(),
                                       hundred * std::hypot(row.residue.standard_uncertainty, row.residue.repeatability)));
        highest = std::max(highest, chart.marks.back().at.y);
    }
    // From the first test on, by ratios: the last row lies far beyond the others.
    const double first = std::max(0.5, std::min(chart.marks.front().at.x, line.points.front().x));
    chart.x = {.name = "ground", .unit = "min", .low = 0.8 * first, .high = 1.1 * line.points.back().x,
               .scale = page::Scale::logarithmic};
    chart.y = {.name = "over " + size_text(answer.question.target.residue_screen), .unit = "%", .low = 0.0,
               .high = std::min(hundred, 1.1 * highest)};
    const double allowed = hundred * answer.question.target.allowed_residue.value().value();
    chart.limits = {{allowed, fmt::format("wanted: {} % at most", fixed_text(allowed, 1))}};
    chart.regions = {std::move(doubt)};
    chart.series = {std::move(line)};
    chart.caption = "Squares: your tests. Shaded: 9 times in 10.";
    return {std::move(chart)};
}

page::Picture ways_picture(const GrindAnswer& answer) {
    page::Bars bars{.question = "Ways compared by their work"};
    for (const auto& way : answer.ways) {
        const auto& run = way.plan.run;
        const double pestle = in_minutes(run.grinding), hands = in_minutes(run.hands);
        bars.bars.push_back({plan_words(way.plan),
                             {{pestle, page::Fill::solid}, {std::max(0.0, hands - pestle), page::Fill::hatched}},
                             percent_text(run.through) + " through",
                             rough_time_text(run.hands),
                             &way == &answer.ways.front()});
    }
    bars.caption = "Solid: with the pestle; hatched: other hands.";
    return {std::move(bars)};
}

page::Picture glass_picture(const SettleAnswer& answer) {
    const auto& how = answer.plan.how;
    const double drawn = how.draw_depth / how.total_depth;
    return {page::Glass{.question = "What is poured off",
                        .drawn = drawn,
                        .pour_off = "pour off " + height_text(how.draw_depth),
                        .mark = "mark, " + height_text(how.draw_depth) + " below the water",
                        .stays = "leave " + height_text(how.total_depth - how.draw_depth)}};
}

page::Picture clock_picture(const SettleAnswer& answer) {
    using Doing = page::Clock::Doing;
    page::Clock clock{.question = "Pour-offs by the kitchen clock"};
    const double pour = in_seconds(answer.question.handling.pour);
    double free_from = 0.0;
    for (const auto& step : answer.plan.steps) {
        const double stirred = in_seconds(step.stirred), at = in_seconds(step.pour);
        const auto seconds = std::llround(at);
        clock.spans.push_back({free_from, stirred, Doing::busy, {}});
        clock.spans.push_back({stirred, at, Doing::waiting, {}});
        clock.spans.push_back({at, at + pour, Doing::acting,
                               fmt::format("pour {}: {}:{:02}", step.number, seconds / 60, seconds % 60)});
        free_from = at + pour;
    }
    clock.middle = {"from the", "first fill", "done " + time_text(answer.plan.elapsed)};
    clock.caption = "Hatched: fill and stir; open: wait; solid: pour.";
    return {std::move(clock)};
}

page::Picture blanket_picture(const DecantAnswer& answer) {
    page::Chart chart{.question = "How the blanket sinks"};
    const double end = in_hours(std::max(answer.decant, answer.read)) * 1.15;
    page::Series line;
    for (const double h : steps_between(0.0, end, powder_curve_points))
        line.points.push_back({h, in_millimetres(interface_height(answer.zone, hours(h)))});
    const auto& heights = answer.question.heights;
    const double interval = in_hours(heights.interval), read_to = in_millimetres(answer.question.height_read_to);
    const double read[] = {in_millimetres(heights.first), in_millimetres(heights.second), in_millimetres(heights.third)};
    for (int i = 0; i < 3; ++i) {
        page::Mark mark{.at = {i * interval, read[i]}};
        mark.nearly_sure = page::Interval{read[i] - 1.645 * read_to, read[i] + 1.645 * read_to};
        chart.marks.push_back(std::move(mark));
    }
    const double decant = in_hours(answer.decant);
    chart.marks.push_back({.at = {decant, in_millimetres(interface_height(answer.zone, answer.decant))},
                           .symbol = page::Symbol::diamond,
                           .label = "decant, " + time_text(answer.decant),
                           .dropped = true});
    chart.x = {.name = "from the first reading", .unit = "h", .low = 0.0, .high = end};
    chart.y = {.name = "height", .unit = "mm", .low = 0.0, .high = round_up(read[0])};
    chart.limits = {{in_millimetres(answer.zone.end_height),
                     "ends at " + fixed_text(in_millimetres(answer.zone.end_height), 0) + " mm"}};
    chart.series = {std::move(line)};
    return {std::move(chart)};
}

} // namespace lakebound
