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
void ask_for_weighing(Page& page, const GrindAnswer& answer, const GrindWay& way) {
    if (!way.stays_after_two || !way.needed) return;
    if (way.needed->high && *way.needed->high == way.needed->low) return;
    const auto& stays = *way.stays_after_two;
    page.paragraph(fmt::format(
        "How many rests on how much faster your mortar grinds when emptier, which is a guess. Weigh what stays "
        "after the second round, dry: near {} few rounds are left, near {} many. Then run this again with",
        mass_text(stays.low * answer.charge), mass_text(stays.high * answer.charge)));
    page.line(fmt::format("    --stays \"... g after 2 rounds of {}\"", time_text(way.plan.cycle)));
}

void rounds_left(Page& page, const GrindAnswer& answer) {
    const auto& left = *answer.rounds_left;
    if (left.more == 0)
        page.paragraph("STOP after these: by what you weighed it is fine enough now.", 2, Tone::good);
    else
        page.paragraph(fmt::format("GO ON: {} more of {} most likely; 9 times in 10 {}.",
                                   rounds_word(left.more), time_text(left.weighed.cycle),
                                   needed_text(left.range)),
                       2, Tone::good);
    page.paragraph(fmt::format("You weighed {} after {}: an emptier mortar of yours grinds faster as 1/load^{}.",
                               mass_text(left.weighed.stays), rounds_word(left.weighed.rounds),
                               ratio_text(left.exponent)));
    if (left.beyond_model)
        page.paragraph("No mortar of the model leaves that: was the charge that of the last sieve test, and was what "
                       "stays dry?",
                       2, Tone::care);
}

/// Where the pigment goes: it is the part that leaves, and the water looks like something to throw away.
std::string keep_the_fine_part(const GrindWay& way) {
    if (!fine_part_in_water(way))
        return "What comes through is the pigment: empty the pan into its jar after each sieving.";
    return "KEEP THE WATER: it carries the fine pigment. Let the pail settle until it is clear, decant, and "
           "dry what sank.";
}

void head(Page& page, const GrindAnswer& answer) {
    const auto& target = answer.question.target;
    page.line("GRINDING PLAN: " + answer.rows.back().name, Tone::heading);
    if (answer.slowing)
        page.paragraph("IT IS SLOWING: fines cushion the grains, or the mortar is overfull. The times below reckon "
                       "with it; take the fines out often, charge less, and sieve after each round.",
                       2, Tone::care);
    page.paragraph(fmt::format("Wanted: at most {} over {}, for {}. Now, after {}: {}.", allowed_text(answer),
                               screen_text(answer), target.name, time_text(answer.now),
                               residue_text(answer.rows.back().residue, answer.rows.back().with_loss)));
    if (const auto doubt = residue_doubt_text(answer.rows.back().residue, answer.rows.back().with_loss);
        !doubt.empty())
        page.paragraph(layout::capitalised(doubt) + ".");
}

void plan(Page& page, const GrindAnswer& answer) {
    page.heading("Do this");
    if (answer.fine_already) {
        page.paragraph(
            "STOP: it is fine enough on this screen already. More grinding only changes the oil absorption.", 2,
            Tone::good);
        return;
    }
    if (answer.ways.empty()) {
        page.paragraph("GRINDING WILL NOT GET THERE by any of the ways tried.", 2, Tone::bad);
        for (const auto& reason : answer.out_of_reach)
            page.item("-", layout::capitalised(reason) + ".");
        return;
    }
    const auto& best = answer.ways.front();
    const auto& run = best.plan.run;
    if (answer.rounds_left) rounds_left(page, answer);
    page.paragraph(what_to_do(answer, best), 2, Tone::good);
    if (!answer.rounds_left) ask_for_weighing(page, answer, best);
    page.paragraph(keep_the_fine_part(best), 2, fine_part_in_water(best) ? Tone::care : Tone::plain);
    page.paragraph(fmt::format(
        "Hands {}, of which {} with the pestle; {} from start to end{}.",
        rough_time_text(run.hands), rough_time_text(run.grinding), rough_time_text(run.elapsed),
        fine_part_in_water(best) ? ", without the settling and drying of the fine part" : ""));
    page.paragraph(
        fmt::format("Of {} about {} comes through, {} is lost and {} stays over the screen and in the mortar.",
                    mass_text(answer.charge), mass_text(run.through * answer.charge),
                    mass_text(run.lost * answer.charge), mass_text(run.remains * answer.charge)));
    const auto wanted = answer.question.target.grain.value();
    if (wanted < answer.question.target.residue_screen)
        page.paragraph(
            fmt::format("Then stop sieving; clumps of a lake also break under the muller. Grains between {} "
                        "and {} are parted in water, here with 100 mm of it:",
                        size_text(wanted), screen_text(answer)));
    if (wanted < answer.question.target.residue_screen)
        page.line("    " + settle_command(wanted, answer.density.value));
}

