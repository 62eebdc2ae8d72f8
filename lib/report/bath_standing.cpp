#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/bath_pictures.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/bath_words.hpp"
#include "lakebound/report/powder_words.hpp"
#include "page_builder.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Tone;

std::string days_text(Time time) { return fixed_text(in_hours(time) / 24.0, 1); }

void alkali_so_far(PageBuilder& page, const BathPlan& plan, const AlkaliStanding& at) {
    page.section("Alkali", page::Place::left);
    const auto per_mass = plan.alkali_solution.volume / plan.alkali_solution.salt;
    page.fact("Poured", fmt::format("{}, as {} of solution: {} hydroxides to an aluminium", mass_text(at.poured),
                                    volume_text(at.poured * per_mass), fixed_text(at.hydroxides_poured, 2)));
    page.fact("Wanted", fmt::format("{}, {} to {} nine times in ten", mass_text(at.needed), fixed_text(in_grams(at.needed_low), 1),
                                    mass_text(at.needed_high)));
    if (at.ph_low && at.ph_high)
        page.fact("pH at rest", fmt::format("{} to {}{}", fixed_text(*at.ph_low, 1), fixed_text(*at.ph_high, 1),
                                            at.at_rest ? "" : ", not yet at rest"));
    if (at.possible)
        page.fact("Can be", fmt::format("pH {} to {} for what was poured", fixed_text(at.possible->low, 1), fixed_text(at.possible->high, 1)));
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

void salts_so_far(PageBuilder& page, const BathStanding& at) {
    page.section("Salts", page::Place::left);
    if (at.water) page.fact("In the last decant", fmt::format("{} g/L over the wash water", significant_text(in_kilograms_per_cubic_metre(at.water->strength.value), 2)));
    const auto& w = *at.washed;
    page.fact("Of the lake, dried now", fmt::format("{}, {} to {} nine times in ten", percent_text(w.left.value()),
                                                    percent_text(w.left_low.value()), percent_text(w.left_high.value())));
    page.fact("Chance that it is clean", percent_text(w.clean.value()));
    if (w.sure) page.fact("Washes more", fmt::format("{} to be sure nine times in ten, {} of water", *w.sure, volume_text(w.water_for_sure)));
    else page.fact("Washes more", "twenty with this water do not do it");
}

void drying_so_far(PageBuilder& page, const DryingOutlook& at) {
    page.section("Drying", page::Place::right);
    page.fact("It will end at", fmt::format("{}, {} to {} nine times in ten", mass_text(at.end), fixed_text(in_grams(at.end_low), 1), mass_text(at.end_high)));
    if (at.likely && at.sure)
        page.fact("Dry", fmt::format("{} to {} days after the first weighing; nine in ten by then", days_text(*at.likely), days_text(*at.sure)));
    page.fact("Dry now", "chance " + percent_text(at.dry_now.value()));
}

} // namespace

page::Page bath_standing_page(const BathPlan& plan, const BathStanding& at, const Bench& bench) {
    PageBuilder page({.kind = "Bath", .name = bath_stage_words(at.stage), .form = page::TitleForm::after_colon,
                      .slip = {{"Worked by", {}, true}}});
    page.section("What to do now");
    page.box();
    page.paragraph(bath_step_words(at.next), Tone::good);
    page.paragraph(fmt::format("Expect {} to {} of lake ({} of {} laid), {} ± {} g/cm3.", fixed_text(at.expected.mass_kg.low * 1e3, 1),
                               mass_text(kilograms(at.expected.mass_kg.high)), total_text(plan.aluminium, bench), plan.wish.aluminium.name,
                               fixed_text(in_grams_per_cubic_centimetre(at.expected.density), 2),
                               fixed_text(in_grams_per_cubic_centimetre(at.expected.density_standard_uncertainty), 2)));
    if (at.filter) {
        filter_so_far(page, *at.filter);
        page.drawn(filter_picture(*at.filter, at.readings.filter));
    }
    if (at.alkali) alkali_so_far(page, plan, *at.alkali);
    if (at.washed) {
        salts_so_far(page, at);
        if (auto picture = wash_picture(*at.washed, at.salts_allowed)) page.drawn(std::move(*picture));
    }
    if (at.dried) {
        drying_so_far(page, *at.dried);
        page.drawn(drying_picture(*at.dried, at.readings.weighings));
    }
    if (!at.doubts.empty()) {
        page.section("Still in doubt");
        for (const auto doubt : at.doubts) page.item(bath_doubt_words(doubt));
    }
    page.section("Cautions");
    page::Cautions block;
    for (const auto each : plan.cautions) {
        const auto words = bath_caution_words(each);
        block.cautions.push_back({words.subject, {}, words.text});
    }
    page.add(std::move(block));
    return std::move(page).page();
}

} // namespace lakebound
