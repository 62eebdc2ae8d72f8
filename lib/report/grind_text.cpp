#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/number.hpp"
#include "lakebound/report/powder_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::Page;
using layout::Tone;

std::string percent(double share) { return fixed_text(share * 100.0, share < 0.0995 ? 1 : 0) + " %"; }

std::string allowed_text(const GrindSubject& subject) {
    return fixed_text(subject.question.target.allowed_residue.value().value() * 100.0, 1) + " %";
}

std::string screen_text(const GrindSubject& subject) {
    return size_text(subject.question.target.residue_screen);
}

std::string range_text(const GrindTime& t) {
    if (!t.high) return fmt::format("not before {}, and perhaps never", time_text(t.low));
    return fmt::format("between {} and {}", time_text(t.low), time_text(*t.high));
}

/// "Grind 8 min, wash the powder through 45 um, dry what stays and put it back."
std::string what_to_do(const GrindSubject& subject, const GrindWay& way) {
    const auto screen = screen_text(subject);
    const auto& run = way.plan.run;
    std::string separate, back;
    if (way.separation.name == "dry sieving") {
        separate = "sieve it dry through " + screen;
        back = "put what stays back";
    } else if (way.separation.name == "wet screening") {
        separate = "wash it through " + screen + " into a pail";
        back = "dry what stays and put it back";
    } else {
        separate = fmt::format("levigate it at {} into a pail (4 pour-offs; lakebound-settle gives the clock)",
                               screen);
        back = "dry what sank and put it back";
    }
    const auto grinds = run.rounds.size() - (way.separate_first ? 1U : 0U);
    if (!way.plan.in_rounds)
        return fmt::format("Grind {}{} more without a stop, then {} once.", subject.slowing ? "at least " : "",
                           time_text(run.grinding), separate);
    std::string text;
    if (way.separate_first)
        text = layout::capitalised(separate) + " first, as it is: part of it is fine already. Then grind ";
    else
        text = "Grind ";
    text += fmt::format("{}, {}, {}", time_text(way.plan.cycle), separate, back);
    if (subject.slowing) return text + fmt::format("; at least {} round{}.", grinds, grinds == 1 ? "" : "s");
    return text + (grinds == 1 ? "; once is enough." : fmt::format("; {} rounds in all.", grinds));
}

/// Where the pigment goes: it is the part that leaves, and the water looks like something to throw away.
std::string keep_the_fine_part(const GrindWay& way) {
    if (!fine_part_in_water(way))
        return "What comes through is the pigment: empty the pan into its jar after each sieving.";
    return "KEEP THE WATER: it carries the fine pigment. Let the pail settle until it is clear, decant, and "
           "dry what sank.";
}

void head(Page& page, const GrindSubject& subject) {
    const auto& target = subject.question.target;
    page.line("GRINDING PLAN: " + subject.rows.back().name, Tone::heading);
    page.paragraph(fmt::format("Wanted: at most {} over {}, for {}. Now, after {}: {}.", allowed_text(subject),
                               screen_text(subject), target.name, time_text(subject.now),
                               residue_text(subject.rows.back().residue, subject.rows.back().with_loss)));
    if (const auto doubt = residue_doubt_text(subject.rows.back().residue, subject.rows.back().with_loss);
        !doubt.empty())
        page.paragraph(layout::capitalised(doubt) + ".");
}

