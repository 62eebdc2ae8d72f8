#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/powder_words.hpp"
#include "lakebound/report/sieve_report.hpp"
#include "lakebound/particle/size_fit.hpp"
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

std::string step_text(const SieveAnswer& answer, Mass mass) {
    return answer.record.test.scale_step ? mass_text(mass, *answer.record.test.scale_step) : mass_text(mass);
}

/// What was charged, what came back, and what the scale can explain of the difference.
std::string closure_text(const SieveAnswer& answer) {
    const auto& record = answer.record;
    if (record.method == SieveMethod::wet)
        return fmt::format("{} washed through; what passed is the charge less the dried residue{}.",
                           step_text(answer, *record.test.charge), record.test.screens.size() == 1 ? "" : "s");
    if (!answer.analysis.loss)
        return fmt::format("{} recovered. The charge was not weighed, so nobody knows what was lost.",
                           step_text(answer, answer.analysis.recovered));
    const auto closure = fmt::format("{} charged, {} recovered: ", step_text(answer, *record.test.charge),
                                     step_text(answer, answer.analysis.recovered));
    const double loss = *answer.analysis.loss;
    if (answer.analysis.closure == Closure::small_gain)
        return closure + percent_text(-loss) + " gained, within what the scale can explain.";
    return closure + percent_text(loss) + " lost; up to 5 % passes (usp-786, value from memory).";
}

void too_much_lost(PageBuilder& page, const SieveAnswer& answer) {
    if (answer.analysis.closure != Closure::loss_high) return;
    page.section();
    page.add(page::Watch{"TOO MUCH LOST: weigh the brush and the cloth, look under the lid, and sieve again. The shares "
                         "below are of what was recovered.",
                         Tone::bad});
}

void shares(PageBuilder& page, const SieveAnswer& answer) {
    page.section("What lies where", Place::left);
    page::Table table{.caption = "Kept, share and passing by screen",
                      .columns = {{.head = "screen", .align = Align::left, .width = 15},
                                  {.head = "kept", .align = Align::right, .width = 9},
                                  {.head = "share", .align = Align::right, .width = 18},
                                  {.head = "passing", .align = Align::right, .width = 12, .strong = true},
                                  {.width = 22, .bar = true}}};
    const double u = answer.analysis.reading_uncertainty_g;
    for (std::size_t i = 0; i < answer.analysis.fractions.size(); ++i) {
        const auto& row = answer.analysis.fractions[i];
        std::string name = "pan";
        if (row.aperture) {
            name = size_text(*row.aperture);
            const auto& typed = answer.record.sieves.at(i).designation;
            if (typed.find("um") == std::string::npos && typed.find("mm") == std::string::npos)
                name += " (" + typed + ")";
            else if (typed.find("mesh") != std::string::npos)
                name += " (nylon)";
        } else if (answer.record.method == SieveMethod::wet) {
            name = "with the water";
        }
        page::Row line{.cells = {name, step_text(answer, row.retained),
                                 share_text(row.fraction.value(), row.fraction_uncertainty)}};
        if (row.aperture) {
            line.cells.emplace_back(fixed_text(row.passing.value() * 100.0, 1) + " %");
            line.cells.push_back(page::Cell::bar(row.passing.value()));
        }
        table.rows.push_back(std::move(line));
    }
    page.add(std::move(table));
    for (const auto& sieve : answer.record.sieves)
        if (!sieve.note.empty()) page.paragraph(fmt::format("{}: {}.", sieve.designation, sieve.note));
    if (u > 0.0) {
        std::string text =
            fmt::format("One weighing on this scale of {} steps is sure to ± {} g, which makes ± {} % of "
                        "a share.",
                        number_text(in_grams(*answer.record.test.scale_step)) + " g", value_and_uncertainty(0.0, u).uncertainty,
                        value_and_uncertainty(0.0, answer.analysis.widest_uncertainty * 100.0).uncertainty);
        if (answer.analysis.weighed_coarsely) text += " That is coarse: charge more, or weigh finer.";
        page.paragraph(text);
    } else {
        page.paragraph("Without scale_step nobody knows how sure these shares are.");
    }
}

std::string percentile_text(const Percentile& d) {
    switch (d.reach) {
    case Reach::within:
        return size_text(d.size);
    case Reach::below_finest:
        return "< " + size_text(d.size);
    case Reach::above_coarsest:
        return "> " + size_text(d.size);
    }
    return "";
}

