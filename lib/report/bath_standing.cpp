#include <algorithm>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/bath_pictures.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/bath_words.hpp"
#include "lakebound/report/powder_words.hpp"
#include "lakebound/report/record_words.hpp"
#include "page_builder.hpp"
#include "remains_facts.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Tone;

std::string days_text(Time time) { return fixed_text(in_hours(time) / 24.0, 1); }

void alkali_so_far(PageBuilder& page, const BathPlan& plan, const AlkaliStanding& at) {
    page.section("Alkali", page::Place::left);
    const auto per_mass = plan.alkali_solution.volume_per_salt();
    page.fact("Poured", fmt::format("{}, as {} of solution: {} hydroxides to an aluminium", mass_text(at.poured),
                                    volume_text(at.poured * per_mass), fixed_text(at.hydroxides_poured, 2)));
    page.fact("Wanted", fmt::format("{}, {} to {} nine times in ten", mass_text(at.needed), fixed_text(in_grams(at.needed_low), 1),
                                    mass_text(at.needed_high)));
    if (at.ph)
        page.fact("pH at rest", fmt::format("{} to {}{}", fixed_text(at.ph->low.value(), 1), fixed_text(at.ph->high.value(), 1),
                                            at.at_rest ? "" : ", not yet at rest"));
    if (at.possible)
        page.fact("Can be", fmt::format("pH {} to {} for what was poured", fixed_text(at.possible->low.value(), 1), fixed_text(at.possible->high.value(), 1)));
    if (at.pour_now)
        page.fact("Pour now", fmt::format("{} of solution ({}), then wait and read", volume_text(*at.pour_now * per_mass), mass_text(*at.pour_now)));
    if (at.add_aluminium)
        page.fact("Add", fmt::format("{} of {}, dissolved in water", mass_text(*at.add_aluminium), plan.wish.aluminium.name));
    if (at.foam) page.fact("Over", fmt::format("no less than {}, for the foam", time_text(at.foam->pouring)));
    if (at.learned)
        page.fact("Learned", fmt::format("{} hydroxides to an aluminium for this maker's baths",
                                         value_text(at.learned->mean, at.learned->standard_uncertainty)));
}

void filter_so_far(PageBuilder& page, const FilterOutlook& at) {
    page.section("At the filter", page::Place::left);
    page.fact("Runs dry", fmt::format("{} after pouring, {} to {} nine times in ten", rough_time_text(at.finish.middle),
                                      rough_time_text(at.finish.low), rough_time_text(at.finish.high)));
    page.fact("With a second paper", rough_time_text(at.finish_with_second.middle));
}

std::string share_range(double low, double high) {
    const std::string from = percent_text(low), to = percent_text(high);
    return from == to ? from : from + " to " + to;
}

void salts_so_far(PageBuilder& page, const BathStanding& at) {
    page.section("Salts", page::Place::left);
    if (at.water) page.fact("Last decant", fmt::format("{} g/L over the wash water", significant_text(in_kilograms_per_cubic_metre(at.water->strength.value), 2)));
    const auto& w = *at.washed;
    page.fact("In the lake", fmt::format("{} were it dried now, {} nine times in ten", percent_text(w.left.value()),
                                         share_range(w.left_low.value(), w.left_high.value())));
    page.fact("Clean", "chance " + chance_percent_text(w.clean));
    if (w.sure == 0u) page.fact("Washes more", "none, nine times in ten");
    else if (w.sure) page.fact("Washes more", fmt::format("{} to be sure nine times in ten, {} L of water", *w.sure, fixed_text(in_litres(w.water_for_sure), 1)));
    else page.fact("Washes more", "twenty with this water do not do it");
}

void sinking_so_far(PageBuilder& page, const SinkingStanding& at) {
    page.section("The blanket", page::Place::left);
    const std::string sure = at.high                  ? fmt::format("{} to {} nine times in ten", rough_time_text(at.low), rough_time_text(*at.high))
                             : at.low.value() > 0.0 ? rough_time_text(at.low) + " or later nine times in ten"
                                                    : "and nobody can say yet how much later";
    page.fact("Draw off", fmt::format("{} after the first reading, {}; the blanket then stands at {}", rough_time_text(at.draw_off), sure,
                                      height_text(at.blanket)));
}

