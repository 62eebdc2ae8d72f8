#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/report/grind_report.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/powder_words.hpp"
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

/// As rough_time_text has it, in minutes.
std::string rough_minutes(Time time) {
    const double m = in_minutes(time);
    return fmt::format("{:.0f} min", m < 60.0 ? m : 5.0 * std::round(m / 5.0));
}

std::string percent(double share) { return fixed_text(share * 100.0, share < 0.0995 ? 1 : 0) + " %"; }

std::string allowed_text(const GrindAnswer& answer) {
    return fixed_text(answer.question.target.allowed_residue.value().value() * 100.0, 1) + " %";
}

std::string screen_text(const GrindAnswer& answer) {
    return size_text(answer.question.target.residue_screen);
}

std::string range_text(const PredictedTime& t) {
    if (!t.high) return fmt::format("not before {}, and perhaps never", rough_time_text(t.low));
    return fmt::format("between {} and {}", rough_time_text(t.low), rough_time_text(*t.high));
}

std::string rounds_word(unsigned n) { return fmt::format("{} round{}", n, n == 1 ? "" : "s"); }

/// "4 to 7 rounds", "4 rounds", "4 rounds or more".
std::string needed_text(const RoundsNeeded& needed) {
    if (!needed.high) return rounds_word(needed.low) + " or more";
    if (*needed.high == needed.low) return rounds_word(needed.low);
    return fmt::format("{} to {} rounds", needed.low, *needed.high);
}

/// "Grind 8 min, wash the powder through 45 um, dry what stays and put it back."
std::string what_to_do(const GrindAnswer& answer, const GrindWay& way) {
    const auto screen = screen_text(answer);
    std::string separate, back;
    switch (way.separation.kind) {
    case ScreeningAdvice::dry_sieving:
        separate = "sieve it dry through " + screen;
        back = "put what stays back";
        break;
    case ScreeningAdvice::wet_screening:
        separate = "wash it through " + screen + " into a pail";
        back = "dry what stays and put it back";
        break;
    case ScreeningAdvice::levigation:
        separate = fmt::format("levigate it at {} into a pail (4 pour-offs; lakebound-settle gives the clock)",
                               screen);
        back = "dry what sank and put it back";
        break;
    }
    const auto grinds = static_cast<unsigned>(grinds_of(way));
    if (!way.plan.in_rounds)
        return fmt::format("Grind {} more without a stop, then {} once.", rough_time_text(way.plan.run.grinding), separate);
    std::string text;
    if (way.separate_first)
        text = layout::capitalised(separate) + " first, as it is: part of it is fine already. Then grind ";
    else
        text = "Grind ";
    text += fmt::format("{}, {}, {}", time_text(way.plan.cycle), separate, back);
    if (way.needed && (!way.needed->high || *way.needed->high > way.needed->low))
        return text + fmt::format("; {} in all, {} most likely.", needed_text(*way.needed), grinds);
    return text + (grinds == 1 ? "; once is enough." : fmt::format("; {} rounds in all.", grinds));
}

/// The one weighing that tells the rounds that are left.
void ask_for_weighing(PageBuilder& page, const GrindAnswer& answer, const GrindWay& way) {
    const auto stays = masses_after_two(way, answer.charge);
    if (!stays || !way.needed) return;
    if (way.needed->high && *way.needed->high == way.needed->low) return;
    page.paragraph(fmt::format(
        "How many rests on how much faster your mortar grinds when emptier, which is a guess. Weigh what stays "
        "after the second round, dry: near {} few rounds are left, near {} many. Then run this again with",
        mass_text(stays->low), mass_text(stays->high)));
    page.add(page::Command{fmt::format("--stays \"... g after 2 rounds of {}\"", time_text(way.plan.cycle))});
}

void rounds_left(PageBuilder& page, const GrindAnswer& answer) {
    const auto& left = *answer.rounds_left;
    if (!left.more)
        page.paragraph(fmt::format("NOT IN {} ROUNDS of {}, by what you weighed: grind longer between two separations, or go another way.",
                                   most_grinding_rounds, time_text(left.weighed.cycle)),
                       Tone::bad);
    else if (*left.more == 0)
        page.paragraph("STOP after these: by what you weighed it is fine enough now.", Tone::good);
    else
        page.paragraph(fmt::format("GO ON: {} more of {} most likely; {} 9 times in 10.",
                                   rounds_word(*left.more), time_text(left.weighed.cycle),
                                   needed_text(left.range)),
                       Tone::good);
    page.paragraph(fmt::format("You weighed {} after {}: an emptier mortar of yours grinds faster as 1/load^{}.",
                               mass_text(left.weighed.stays), rounds_word(left.weighed.rounds),
                               ratio_text(left.exponent)));
    if (left.beyond_model)
        page.paragraph("No mortar of the model leaves that: was the charge that of the last sieve test, and was what "
                       "stays dry?",
                       Tone::care);
}