void sizes(PageBuilder& page, const SieveAnswer& answer) {
    if (!answer.percentiles) return;
    const auto& p = *answer.percentiles;
    page.section("Sizes", Place::left);
    std::string line = fmt::format("D10 {}; D50 {}; D80 {}; D90 {}", percentile_text(p.d10),
                                   percentile_text(p.d50), percentile_text(p.d80), percentile_text(p.d90));
    if (p.span) line += "; span " + ratio_text(*p.span);
    page.paragraph(line);
    const bool open = p.d10.reach != Reach::within || p.d50.reach != Reach::within ||
                      p.d80.reach != Reach::within || p.d90.reach != Reach::within;
    page.paragraph(
        open ? "D50: half of the mass is finer. < and > stand where no screen reached; the size is only a "
               "bound."
             : "D50: half of the mass is finer.");
    if (answer.fineness_modulus && answer.of_sand)
        page.paragraph(
            fmt::format("Fineness modulus {} (a figure for sands; it counts no screen below 150 um).",
                        ratio_text(*answer.fineness_modulus)));
}

const char* slope_name(SizeModel model) {
    switch (model) {
    case SizeModel::rosin_rammler:
        return "n";
    case SizeModel::gates_gaudin_schuhmann:
        return "m";
    case SizeModel::lognormal:
        return "sigma_g";
    }
    return "";
}

/// The slope as its readers know it: n, m, or sigma_g = exp(1/slope).
std::string slope_text(const SizeFit& fit) {
    const bool log_normal = fit.model == SizeModel::lognormal;
    const double value = log_normal ? geometric_standard_deviation(fit) : fit.slope;
    // d ln sigma_g = ln sigma_g d ln slope, in size
    const double factor = log_normal ? std::log(value) : 1.0;
    const double u = fit.log_slope_uncertainty ? value * factor * *fit.log_slope_uncertainty : 0.0;
    return std::string(slope_name(fit.model)) + " " + value_text(value, u);
}

void curves(PageBuilder& page, const SieveAnswer& answer) {
    page.section("Curves through it");
    if (answer.fits.empty()) {
        for (const auto& reason : answer.no_fit)
            page.paragraph(layout::capitalised(reason) + ".");
        return;
    }
    const bool target = answer.target.has_value();
    page::Table table{.caption = "Curves of two parameters through the test",
                      .columns = {{.align = Align::left, .width = 24},
                                  {.head = "size", .align = Align::left, .unit = "um", .width = 13, .text_unit = page::UnitPlace::head},
                                  {.head = "slope", .align = Align::left, .width = 20},
                                  {.head = "off by", .align = Align::left, .width = 8}}};
    if (target)
        table.columns.push_back({.head = "over " + size_text(answer.target->residue_screen), .align = Align::left});
    for (std::size_t i = 0; i < answer.fits.size(); ++i) {
        const auto& curve = answer.fits[i];
        const double um = in_micrometres(curve.fit.size);
        const double u = curve.fit.log_size_uncertainty.value_or(0.0) * um;
        page::Row row{.cells = {std::string(word_of(curve.fit.model)), value_text(um, u), slope_text(curve.fit),
                                fixed_text(curve.fit.passing_deviation * 100.0, 1) + " %"},
                      .chosen = answer.best && answer.best->told_apart && answer.best->index == i};
        if (curve.at_target) {
            const auto over = fixed_text((1.0 - curve.at_target->passing.value()) * 100.0, 1) + " %";
            row.cells.emplace_back(curve.at_target->reach == Reach::within ? over : "(" + over + ")");
        }
        table.rows.push_back(std::move(row));
    }
    if (target && answer.verdict->residue.reach == Reach::within)
        table.rows.push_back(
            {.cells = {"seen", "", "", "", fixed_text(answer.verdict->residue.share.value() * 100.0, 1) + " %"}});
    page.add(std::move(table));
    if (answer.best)
        page.paragraph((answer.best->told_apart ? "* Taken: " + answer.best->reason
                                                : layout::capitalised(answer.best->reason)) +
                       ".");
    std::string twins;
    for (const auto& curve : answer.fits)
        if (curve.straight_line)
            twins += fmt::format("{}{} {} um", twins.empty() ? "" : ", ", word_of(curve.fit.model),
                                 significant_text(in_micrometres(curve.straight_line->size), 3));
    page.paragraph(
        "By non-linear least squares on the passing; ± is one standard uncertainty from the scatter.");
    if (!twins.empty())
        page.paragraph("The straight line on ruled paper weighs the ends of the curve more and gives " + twins +
                       ".");
    page.paragraph(fmt::format("Below {} and above {} no screen looked: there a curve is a guess, in brackets.",
                               size_text(answer.fits.front().fit.finest),
                               size_text(answer.fits.front().fit.coarsest)));
    for (const auto& reason : answer.no_fit)
        page.paragraph("Not fitted: " + reason + ".");
}

