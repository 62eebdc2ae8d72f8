#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/powder_words.hpp"
#include "lakebound/report/settle_report.hpp"
#include "page_builder.hpp"
#include "powder_page.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;
using page::Place;
using page::Shown;
using page::Tone;

/// A kitchen clock started at the first fill: "0:04:43".
std::string clock(Time time) {
    const auto s = std::llround(in_seconds(time));
    return fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

/// The wait as it is kept by the clock: to a second below ten minutes.
std::string wait_text(Time time) {
    const auto s = std::llround(in_seconds(time));
    if (s >= 600 || s < 60) return time_text(time);
    return s % 60 == 0 ? fmt::format("{} min", s / 60) : fmt::format("{} min {} s", s / 60, s % 60);
}

/// A height on a glass is read to a millimetre at best.
std::string whole_millimetres(Length height) { return fixed_text(in_millimetres(height), 0) + " mm"; }

std::string share(double x) { return x > 0.0 && x < 0.0005 ? "< 0.1 %" : fixed_text(x * 100.0, 0) + " %"; }

void head(PageBuilder& page, const SettleAnswer& answer) {
    const auto& how = answer.plan.how;
    page.section("Do this");
    page.box();
    if (answer.too_fast) {
        page.paragraph(
            fmt::format("THIS CANNOT BE DONE BY HAND: after {} the grains are past the mark. Use a screen, "
                        "or a much deeper vessel.",
                        time_text(how.wait)),
            Tone::bad);
        return;
    }
    page.paragraph(
        fmt::format("Stir, wait {}, pour off the top {} of {}, fill up and begin again: {} pour-off{}.",
                    wait_text(how.wait), height_text(how.draw_depth), height_text(how.total_depth), how.pours,
                    how.pours == 1 ? "" : "s"),
        answer.too_slow || answer.brownian ? Tone::plain : Tone::good);
    if (answer.too_slow)
        page.paragraph("LONG WAIT: warmth from one side stirs the water more than grains fall. Keep the glass in a cool, even "
                       "place, or cut coarser.",
                       Tone::care);
    if (answer.brownian)
        page.paragraph("VERY FINE: below about 2 um heat keeps grains afloat, and a lake clumps. Take this as a bound.",
                       Tone::care);
    page.paragraph("Catch every pour-off in a pail: it is the fine part. Let it settle until it is clear, "
                   "decant, and dry what sank.");
    const auto cut = size_text(answer.question.cut);
    page.paragraph(
        answer.effective
            ? fmt::format("What is poured off holds no grain coarser than {}, if all are as open as those you "
                          "timed; what stays holds every grain that is coarser, and some finer ones.",
                          cut)
            : fmt::format("What is poured off holds no solid grain coarser than {}; open clumps may come "
                          "over: time a test to know, see below. What stays holds every solid grain that is "
                          "coarser, and some finer ones.",
                          cut));
    page.paragraph(fmt::format("Put a mark on the glass {} below the water.", height_text(how.draw_depth)));
    page.paragraph(fmt::format("Reckoned for {} % by volume: at most {} of powder to half a litre.",
                               plain_text(answer.question.solids.value() * 100.0),
                               mass_text(answer.powder_per_half_litre)));
}

void clock_times(PageBuilder& page, const SettleAnswer& answer) {
    page.section("Clock, from the first fill", Place::left);
    page::Table table{.caption = "When to stir and when to pour",
                      .columns = {{.head = "pour-off", .align = Align::right, .width = 8},
                                  {.head = "stirred", .align = Align::right, .width = 11},
                                  {.head = "pour off", .align = Align::right, .width = 12, .strong = true}},
                      .tick = true};
    constexpr std::size_t most = 12;
    const auto& steps = answer.plan.steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (i >= most && i + 1 < steps.size()) {
            if (i == most) table.rows.push_back({.cells = {"..."}});
            continue;
        }
        table.rows.push_back(
            {.cells = {std::to_string(steps[i].number), clock(steps[i].stirred), clock(steps[i].pour)}});
    }
    page.add(std::move(table));
    page.paragraph(fmt::format("{} in all, {} with hands on ({} to fill and stir, {} to pour), without the "
                               "settling of the fine part.",
                               time_text(answer.plan.elapsed), time_text(answer.plan.hands),
                               time_text(answer.question.handling.fill_and_stir),
                               time_text(answer.question.handling.pour)));
}