/// Where the pigment goes: it is the part that leaves, and the water looks like something to throw away.
std::string keep_the_fine_part(const GrindWay& way) {
    if (!fine_part_in_water(way))
        return "What comes through is the pigment: empty the pan into its jar after each sieving.";
    return "KEEP THE WATER: it carries the fine pigment. Let the pail settle until it is clear, decant, and "
           "dry what sank.";
}

void head(PageBuilder& page, const GrindAnswer& answer) {
    const auto& target = answer.question.target;
    page.section().heading_shown = false;
    if (answer.slowing)
        page.add(page::Watch{"IT IS SLOWING: fines cushion the grains, or the mortar is overfull. The times below reckon "
                             "with it; take the fines out often, charge less, and sieve after each round."});
    page.paragraph(fmt::format("Wanted: at most {} over {}, for {}. Now, after {}: {}.", allowed_text(answer),
                               screen_text(answer), target.name, time_text(answer.now),
                               residue_text(answer.rows.back().residue, answer.rows.back().with_loss)));
    if (const auto doubt = residue_doubt_text(answer.rows.back().residue, answer.rows.back().with_loss);
        !doubt.empty())
        page.paragraph(layout::capitalised(doubt) + ".");
}

void plan(PageBuilder& page, const GrindAnswer& answer) {
    page.section("Do this");
    page.box();
    if (answer.fine_already) {
        page.paragraph(
            "STOP: it is fine enough on this screen already. More grinding only changes the oil absorption.", Tone::good);
        return;
    }
    if (answer.ways.empty()) {
        page.paragraph("GRINDING WILL NOT GET THERE by any of the ways tried.", Tone::bad);
        for (const auto& reason : answer.out_of_reach)
            page.item(layout::capitalised(reason) + ".");
        return;
    }
    const auto& best = answer.ways.front();
    const auto& run = best.plan.run;
    if (answer.rounds_left) {
        rounds_left(page, answer);
        page.paragraph("From the beginning, for a charge not yet weighed so, the plan is:");
    }
    page.paragraph(what_to_do(answer, best), Tone::good);
    if (!answer.rounds_left) ask_for_weighing(page, answer, best);
    page.paragraph(keep_the_fine_part(best), fine_part_in_water(best) ? Tone::care : Tone::plain);
    page.paragraph(fmt::format(
        "Hands {}, of which {} with the pestle; {} from start to end{}.",
        rough_time_text(run.hands), rough_time_text(run.grinding), rough_time_text(run.elapsed),
        fine_part_in_water(best) ? ", without the settling and drying of the fine part" : ""));
    const auto masses = masses_of(run, answer.charge);
    page.paragraph(
        fmt::format("Of {} about {} comes through, {} is lost and {} stays over the screen and in the mortar.",
                    mass_text(answer.charge), mass_text(masses.through), mass_text(masses.lost), mass_text(masses.remains)));
    const auto wanted = answer.question.target.grain.value();
    const Length depth = answer.question.habits.water_depth.value();
    if (answer.question.target.wants_finer_than_screen())
        page.paragraph(
            fmt::format("Then stop sieving; clumps of a lake also break under the muller. Grains between {} "
                        "and {} are parted in water, here with {} of it:",
                        size_text(wanted), screen_text(answer), quantity_text(depth, "mm")));
    if (answer.question.target.wants_finer_than_screen())
        page.add(page::Command{settle_command(depth, wanted, answer.density.value)});
}