std::string residue_words(const SieveVerdict& verdict, const FinenessTarget& target) {
    const auto screen = size_text(target.residue_screen);
    const auto share = residue_text(verdict.residue, verdict.with_loss);
    switch (verdict.residue.reach) {
    case Reach::within:
        return fmt::format("{} lies over {}", share, screen);
    case Reach::below_finest:
        return fmt::format("At least {} lies over {}, and no screen was finer", share, screen);
    case Reach::above_coarsest:
        return fmt::format("At most {} lies over {}", share, screen);
    }
    return "";
}

/// The next command, on a line of its own so that it can be taken up whole.
void settle_hint(PageBuilder& page, std::string_view before, const SieveAnswer& answer, Length cut) {
    page.paragraph(std::string(before));
    page.add(page::Command{settle_command(answer.water_depth, cut, answer.record.density)});
}

void grain(PageBuilder& page, const SieveAnswer& answer) {
    if (!answer.verdict || answer.target->id.empty()) return;
    const auto& target = *answer.target;
    const auto wanted = size_text(target.grain.value());
    std::string text = fmt::format("In the finished paint no grain should be coarser than {} ({})", wanted,
                                   word_of(target.grain.provenance().origin));
    if (answer.best) {
        const auto& best = answer.fits.at(answer.best->index);
        text += fmt::format("; the {} curve has {} % finer{}", word_of(best.fit.model),
                            fixed_text(best.at_grain->passing.value() * 100.0, 0),
                            best.at_grain->reach == Reach::within ? "" : ", a guess beyond the screens");
    }
    text += ". Clumps of a lake break further under the muller; sand and plant fibre do not.";
    page.paragraph(text);
    if (answer.verdict->last == ScreeningAdvice::levigation && target.wants_finer_than_screen())
        settle_hint(page, "To part at " + wanted + ", with the depth of your water:", answer, target.grain.value());
}

/// What would settle a verdict that is open.
void page_why_open(PageBuilder& page, const SieveVerdict& v) {
    const char* otherwise = v.as_weighed == FinenessVerdict::fine_enough ? "too much after all" : "little enough";
    const char* lost = v.as_weighed == FinenessVerdict::fine_enough ? "coarse" : "fine";
    switch (v.turned_by) {
    case VerdictTurnedBy::loss:
        page.paragraph(fmt::format("If what was lost was {} it is {}: look for it on the brush, the cloth and the "
                                   "lid, weigh it, and sieve again.",
                                   lost, otherwise),
                       Tone::care);
        break;
    case VerdictTurnedBy::repeatability:
        page.paragraph(fmt::format("A second sieving could find {}: sieve two more portions and take the mean.",
                                   otherwise),
                       Tone::care);
        break;
    case VerdictTurnedBy::both:
        page.paragraph(fmt::format("What was lost and a second sieving could each make it {}: lose less, and sieve "
                                   "another portion.",
                                   otherwise),
                       Tone::care);
        break;
    case VerdictTurnedBy::reach:
    case VerdictTurnedBy::nothing:
        break;
    }
}