void recovery(PageBuilder& page, const SettleAnswer& answer) {
    page.section("What comes over, size by size");
    const auto pours = answer.plan.how.pours;
    std::vector<unsigned> columns;
    for (unsigned n = 1; n <= pours; ++n)
        if (pours <= 6 || n <= 3 || n == pours || n == pours / 2) columns.push_back(n);
    page::Table table{.caption = "Share poured off, by size",
                      .columns = {{.head = "size", .align = Align::left, .width = 10},
                                  {.head = "falls past in", .align = Align::left, .width = 16}}};
    for (const auto n : columns)
        table.columns.push_back(
            {.head = n == 1 ? "1 pour" : std::to_string(n) + " pours", .align = Align::right, .width = 9});
    for (const auto& row : answer.recovery) {
        page::Row line{.cells = {size_text(row.size), time_text(row.falls)}};
        for (const auto n : columns)
            line.cells.emplace_back(share(row.poured.at(n - 1)));
        table.rows.push_back(std::move(line));
    }
    page.add(std::move(table));
    page.paragraph("Grains near the cut come over slowly: half of them stay, however fine the rest is. Pour "
                   "more often, or "
                   "leave less below the mark.");
}

void combined(PageBuilder& page, const SettleAnswer& answer) {
    if (!answer.levigated) return;
    const auto& l = *answer.levigated;
    page.section("With your sieve test: " + answer.question.sieve->name);
    page::Table table{.caption = "Poured off and left, by class of size",
                      .columns = {{.head = "class", .align = Align::left, .width = 17},
                                  {.head = "share", .align = Align::right, .width = 8},
                                  {.head = "poured off", .align = Align::right, .width = 13},
                                  {.head = "stays", .align = Align::right, .width = 9}}};
    const auto percent = [](double x) { return fixed_text(x * 100.0, 1) + " %"; };
    for (auto row = l.classes.rbegin(); row != l.classes.rend(); ++row) {
        const bool last = row + 1 == l.classes.rend();
        const bool top = row == l.classes.rbegin();
        const auto name = last  ? "below " + size_text(row->of.upper)
                          : top ? "over " + size_text(row->of.lower)
                                : size_text(row->of.lower) + " to " + size_text(row->of.upper);
        table.rows.push_back(
            {.cells = {name, percent(row->of.share.value()), percent(row->poured), percent(row->left)}});
    }
    table.rows.push_back({.cells = {"all", "100 %", percent(l.poured), percent(l.left)}, .total = true});
    page.add(std::move(table));
    const auto masses = masses_of(l, answer.charge);
    page.paragraph(fmt::format("Of {} that is {} poured off and {} back to the mortar.", mass_text(answer.charge),
                               mass_text(masses.poured), mass_text(masses.left)));
    if (answer.carried_on)
        page.paragraph(fmt::format("Below {} no screen looked: there the {} curve is carried on, a guess.",
                                   size_text(answer.carried_on->finest),
                                   word_of(answer.carried_on->model)));
}

void validity(PageBuilder& page, const SettleAnswer& answer) {
    page.section("How far to trust it");
    const auto& q = answer.question;
    std::string grain = fmt::format("Grains of {} ({})", density_text(answer.slurry.grain),
                                    answer.effective ? "by your timed grains" : given_words(q.density.by));
    page.paragraph(
        fmt::format("{} in water of {} degC ({}): a single one of {} falls {} mm/s, among the others {} mm/s.",
                    grain, fixed_text(in_degrees_celsius(q.temperature.value), 0),
                    q.temperature.by == GivenBy::shelf ? "assumed" : given_words(q.temperature.by),
                    size_text(q.cut), significant_text(in_metres_per_second(answer.at_cut.velocity) * 1e3, 2),
                    significant_text(in_metres_per_second(answer.hindered) * 1e3, 2)));
    if (answer.effective) {
        page.paragraph(
            fmt::format("Solid would be {}: water fills about {} of each grain. It is an open clump.",
                        density_text(q.density.value), share(answer.open->value())));
    } else {
        page.paragraph("Open clumps are lighter and fall up to twice as slowly: time a pinch between two near "
                       "screens, and "
                       "give it with --test.");
    }
    if (beyond_stokes(answer.at_cut))
        page.paragraph(
            fmt::format("Reynolds number {}: beyond Stokes' law, corrected for drag (good to 3 % for balls).",
                        significant_text(answer.at_cut.reynolds, 2)));
    else
        page.paragraph(fmt::format("Reynolds number {}: Stokes' law holds, for balls.",
                                   significant_text(answer.at_cut.reynolds, 2)));
    if (answer.crowded)
        page.paragraph("CROWDED: the grains hinder each other by more than a quarter. Use more water.", Tone::care);
    page.paragraph(
        "A lake just precipitated is one flock and does not settle grain by grain: for washing read its height "
        "three times and use --zone. Two degrees warmer make water 5 % thinner: keep to the temperature.");
}

} // namespace