void plan(Page& page, const GrindSubject& subject) {
    page.heading("Do this");
    if (subject.fine_already) {
        page.paragraph(
            "STOP: it is fine enough on this screen already. More grinding only changes the oil absorption.", 2,
            Tone::good);
        return;
    }
    if (subject.ways.empty()) {
        page.paragraph("GRINDING WILL NOT GET THERE by any of the ways tried.", 2, Tone::bad);
        for (const auto& reason : subject.out_of_reach)
            page.item("-", layout::capitalised(reason) + ".");
        return;
    }
    const auto& best = subject.ways.front();
    const auto& run = best.plan.run;
    if (subject.slowing)
        page.paragraph(
            "IT IS SLOWING, as YOUR TESTS below show: the times below are the least it can take. Sieve after "
            "each round, and run this anew with what you find.",
            2, Tone::care);
    page.paragraph(what_to_do(subject, best), 2, Tone::good);
    page.paragraph(keep_the_fine_part(best), 2, fine_part_in_water(best) ? Tone::care : Tone::plain);
    page.paragraph(fmt::format(
        "Hands {}{}, of which {} with the pestle; {} from start to end{}.", subject.slowing ? "at least " : "",
        time_text(run.hands), time_text(run.grinding), time_text(run.elapsed),
        fine_part_in_water(best) ? ", without the settling and drying of the fine part" : ""));
    page.paragraph(
        fmt::format("Of {} about {} comes through, {} is lost and {} stays over the screen and in the mortar.",
                    mass_text(subject.charge), mass_text(run.through * subject.charge),
                    mass_text(run.lost * subject.charge), mass_text(run.remains * subject.charge)));
    const auto wanted = subject.question.target.grain.value();
    if (wanted < subject.question.target.residue_screen)
        page.paragraph(
            fmt::format("Then stop sieving; clumps of a lake also break under the muller. Grains between {} "
                        "and {} are parted in water, here with 100 mm of it:",
                        size_text(wanted), screen_text(subject)));
    if (wanted < subject.question.target.residue_screen)
        page.line("    " + settle_command(wanted, subject.density));
}

void compare(Page& page, const GrindSubject& subject) {
    if (subject.ways.empty()) return;
    page.heading("Ways compared");
    page.line("  way                                    rounds  pestle   hands  in all  through");
    for (const auto& way : subject.ways) {
        const auto& run = way.plan.run;
        const auto grinds = run.rounds.size() - (way.separate_first ? 1U : 0U);
        std::string name = way.plan.name + (way.own ? " (yours)" : "");
        std::string line = "  " + layout::padded(name, 35);
        line += layout::right_aligned(
            way.plan.in_rounds ? fmt::format("{} x {:.0f} min", grinds, in_minutes(way.plan.cycle)) : "1", 10);
        line += layout::right_aligned(fmt::format("{:.0f} min", in_minutes(run.grinding)), 8);
        line += layout::right_aligned(fmt::format("{:.0f} min", in_minutes(run.hands)), 8);
        const double all = in_hours(run.elapsed);
        line += layout::right_aligned(
            all < 48.0 ? fmt::format("{:.0f} h", std::max(1.0, all)) : fmt::format("{:.0f} d", all / 24.0), 8);
        line += layout::right_aligned(percent(run.through), 9);
        page.line(line);
    }
    for (const auto& reason : subject.out_of_reach)
        page.paragraph("Out of reach: " + reason + ".");
    const auto& habits = subject.question.habits;
    page.paragraph(fmt::format(
        "Taken: {} lost at each separation ({}); {} of hands to sieve or wash once; {} to dry; "
        "an emptier mortar grinds faster as 1/load^{} (an estimate: 0 is not at all, 1 in "
        "proportion); grains of {} ({}).",
        percent_text(subject.loss.value()), subject.loss_origin,
        habits.handling ? time_text(*habits.handling) : "4 min dry or 10 min wet", time_text(habits.drying),
        number_text(habits.load_exponent), density_text(subject.density), subject.density_origin));
}

void long_grind(Page& page, const GrindSubject& subject) {
    if (subject.fine_already) return;
    if (!subject.one_long_grind) {
        page.paragraph("Without a separation the target is out of reach: " + subject.why_no_time + ".", 2,
                       Tone::care);
        return;
    }
    const auto& t = *subject.one_long_grind;
    const Time from_now = std::max(t.time - subject.now, Time{});
    if (subject.slowing) {
        page.paragraph(fmt::format(
            "Without any separation {} is reached after {} on the clock of your tests at the earliest, {} "
            "from now.",
            allowed_text(subject), time_text(t.time), time_text(from_now)));
        return;
    }
    page.paragraph(
        fmt::format("Without any separation {} is reached after {} on the clock of your tests, {} from now; 9 "
                    "times in 10 {}.",
                    allowed_text(subject), time_text(t.time), time_text(from_now), range_text(t)));
}