void verdict(PageBuilder& page, const SieveAnswer& answer) {
    if (!answer.verdict) return;
    const auto& v = *answer.verdict;
    const auto& target = *answer.target;
    page.section("Fine enough for " + target.name + "?").keep_together = true;
    switch (v.verdict) {
    case FinenessVerdict::fine_enough:
        page.box("Yes on the screen", Tone::good, page::Verdict::Seal::holds);
        break;
    case FinenessVerdict::cannot_tell:
        page.box("Cannot tell from this test", Tone::care, page::Verdict::Seal::may_hold);
        break;
    case FinenessVerdict::too_coarse:
        page.box("No, too coarse", Tone::bad, page::Verdict::Seal::fails);
        break;
    }
    const auto allowed = fixed_text(target.allowed_residue.value().value() * 100.0, 1);
    std::string basis(word_of(target.allowed_residue.provenance().origin));
    page.paragraph(fmt::format("{}; {} % may ({}).", residue_words(v, target), allowed,
                               target.id.empty() ? "as you asked" : basis));
    if (const auto doubt = residue_doubt_text(v.residue, v.with_loss); !doubt.empty())
        page.paragraph(layout::capitalised(doubt) + ".");
    page_why_open(page, v);
    if (answer.wet && answer.wet->below_scale)
        page.paragraph(fmt::format("That is less than this scale can tell from nothing, {} of this charge.",
                                   percent_text(answer.wet->smallest_seen)));
    if (v.charge_to_see)
        page.paragraph(
            fmt::format("This scale cannot tell less than {} of this charge from nothing. To see {} % wash "
                        "{} or more through {} cloth, dry what stays and weigh it; or use a finer scale.",
                        percent_text(v.smallest_seen->value()), allowed, mass_text(*v.charge_to_see),
                        size_text(target.residue_screen)));
    grain(page, answer);
    if (v.verdict == FinenessVerdict::cannot_tell && v.residue.reach == Reach::below_finest)
        page.paragraph(fmt::format("Use a {} screen, wet: no screen of this test was that fine.",
                                   size_text(target.residue_screen)));
}

void regrind(PageBuilder& page, const SieveAnswer& answer) {
    if (!answer.verdict || answer.regrind.empty()) return;
    const auto& v = *answer.verdict;
    const auto& target = *answer.target;
    if (v.verdict == FinenessVerdict::fine_enough) return;
    page.section("Back to the mortar");
    std::string list;
    for (const auto& row : answer.regrind)
        list +=
            fmt::format("{}over {}: {} ({})", list.empty() ? "" : "; ", size_text(row.screen),
                        fixed_text(row.residue.share.value() * 100.0, 0) + " %", step_text(answer, row.mass));
    page.paragraph(layout::capitalised(list) + ".");
    const auto dry = size_text(target.dry_sieving_ends.value()),
               wet = size_text(target.wet_screening_ends.value());
    if (v.clogs)
        page.paragraph(
            fmt::format("More than half is finer than {} already: dry screens clog with it. Go to the wet "
                        "screen now.",
                        dry));
    page.paragraph(
        fmt::format("Dry screens serve down to {}, wet ones to {}, and below that water and a clock part "
                    "grains better. For {}: {}.",
                    dry, wet, size_text(target.residue_screen), advice_words(v.next)));
}

void surface(PageBuilder& page, const SieveAnswer& answer) {
    if (!answer.surface) return;
    const auto& s = *answer.surface;
    page.section("Surface");
    page.paragraph(fmt::format(
        "At least {} m2/kg as smooth balls of {}. Of it {} rest on the guess that what passed the "
        "finest screen is {} in the mean (half the screen), and the top grain is taken as {}. "
        "The inner surface of a lake is far larger.",
        significant_text(s.square_metres_per_kilogram, 2), density_text(*answer.record.density),
        significant_text(s.from_pan, 2), size_text(answer.surface_assumed->pan_mean), size_text(s.top_size)));
}

void onward(PageBuilder& page, const SieveAnswer& answer) {
    page.section("To pass on");
    if (answer.percentiles && answer.percentiles->d50.reach == Reach::within)
        page.paragraph(fmt::format("In the jar file: median_size: {} (packing of blends uses it).",
                                   size_text(answer.percentiles->d50.size)));
    page.paragraph(
        "Grinding makes new surface and changes the oil absorption: repeat the rub-out after the last grind.");
}

} // namespace

page::Page sieve_page(const SieveAnswer& answer) {
    PageBuilder page({.kind = "Sieve test", .name = answer.record.name, .form = page::TitleForm::after_colon,
                      .lead = {closure_text(answer)}, .slip = {{"Worked by", {}, true}}});
    too_much_lost(page, answer);
    verdict(page, answer);
    regrind(page, answer);
    shares(page, answer);
    sizes(page, answer);
    if (auto picture = sieve_picture(answer)) {
        auto& section = page.section("The curve", Place::right);
        section.shown = Shown::html_only;
        section.keep_together = true;
        page.add(std::move(*picture));
    }
    if (!answer.wet) curves(page, answer);
    surface(page, answer);
    if (!answer.wet) onward(page, answer);
    layout::add_powder_cautions(page, PowderWork::sieving);
    return std::move(page).page();
}

std::string sieve_text(const SieveAnswer& answer, const TextOptions& options) {
    return page::write_text(sieve_page(answer), options);
}

} // namespace lakebound