page::Page settle_page(const SettleAnswer& answer) {
    PageBuilder page({.kind = "Levigation", .name = "cut at " + size_text(answer.question.cut),
                      .form = page::TitleForm::after_colon, .slip = {{"Worked by", {}, true}}});
    head(page, answer);
    if (!answer.too_fast) {
        clock_times(page, answer);
        for (auto& picture : {glass_picture(answer), clock_picture(answer)}) {
            auto& section = page.section({}, Place::right);
            section.shown = Shown::html_only;
            section.keep_together = true;
            page.add(picture);
        }
        recovery(page, answer);
        combined(page, answer);
    }
    validity(page, answer);
    layout::add_powder_cautions(page, PowderWork::settling);
    return std::move(page).page();
}

std::string settle_text(const SettleAnswer& answer, const TextOptions& options) {
    return page::write_text(settle_page(answer), options);
}

page::Page decant_page(const DecantAnswer& answer) {
    PageBuilder page({.kind = "Decanting", .name = answer.question.name, .form = page::TitleForm::after_colon,
                      .slip = {{"Worked by", {}, true}}});
    page.section("Do this");
    page.box();
    const Time read = answer.read, left = answer.wait;
    if (in_seconds(left) <= 0.0)
        page.paragraph(fmt::format("Decant now: the blanket is within {} of where it ends.",
                                   percent_text(answer.question.within.value())),
                       Tone::good);
    else
        page.paragraph(fmt::format("Decant {} after the first reading, {} after the third.",
                                   time_text(answer.decant), time_text(left)),
                       Tone::good);
    const char* then = in_seconds(left) > 0.0 ? "then " : "";
    if (in_metres(answer.drawn) > 0.0)
        page.paragraph(fmt::format(
            "The blanket {}stands at {}: draw the water down to {} and no further, a finger above it. That "
            "is the top {} of the first {}.",
            then, whole_millimetres(answer.blanket), whole_millimetres(answer.draw_to),
            whole_millimetres(answer.drawn), height_text(answer.zone.first)));
    else
        page.paragraph(fmt::format("The blanket {}stands at {}, within a finger of the first {}: there is too "
                                   "little clear water to pour off.",
                                   then, whole_millimetres(answer.blanket), height_text(answer.zone.first)));
    const auto& sure = answer.interval;
    page.paragraph(fmt::format(
        "Left alone it would end at {}, 9 times in 10 between {} and {}; the time to decant lies between {} and {}. "
        "Heights are from the bottom.",
        whole_millimetres(answer.zone.end_height), fixed_text(sure.end_height_m.low * 1e3, 0),
        whole_millimetres(metres(sure.end_height_m.high)), time_text(sure.decant_low),
        sure.decant_high ? time_text(*sure.decant_high) : "nobody knows: it may still be falling evenly"));
    page.section("Height of the blanket, from the first reading", Place::left);
    page::Table table{.caption = "Height of the blanket, read and by the curve",
                      .columns = {{.head = "time", .align = Align::left, .width = 12},
                                  {.head = "read", .align = Align::right, .width = 9},
                                  {.head = "curve", .align = Align::right, .width = 9}}};
    const std::vector<std::pair<Time, std::string>> rows{
        {Time{}, height_text(answer.question.heights.first)},
        {answer.question.heights.interval, height_text(answer.question.heights.second)},
        {read, height_text(answer.question.heights.third)},
        {std::max(answer.decant, read), "decant"}};
    for (const auto& [time, seen] : rows)
        table.rows.push_back({.cells = {time_text(time), seen, whole_millimetres(interface_height(answer.zone, time))}});
    page.add(std::move(table));
    page.paragraph(fmt::format(
        "It slows with a time of {}. Three readings rest on small differences, each taken as sure to ± {} "
        "({}). Read a fourth time to be sure.",
        time_text(answer.zone.tau), height_text(answer.question.height_read_to), given_words(GivenBy::shelf)));
    auto& curve = page.section({}, Place::right);
    curve.shown = Shown::html_only;
    curve.keep_together = true;
    page.add(blanket_picture(answer));
    layout::add_powder_cautions(page, PowderWork::settling);
    return std::move(page).page();
}

std::string decant_text(const DecantAnswer& answer, const TextOptions& options) {
    return page::write_text(decant_page(answer), options);
}

} // namespace lakebound