void compare(Page& page, const GrindAnswer& answer) {
    if (answer.ways.empty()) return;
    page.heading("Ways compared");
    page.line("  way                                    rounds  pestle   hands  in all  through");
    for (const auto& way : answer.ways) {
        const auto& run = way.plan.run;
        const auto grinds = grinds_of(way);
        std::string name = plan_words(way.plan) + (way.own ? " (yours)" : "");
        std::string line = "  " + layout::padded(name, 35);
        line += layout::right_aligned(
            way.plan.in_rounds ? fmt::format("{} x {:.0f} min", grinds, in_minutes(way.plan.cycle)) : "1", 10);
        line += layout::right_aligned(rough_minutes(run.grinding), 8);
        line += layout::right_aligned(rough_minutes(run.hands), 8);
        const double all = in_hours(run.elapsed);
        line += layout::right_aligned(
            all < 48.0 ? fmt::format("{:.0f} h", std::max(1.0, all)) : fmt::format("{:.0f} d", all / 24.0), 8);
        line += layout::right_aligned(percent(run.through), 9);
        page.line(line);
    }
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
        origin_words(habits.dry_efficiency.provenance().origin),
        say.handling ? time_text(*say.handling)
                     : fmt::format("{} dry or {} wet", time_text(habits.dry_handling.value()),
                                   time_text(habits.wet_handling.value())),
        time_text(say.drying.value_or(habits.drying.value())), ratio_text(answer.emptier_is_faster.value.value()),
        given_words(answer.emptier_is_faster.by), density_text(answer.density.value),
        answer.density.by == GivenBy::shelf ? "an estimate for an alumina lake" : given_words(answer.density.by)));
}

void long_grind(Page& page, const GrindAnswer& answer) {
    if (answer.fine_already) return;
    if (!answer.one_long_grind) {
        page.paragraph("Without a separation the target is out of reach: " + answer.why_no_time + ".", 2,
                       Tone::care);
        return;
    }
    const auto& t = *answer.one_long_grind;
    const Time from_now = std::max(t.time - answer.now, Time{});
    page.paragraph(
        fmt::format("Without any separation {} is reached after {} on the clock of your tests, {} from now; 9 "
                    "times in 10 {}.",
                    allowed_text(answer), rough_time_text(t.time), rough_time_text(from_now), range_text(t)));
}

void tests(Page& page, const GrindAnswer& answer) {
    page.heading("Your tests");
    page.line("  ground       over " + layout::padded(screen_text(answer), 10) +
              "scale alone  with the loss      half is finer than");
    for (const auto& row : answer.rows) {
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
    for (const auto& check : answer.later) {
        const auto seen = fmt::format("After {} the first two tests foresee {} over {}, and {} was there",
                                      time_text(check.time), percent(check.predicted), screen_text(answer),
                                      percent(check.observed));
        if (check.slowing)
            page.paragraph(
                seen +
                    ": more than such tests leave to chance. It is slowing.",
                2, Tone::care);
        else if (check.faster)
            page.paragraph(seen + ": faster than it should. Do these tests belong together?", 2, Tone::care);
        else
            page.paragraph(seen + "; the difference lies within what such tests can tell.");
    }
}

void forecast(Page& page, const GrindAnswer& answer) {
    page.heading("Forecast of one grind without separation");
    std::string line = "  " + layout::padded("ground", 12);
    const bool balance = answer.fit.has_value();
    if (balance)
        for (const auto& screen : answer.screens)
            line +=
                layout::right_aligned("< " + number_text(std::round(in_micrometres(screen) * 10.0) / 10.0), 7);
    line += layout::right_aligned("over " + screen_text(answer), 13);
    line += layout::right_aligned("9 in 10", 15);
    page.line(line);
    for (const auto& row : answer.forecast) {
        line = "  " + layout::padded(time_text(row.time), 12);
        if (balance)
            for (const double passing : row.passing)
                line += layout::right_aligned(fixed_text(passing * 100.0, 0) + " %", 7);
        line += layout::right_aligned(percent(row.residue), 13);
        line += layout::right_aligned(fmt::format("{} to {} %", fixed_text(row.interval.low * 100.0, 1),
                                                  fixed_text(row.interval.high * 100.0, 1)),
                                      15);
        page.line(line);
    }
    if (balance && answer.one_long_grind && answer.forecast.back().time > 3.0 * answer.now)
        page.paragraph("The last rows lie far beyond your tests. Sieve again half way and run this anew.");
}

void cushioning(Page& page, const GrindAnswer& answer) {
    if (!answer.cushioning_range) return;
    page.paragraph(fmt::format(
        "Cushioning: rates divided by 1 + {} times the fine share ({} to {}, 9 in 10). {}", ratio_text(answer.cushioning),
        ratio_text(answer.cushioning_range->low), ratio_text(answer.cushioning_range->high),
        answer.rows.size() < 3 ? "Two tests cannot tell it: it is a guess until a third."
                               : "0 is grinding that does not slow."));
}

void model(Page& page, const GrindAnswer& answer) {
    page.heading("How it was reckoned");
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
        fixed_text(100.0 * (1.0 - std::exp(-in_per_minute(answer.law->rate))), 1) + " %",
        percent_text(answer.question.habits.sieving_repeats_to.value().value()),
        origin_words(answer.question.habits.sieving_repeats_to.provenance().origin)));
    cushioning(page, answer);
}

} // namespace