void tests(Page& page, const GrindSubject& subject) {
    page.heading("Your tests");
    page.line("  ground       over " + layout::padded(screen_text(subject), 10) +
              "scale alone  with the loss      half is finer than");
    for (const auto& row : subject.rows) {
        std::string line =
            "  " + layout::padded(time_text(row.time), 13) +
            layout::padded(residue_text(row.residue, row.with_loss), 15) +
            layout::padded(scale_text(row.residue), 13) +
            layout::padded(row.with_loss ? loss_range_text(row.residue, *row.with_loss) : "-", 19);
        if (row.d50) {
            const char* sign = row.d50->reach == Reach::within         ? ""
                               : row.d50->reach == Reach::below_finest ? "< "
                                                                       : "> ";
            line += sign + size_text(row.d50->size);
        }
        page.line(line);
    }
    for (const auto& check : subject.later) {
        const auto seen = fmt::format("After {} the first two tests foresee {} over {}, and {} was there",
                                      time_text(check.time), percent(check.predicted), screen_text(subject),
                                      percent(check.observed));
        if (check.slowing)
            page.paragraph(
                seen +
                    ": IT IS SLOWING. Fines cushion the grains, or the mortar is overfull. Take the fines out "
                    "more often and charge less; the times here are likely too short.",
                2, Tone::care);
        else if (check.faster)
            page.paragraph(seen + ": faster than it should. Do these tests belong together?", 2, Tone::care);
        else
            page.paragraph(seen + "; the difference lies within what such tests can tell.");
    }
}

void forecast(Page& page, const GrindSubject& subject) {
    page.heading("Forecast of one grind without separation");
    std::string line = "  " + layout::padded("ground", 12);
    const bool balance = subject.fit.has_value();
    if (balance)
        for (const auto& screen : subject.screens)
            line +=
                layout::right_aligned("< " + number_text(std::round(in_micrometres(screen) * 10.0) / 10.0), 7);
    line += layout::right_aligned("over " + screen_text(subject), 13);
    if (balance && !subject.slowing) line += layout::right_aligned("9 in 10", 15);
    page.line(line);
    for (const auto& row : subject.forecast) {
        line = "  " + layout::padded(time_text(row.time), 12);
        if (balance)
            for (const double passing : row.passing)
                line += layout::right_aligned(fixed_text(passing * 100.0, 0) + " %", 7);
        line += layout::right_aligned(percent(row.residue), 13);
        if (row.interval)
            line += layout::right_aligned(fmt::format("{} to {} %", fixed_text(row.interval->low * 100.0, 1),
                                                      fixed_text(row.interval->high * 100.0, 1)),
                                          15);
        page.line(line);
    }
    if (balance && subject.one_long_grind && subject.forecast.back().time > 3.0 * subject.now)
        page.paragraph("The last rows lie far beyond your tests. Sieve again half way and run this anew.");
}

void model(Page& page, const GrindSubject& subject) {
    page.heading("How it was reckoned");
    if (subject.fit) {
        const auto& m = subject.fit->model;
        page.paragraph(fmt::format(
            "Population balance: each class of size loses its mass in proportion (selection) and "
            "gives it to the finer ones in fixed shares (breakage). Fitted to {} tests of {} screens "
            "with a prior for the two exponents (an estimate); {}.",
            subject.rows.size(), subject.screens.size(),
            subject.slowing
                ? std::string("the model has no slowing in it, so no forecast here holds 9 times in 10")
                : fmt::format("9 in 10 by {} redrawn sets of tests", subject.fit->draws.size())));
        page.paragraph(fmt::format(
            "Top class broken at {}/min ({} to {}), falling with size to the power {} ({} to {}); "
            "fragments finer than a size grow as its power {} ({} to {}).",
            significant_text(in_per_minute(m.selection.top), 2),
            significant_text(subject.rate_per_minute->low, 2),
            significant_text(subject.rate_per_minute->high, 2), ratio_text(m.selection.exponent),
            ratio_text(subject.selection_exponent->low), ratio_text(subject.selection_exponent->high),
            ratio_text(m.breakage.gamma), ratio_text(subject.breakage_exponent->low),
            ratio_text(subject.breakage_exponent->high)));
        return;
    }
    page.paragraph(fmt::format(
        "The one-screen law, because {}: what stays on {} falls by {} each minute. It says nothing "
        "of other screens. {}",
        subject.why_one_screen, screen_text(subject),
        fixed_text(100.0 * (1.0 - std::exp(-in_per_minute(subject.law->rate))), 1) + " %",
        subject.slowing ? "The law has no slowing in it, so no time here holds 9 times in 10."
                        : "The interval takes sieving to repeat to 1 % of the charge (an estimate)."));
}

} // namespace