void compare(PageBuilder& page, const GrindAnswer& answer) {
    if (answer.ways.empty()) return;
    page.section("Ways compared");
    page::Table table{.caption = "Ways to get there, least hands first",
                      .columns = {{.head = "way", .align = Align::left, .width = 35},
                                  {.head = "rounds", .align = Align::right, .width = 10},
                                  {.head = "pestle", .align = Align::right, .width = 8},
                                  {.head = "hands", .align = Align::right, .width = 8},
                                  {.head = "in all", .align = Align::right, .width = 8},
                                  {.head = "through", .align = Align::right, .width = 9}}};
    for (const auto& way : answer.ways) {
        const auto& run = way.plan.run;
        const double all = in_hours(run.elapsed);
        table.rows.push_back(
            {.cells = {plan_words(way.plan) + (way.own ? " (yours)" : ""),
                       way.plan.in_rounds ? fmt::format("{} x {:.0f} min", grinds_of(way), in_minutes(way.plan.cycle))
                                          : std::string("1"),
                       rough_minutes(run.grinding), rough_minutes(run.hands),
                       all < 48.0 ? fmt::format("{:.0f} h", std::max(1.0, all)) : fmt::format("{:.0f} d", all / 24.0),
                       percent(run.through)}});
    }
    page.add(std::move(table));
    for (const auto& reason : answer.out_of_reach)
        page.paragraph("Out of reach: " + reason + ".");
    const auto& habits = answer.question.habits;
    const auto& say = answer.question.say;
    page.paragraph(fmt::format(
        "Taken: {} lost at each separation ({}); a dry screen lets {} of what is finer through, a wet one {} "
        "({}); {} of hands to sieve or wash once; {} to dry; an emptier mortar grinds faster as 1/load^{} ({}: 0 is "
        "not at all, 1 in proportion); grains of {} ({}).",
        percent_text(answer.loss.value.value()),
        answer.loss.by == GivenBy::sieve_tests ? "as your tests lost" : given_words(answer.loss.by),
        percent_text(habits.dry_efficiency.value().value()), percent_text(habits.wet_efficiency.value().value()),
        word_of(habits.dry_efficiency.provenance().origin),
        say.handling ? time_text(*say.handling)
                     : fmt::format("{} dry or {} wet", time_text(habits.dry_handling.value()),
                                   time_text(habits.wet_handling.value())),
        time_text(say.drying.value_or(habits.drying.value())), ratio_text(answer.emptier_is_faster.value.value()),
        given_words(answer.emptier_is_faster.by), density_text(answer.density.value),
        answer.density.by == GivenBy::shelf ? "an estimate for an alumina lake" : given_words(answer.density.by)));
}

void long_grind(PageBuilder& page, const GrindAnswer& answer) {
    if (answer.fine_already) return;
    if (!answer.one_long_grind) {
        page.paragraph("Without a separation the target is out of reach: " + answer.why_no_time + ".", Tone::care);
        return;
    }
    const auto& t = *answer.one_long_grind;
    page.paragraph(
        fmt::format("Without any separation {} is reached after {} on the clock of your tests, {} from now; 9 "
                    "times in 10 {}.",
                    allowed_text(answer), rough_time_text(t.time), rough_time_text(answer.long_grind_left), range_text(t)));
}

void pictures(PageBuilder& page, const GrindAnswer& answer) {
    const auto beside = [&page](Place place, page::Picture picture) {
        auto& section = page.section({}, place);
        section.shown = Shown::html_only;
        section.split = page::Split::even;
        section.keep_together = true;
        page.add(std::move(picture));
    };
    if (!answer.ways.empty()) beside(Place::left, ways_picture(answer));
    beside(Place::right, forecast_picture(answer));
}

void tests(PageBuilder& page, const GrindAnswer& answer) {
    page.section("Your tests");
    page::Table table{.caption = "What your sieve tests say",
                      .columns = {{.head = "ground", .align = Align::left, .width = 13},
                                  {.head = "over " + screen_text(answer), .align = Align::left, .width = 15},
                                  {.head = "scale alone", .align = Align::left, .width = 13},
                                  {.head = "with the loss", .align = Align::left, .width = 19},
                                  {.head = "half is finer than", .align = Align::left}}};
    for (const auto& row : answer.rows) {
        page::Row line{.cells = {time_text(row.time), residue_text(row.residue, row.with_loss), scale_text(row.residue),
                                 row.with_loss ? loss_range_text(row.residue, *row.with_loss) : "-"}};
        if (row.d50) {
            const char* sign = row.d50->reach == Reach::within         ? ""
                               : row.d50->reach == Reach::below_finest ? "< "
                                                                       : "> ";
            line.cells.emplace_back(sign + size_text(row.d50->size));
        }
        table.rows.push_back(std::move(line));
    }
    page.add(std::move(table));
    for (const auto& check : answer.later) {
        const auto seen = fmt::format("After {} the first two tests foresee {} over {}, and {} was there",
                                      time_text(check.time), percent(check.predicted), screen_text(answer),
                                      percent(check.observed));
        if (check.slowing)
            page.paragraph(
                seen +
                    ": more than such tests leave to chance. It is slowing.",
                Tone::care);
        else if (check.faster)
            page.paragraph(seen + ": faster than it should. Do these tests belong together?", Tone::care);
        else
            page.paragraph(seen + "; the difference lies within what such tests can tell.");
    }
}