void colour_left(PageBuilder& page, const BathPlan& plan, const SecondBath& at) {
    page.section("Colour left in the liquor", page::Place::left);
    const auto& l = at.laying;
    page.fact("Left of all colour", fmt::format("{}, {} nine times in ten", percent_text(l.left.value()),
                                                share_range(l.left_low.value(), l.left_high.value())));
    page.fact("A second laying", fmt::format("{} of {} and {} of {} bring a paler lake, {} as large as the first",
                                             mass_text(at.aluminium), plan.wish.aluminium.name, mass_text(at.alkali),
                                             plan.wish.alkali.name, percent_text(l.alumina.value())));
    page.fact("Pays", fmt::format("chance {}: that it is not too small for a pot, washes and a filter of its own", chance_percent_text(l.pays)));
    page.fact("Rests on", "an eye, and on what is left being of the same kind; brown matter may not go down");
}

void drying_so_far(PageBuilder& page, const DryingOutlook& at, const std::optional<DayRange>& dry) {
    page.section("Drying", page::Place::right);
    page.fact("It will end at", fmt::format("{}, {} to {} nine times in ten", mass_text(at.end), fixed_text(in_grams(at.end_low), 1), mass_text(at.end_high)));
    if (dry) page.fact("Dry on", weekday_range_text(dry->first, dry->last) + ", nine times in ten");
    else if (at.likely && at.sure)
        page.fact("Dry", fmt::format("{} to {} days after the first weighing; nine in ten by then", days_text(*at.likely), days_text(*at.sure)));
    page.fact("Dry now", "chance " + chance_percent_text(at.dry_now));
}

/// "2 washes more, dry on Thursday 4 to Saturday 6 June, expect 9.6 to 11.4 g of lake."
std::string in_short(const BathStanding& at, const BathTold& told) {
    std::vector<std::string> parts;
    if (!at.dried && at.washed && at.washed->sure && *at.washed->sure > 0)
        parts.push_back(fmt::format("{} {} more", *at.washed->sure, *at.washed->sure == 1 ? "wash" : "washes"));
    if (at.washes_by_plan) parts.push_back(fmt::format("about {} {} by the plan", *at.washes_by_plan, *at.washes_by_plan == 1 ? "wash" : "washes"));
    if (told.dry && at.stage != BathStage::jarred)
        parts.push_back("dry on " + weekday_range_text(told.dry->first, told.dry->last) + (at.dried ? "" : " by what is usual"));
    parts.push_back(fmt::format("expect {} to {} of lake, nine times in ten", fixed_text(at.to_expect_kg.low * 1e3, 1),
                                mass_text(kilograms(at.to_expect_kg.high))));
    std::string text;
    for (const auto& part : parts)
        text += (text.empty() ? "" : ", ") + part;
    return layout::capitalised(text) + ".";
}

void show_jar(PageBuilder& page, const BathTold& told) {
    if (!told.jar) return;
    page.section("The jar");
    const BathJar& jar = *told.jar;
    page.fact("Written to", told.jar_file);
    page.fact("In it", value_text(in_grams(jar.net_mass.value()), in_grams(jar.net_mass.standard_uncertainty())) + " g");
    page.fact("Density", value_text(in_grams_per_cubic_centimetre(jar.density.value()),
                                    in_grams_per_cubic_centimetre(jar.density.standard_uncertainty())) + " g/cm3, " + jar.provenance);
    page.fact("Water in it", percent_value_text(jar.moisture.value().value(), jar.moisture.standard_uncertainty().value()) + ", as it lies");
    layout::add_remains(page, {jar.salts, jar.ph}, {});
    layout::add_colour(page, jar.colour);
    for (const JarRemark remark : jar.remarks)
        page.item(jar_remark_words(remark), '!');
}