std::string grind_text(const GrindSubject& subject, const TextOptions& options) {
    Page page(options.colour);
    head(page, subject);
    plan(page, subject);
    long_grind(page, subject);
    compare(page, subject);
    tests(page, subject);
    forecast(page, subject);
    model(page, subject);
    page.heading("Afterwards");
    page.paragraph(
        "New surface drinks more oil: repeat the rub-out after the last grind, before you size a batch. Weigh "
        "the jar again; finer powder is fluffier and wants a larger one.");
    page.heading("Cautions");
    for (const auto& caution : powder_cautions(PowderWork::grinding))
        page.item(layout::padded(caution.subject, 13), caution.text);
    return page.text();
}

std::string mull_text(const MullSubject& subject, const TextOptions& options) {
    Page page(options.colour);
    const auto& readings = subject.question.readings;
    page.line("MULLING", Tone::heading);
    page.heading("Do this");
    if (subject.out_of_reach)
        page.paragraph(
            fmt::format(
                "{} IS OUT OF REACH: no mulling goes below {}. A muller opens clumps, it does not break "
                "grains: back to the mortar, or levigate.",
                size_text(*subject.question.target), size_text(subject.mulling.end)),
            2, Tone::bad);
    const bool past = in_seconds(subject.more_to_stop) <= 0.0;
    if (subject.more_to_target) {
        const auto target = size_text(*subject.question.target);
        const Time more = *subject.more_to_target;
        if (in_seconds(more) <= 0.0)
            page.paragraph("STOP: " + target + " is reached.", 2, Tone::good);
        else
            page.paragraph(fmt::format("Mull {} more, to {} in all: {} is reached then.", time_text(more),
                                       time_text(subject.so_far + more), target),
                           2, Tone::good);
        page.paragraph(
            past ? std::string("Ten more minutes gain less than 2 um, which is all the gauge can tell.")
                 : fmt::format("After {} in all, ten minutes gain less than 2 um, which is all the "
                               "gauge can tell.",
                               time_text(subject.stop)));
    } else if (past) {
        page.paragraph("STOP: ten more minutes gain less than 2 um, which is all the gauge can tell.", 2,
                       Tone::good);
    } else {
        page.paragraph(fmt::format("Mull {} more, to {} in all; after that ten minutes gain less than 2 um.",
                                   time_text(subject.more_to_stop), time_text(subject.stop)),
                       2, subject.out_of_reach ? Tone::plain : Tone::good);
    }
    page.heading("Readings of the gauge");
    page.line("  mulled        um   Hegman   curve");
    for (const auto& reading : readings) {
        const Time since = reading.time - readings.front().time;
        const double um = in_micrometres(reading.fineness);
        page.line(
            "  " + layout::padded(time_text(since), 12) + layout::right_aligned(fixed_text(um, 0), 4) +
            layout::right_aligned(um <= 101.6 ? fixed_text(hegman_of_fineness(reading.fineness), 1) : "-", 9) +
            layout::right_aligned(fixed_text(in_micrometres(fineness_at(subject.mulling, since)), 0), 8));
    }
    page.paragraph(fmt::format(
        "It tends to {} ± {} um; two thirds of the way are gone after {}. The gauge reads to ± 2 um.",
        fixed_text(in_micrometres(subject.mulling.end), 0),
        significant_text(in_micrometres(subject.mulling.end_uncertainty), 1), time_text(subject.mulling.tau)));
    page.heading("Cautions");
    for (const auto& caution : powder_cautions(PowderWork::grinding))
        page.item(layout::padded(caution.subject, 13), caution.text);
    return page.text();
}

} // namespace lakebound