void forecast(PageBuilder& page, const GrindAnswer& answer) {
    page.section("Forecast of one grind without separation");
    const bool balance = answer.fit.has_value();
    page::Table table{.caption = "Forecast of one grind without separation",
                      .columns = {{.head = "ground", .align = Align::left, .width = 12}}};
    if (balance)
        for (const auto& screen : answer.screens)
            table.columns.push_back({.head = "< " + number_text(std::round(in_micrometres(screen) * 10.0) / 10.0),
                                     .align = Align::right,
                                     .width = 7});
    table.columns.push_back({.head = "over " + screen_text(answer), .align = Align::right, .width = 13});
    table.columns.push_back({.head = "9 in 10", .align = Align::right, .width = 15});
    for (const auto& row : answer.forecast) {
        page::Row line{.cells = {time_text(row.time)}};
        if (balance)
            for (const double passing : row.passing)
                line.cells.emplace_back(fixed_text(passing * 100.0, 0) + " %");
        line.cells.emplace_back(percent(row.residue));
        line.cells.emplace_back(fmt::format("{} to {} %", fixed_text(row.interval.low * 100.0, 1),
                                            fixed_text(row.interval.high * 100.0, 1)));
        table.rows.push_back(std::move(line));
    }
    page.add(std::move(table));
    if (answer.forecast_far)
        page.paragraph("The last rows lie far beyond your tests. Sieve again half way and run this anew.");
}

void cushioning(PageBuilder& page, const GrindAnswer& answer) {
    if (!answer.cushioning_range) return;
    page.paragraph(fmt::format(
        "Cushioning: rates divided by 1 + {} times the fine share ({} to {}, 9 in 10). {}", fixed_text(answer.cushioning, 1),
        fixed_text(answer.cushioning_range->low, 1), fixed_text(answer.cushioning_range->high, 1),
        answer.rows.size() < 3 ? "Two tests cannot tell it: it is a guess until a third."
                               : "0 is grinding that does not slow."));
}

void model(PageBuilder& page, const GrindAnswer& answer) {
    page.section("How it was reckoned");
    if (answer.fit) {
        const auto& m = answer.fit->model;
        page.paragraph(fmt::format(
            "Population balance: each class of size loses its mass in proportion (selection) and "
            "gives it to the finer ones in fixed shares (breakage); fines may slow all of it (cushioning). Fitted to "
            "{} tests of {} screens with a prior for the two exponents and the cushioning (an estimate); 9 in 10 by "
            "{} redrawn sets of tests.",
            answer.rows.size(), answer.screens.size(), answer.fit->draws.size()));
        page.paragraph(fmt::format(
            "Top class broken at {}/min ({} to {}), falling with size to the power {} ({} to {}); "
            "fragments finer than a size grow as its power {} ({} to {}).",
            significant_text(in_per_minute(m.selection.top), 2),
            significant_text(answer.rate_per_minute->low, 2),
            significant_text(answer.rate_per_minute->high, 2), ratio_text(m.selection.exponent),
            ratio_text(answer.selection_exponent->low), ratio_text(answer.selection_exponent->high),
            ratio_text(m.breakage.gamma), ratio_text(answer.breakage_exponent->low),
            ratio_text(answer.breakage_exponent->high)));
        cushioning(page, answer);
        return;
    }
    page.paragraph(fmt::format(
        "The one-screen law, because {}: what stays on {} falls by {} each minute while nothing cushions it. It says "
        "nothing of other screens. The interval takes sieving to repeat to {} of the charge at half and half ({}).",
        answer.why_one_screen, screen_text(answer),
        fixed_text(100.0 * uncushioned_passing(*answer.law, minutes(1)).value(), 1) + " %",
        percent_text(answer.question.habits.sieving_repeats_to.value().value()),
        word_of(answer.question.habits.sieving_repeats_to.provenance().origin)));
    cushioning(page, answer);
}

} // namespace

page::Page grind_page(const GrindAnswer& answer) {
    PageBuilder page({.kind = "Grinding plan", .name = answer.rows.back().name, .form = page::TitleForm::after_colon,
                      .slip = {{"Worked by", {}, true}}});
    head(page, answer);
    plan(page, answer);
    long_grind(page, answer);
    compare(page, answer);
    pictures(page, answer);
    tests(page, answer);
    forecast(page, answer);
    model(page, answer);
    page.section("Afterwards");
    page.paragraph(
        "New surface drinks more oil: repeat the rub-out after the last grind, before you size a batch. Weigh "
        "the jar again; finer powder is fluffier and wants a larger one.");
    layout::add_powder_cautions(page, PowderWork::grinding);
    return std::move(page).page();
}

std::string grind_text(const GrindAnswer& answer, const TextOptions& options) {
    return page::write_text(grind_page(answer), options);
}

} // namespace lakebound