void show_entries(PageBuilder& page, const BathTold& told) {
    if (told.lines.empty()) return;
    page.section("What happened");
    page::Table table{.caption = "Entries of this bath by day", .columns = {{.align = page::Align::left, .width = 12}, {.align = page::Align::left}}};
    for (const BathLine& line : told.lines) {
        std::string text = bath_happened_words(line.what);
        if (!line.reading.empty()) text += ": " + line.reading;
        if (!line.note.empty()) text += "; " + line.note;
        table.rows.push_back({.cells = {day_text(line.day), text}});
    }
    page.add(std::move(table));
}

} // namespace

page::Page bath_standing_page(const BathPlan& plan, const BathStanding& at, const Bench& bench, const BathTold& told) {
    const std::string stage = bath_stage_words(at.stage);
    PageBuilder page({.kind = "Bath", .name = told.bath.empty() ? stage : told.bath + ", " + stage, .form = page::TitleForm::after_colon,
                      .slip = {{"Worked by", {}, true}}});
    const auto entered = [&](std::string_view what) { return std::find(told.entered.begin(), told.entered.end(), what) != told.entered.end(); };
    const bool all = told.kept.empty() || told.jar; // after an entry only what it is about
    if (!told.kept.empty()) {
        page.section("Kept").heading_shown = false;
        const std::size_t before = told.entered.empty() ? 0 : told.entered.size() - 1;
        page.paragraph(fmt::format("{}Kept in {}{}.", told.taken_back.empty() ? "" : "Taken back: " + told.taken_back + ". ", told.kept,
                                   before == 0 ? "" : fmt::format(", and {} before it", before)),
                       Tone::good);
        page.note("All that happened: lakebound-bath " + told.bath + told.asked_shelf + ".");
    }
    page.section("What to do now");
    page.box();
    page.paragraph(bath_step_words(at.next), Tone::good);
    if (at.stage != BathStage::jarred) page.paragraph(in_short(at, told));
    page.paragraph(fmt::format("Of {} of {} laid; density {} ± {} g/cm3.", total_text(plan.aluminium, bench), plan.wish.aluminium.name,
                               fixed_text(in_grams_per_cubic_centimetre(at.expected.density), 2),
                               fixed_text(in_grams_per_cubic_centimetre(at.expected.density_standard_uncertainty), 2)));
    show_jar(page, told);
    if (at.filter && (all || at.stage == BathStage::straining)) {
        filter_so_far(page, *at.filter);
        page.drawn(filter_picture(*at.filter, at.readings.filter));
    }
    if (at.alkali && (all || at.stage == BathStage::laying)) alkali_so_far(page, plan, *at.alkali);
    if (at.sinking) sinking_so_far(page, *at.sinking);
    if (at.second && (all || entered("colour"))) colour_left(page, plan, *at.second);
    if (at.washed && (all || at.stage == BathStage::washing)) {
        salts_so_far(page, at);
        if (auto picture = wash_picture(*at.washed, at.salts_allowed)) page.drawn(std::move(*picture));
    }
    if (at.dried) {
        drying_so_far(page, *at.dried, told.dry);
        page.drawn(drying_picture(*at.dried, at.readings.weighings));
    }
    const bool of_hue = entered("hue") || entered("swatch");
    if (const ColourRecord colour = colour_written_down(at); (!colour.hue.empty() || colour.swatch) && !told.jar && (all || of_hue)) {
        page.section("Written down of its colour", page::Place::left);
        layout::add_colour(page, colour);
    }
    if (!at.doubts.empty()) {
        page.section("Still in doubt");
        for (const auto doubt : at.doubts) page.item(bath_doubt_words(doubt));
    }
    if (told.kept.empty()) show_entries(page, told);
    page.section("Cautions");
    page::Cautions block;
    for (const auto each : cautions_at(at.stage, plan.cautions)) {
        const auto words = bath_caution_words(each);
        block.cautions.push_back({words.subject, {}, words.text});
    }
    page.add(std::move(block));
    return std::move(page).page();
}

} // namespace lakebound