std::string grind_text(const GrindAnswer& answer, const TextOptions& options) {
    Page page(options.colour);
    head(page, answer);
    plan(page, answer);
    long_grind(page, answer);
    compare(page, answer);
    tests(page, answer);
    forecast(page, answer);
    model(page, answer);
    page.heading("Afterwards");
    page.paragraph(
        "New surface drinks more oil: repeat the rub-out after the last grind, before you size a batch. Weigh "
        "the jar again; finer powder is fluffier and wants a larger one.");
    page.heading("Cautions");
    for (const auto& caution : powder_cautions(PowderWork::grinding))
        page.item(layout::padded(caution.subject, 13), caution.text);
    return page.text();
}

std::string mull_text(const MullAnswer& answer, const TextOptions& options) {
    Page page(options.colour);
    const auto& readings = answer.question.readings;
    page.line("MULLING", Tone::heading);
    page.heading("Do this");
    if (answer.out_of_reach)
        page.paragraph(
            fmt::format(
                "{} IS OUT OF REACH: no mulling goes below {}. A muller opens clumps, it does not break "
                "grains: back to the mortar, or levigate.",
                size_text(*answer.question.target), size_text(answer.mulling.end)),
            2, Tone::bad);
    const bool past = in_seconds(answer.more_to_stop) <= 0.0;
    if (answer.more_to_target) {
        const auto target = size_text(*answer.question.target);
        const Time more = *answer.more_to_target;
        if (in_seconds(more) <= 0.0)
            page.paragraph("STOP: " + target + " is reached.", 2, Tone::good);
        else
            page.paragraph(fmt::format("Mull {} more, to {} in all: {} is reached then.", time_text(more),
                                       time_text(answer.so_far + more), target),
                           2, Tone::good);
        page.paragraph(
            past ? std::string("Ten more minutes gain less than 2 um, which is all the gauge can tell.")
                 : fmt::format("After {} in all, ten minutes gain less than 2 um, which is all the "
                               "gauge can tell.",
                               time_text(answer.stop)));
    } else if (past) {
        page.paragraph("STOP: ten more minutes gain less than 2 um, which is all the gauge can tell.", 2,
                       Tone::good);
    } else {
        page.paragraph(fmt::format("Mull {} more, to {} in all; after that ten minutes gain less than 2 um.",
                                   time_text(answer.more_to_stop), time_text(answer.stop)),
                       2, answer.out_of_reach ? Tone::plain : Tone::good);
    }
    page.heading("Readings of the gauge");
    page.line("  mulled        um   Hegman   curve");
    for (const auto& reading : readings) {
        const Time since = reading.time - readings.front().time;
        const double um = in_micrometres(reading.fineness);
        page.line(
            "  " + layout::padded(time_text(since), 12) + layout::right_aligned(fixed_text(um, 0), 4) +
            layout::right_aligned(um <= 101.6 ? fixed_text(hegman_of_fineness(reading.fineness), 1) : "-", 9) +
            layout::right_aligned(fixed_text(in_micrometres(fineness_at(answer.mulling, since)), 0), 8));
    }
    page.paragraph(fmt::format(
        "It tends to {} ± {} um; two thirds of the way are gone after {}. The gauge reads to ± 2 um.",
        fixed_text(in_micrometres(answer.mulling.end), 0),
        significant_text(in_micrometres(answer.mulling.end_uncertainty), 1), time_text(answer.mulling.tau)));
    page.heading("Cautions");
    for (const auto& caution : powder_cautions(PowderWork::grinding))
        page.item(layout::padded(caution.subject, 13), caution.text);
    return page.text();
}

} // namespace lakebound
