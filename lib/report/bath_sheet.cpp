#include "lakebound/report/bath_sheet.hpp"

#include <cmath>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/bath_words.hpp"
#include "lakebound/report/powder_words.hpp"
#include "page_builder.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using layout::PageBuilder;
using page::Align;
using page::Place;
using page::Tone;

std::string litres_text(Volume volume) { return significant_text(in_litres(volume), 2) + " L"; }
std::string whole_millilitres(Volume volume) { return fixed_text(in_millilitres(volume), 0) + " mL"; }
std::string times_text(unsigned times) { return times == 1 ? "once" : fmt::format("{} times", times); }
std::string ph_text(Ph ph) { return fixed_text(ph.value(), 1); }
std::string stop_text(const BathPlan& plan) { return plain_text(plan.stop.low.value()) + " to " + plain_text(plan.stop.high.value()); }
std::string share_of_hundred(Share share) { return percent_text(share.value()); }

std::string formula_text(const Salt& salt) { return salt.name + " (" + salt.formula + ")"; }

void lead(PageBuilder& page, const BathPlan& plan, const Bench& bench) {
    page.section("In short");
    page.box();
    const auto per_mass = plan.alkali_solution.volume_per_salt();
    if (plan.chalk) {
        page.paragraph(fmt::format("Stir {} of {} into {} of {}.", total_text(plan.alkali.middle, bench),
                                   formula_text(plan.wish.alkali), total_text(plan.aluminium, bench),
                                   formula_text(plan.wish.aluminium)),
                       Tone::good);
        page.paragraph(fmt::format("THIS IS ANOTHER PIGMENT: of {} of solids, {} are alumina; the rest is gypsum and chalk. It "
                                   "is not proof against acid, and no figure of an alumina lake holds for it.",
                                   mass_text(plan.chalk->solids), percent_text(plan.chalk->alumina_share.value())),
                       Tone::care);
        return;
    }
    page.paragraph(fmt::format("Pour {} of the {} solution, {} to {} nine times in ten, and stop at pH {}, read at rest.",
                               whole_millilitres(plan.middle_volume), plan.wish.alkali.name,
                               fixed_text(in_millilitres(plan.alkali.low * per_mass), 0), whole_millilitres(plan.high_volume),
                               stop_text(plan)),
                   Tone::good);
    const auto& lake = *plan.lake;
    page.paragraph(fmt::format("Expect {} of lake in the jar, {} to {} nine times in ten, and {} ± {} g/cm3.",
                               mass_text(lake.mass), fixed_text(lake.mass_kg.low * 1e3, 1),
                               mass_text(kilograms(lake.mass_kg.high)), fixed_text(in_grams_per_cubic_centimetre(lake.density), 2),
                               fixed_text(in_grams_per_cubic_centimetre(lake.density_standard_uncertainty), 2)));
    if (plan.foam) page.paragraph("Never a lid on it while it fizzes.");
}

void liquor(PageBuilder& page, const BathPlan& plan, const Bench& bench) {
    page.section("1. The dye liquor");
    if (!plan.plant_dry) {
        page.paragraph(fmt::format("Taken as at hand: {} of strained liquor.", litres_text(plan.liquor)));
        return;
    }
    const auto& lot = *plan.wish.plant;
    page::Steps steps;
    steps.steps.push_back(lot.fresh ? page::Words(fmt::format("Weigh {} of fresh {}: about {} when dry.", total_text(lot.mass, bench),
                                                               word_of(lot.part), mass_text(*plan.plant_dry)))
                                    : page::Words(fmt::format("Weigh {} of dry {}, chopped small.", total_text(lot.mass, bench),
                                                              word_of(lot.part))));
    steps.steps.push_back(fmt::format("A pot of {} or more holds one pull with room to stir.", litres_text(*plan.pot_needed)));
    if (plan.more_pulls_for_pot)
        steps.steps.push_back(fmt::format("Your pot is small for it: {} pulls in place of fewer.", plan.pulls.size()));
    steps.steps.push_back(fmt::format("Warm it slowly. Madder browns above {}; other plants are simmered for an hour.",
                                      quantity_text(plan.heat_limit, "degC")));
    steps.steps.push_back("Strain through cloth, then let the fine fibre settle, or filter: fibre becomes grit in the jar.");
    page.add(std::move(steps));
    page::Table table{.caption = "Pulls, and what each leaves behind in the plant",
                      .columns = {{.head = "pull", .align = Align::right, .width = 6},
                                  {.head = "water", .align = Align::right, .width = 11},
                                  {.head = "drains off", .align = Align::right, .width = 13},
                                  {.head = "left behind", .align = Align::right, .width = 13}}};
    for (std::size_t i = 0; i < plan.pulls.size(); ++i)
        table.rows.push_back({.cells = {std::to_string(i + 1), litres_text(plan.pulls[i].water), litres_text(plan.pulls[i].liquor),
                                        share_of_hundred(plan.pulls[i].left)}});
    page.add(std::move(table));
    page.paragraph("Left behind of what dissolves at all; what comes slowly stays in the plant besides.");
}

void solutions(PageBuilder& page, const BathPlan& plan, const Bench& bench) {
    page.section("2. Solutions to make up");
    page::Table table{.caption = "What to weigh and to fill up to",
                      .columns = {{.head = "salt", .align = Align::left, .width = 34},
                                  {.head = "weigh", .align = Align::right, .width = 10},
                                  {.head = "water", .align = Align::right, .width = 11},
                                  {.head = "makes", .align = Align::right, .width = 11}},
                      .tick = true};
    const auto row = [&](const Salt& salt, const MadeUp& made) {
        table.rows.push_back({.cells = {formula_text(salt), total_text(made.salt, bench), mass_text(made.water, grams(1)),
                                        whole_millilitres(made.volume)}});
    };
    row(plan.wish.aluminium, plan.aluminium_solution);
    row(plan.wish.alkali, plan.alkali_solution);
    page.add(std::move(table));
    page.paragraph("Dissolve warm, then let it cool. The second holds as much as nine baths in ten want: some of it stays over.");
    if (plan.alkali_dissolves && !*plan.alkali_dissolves)
        page.paragraph(fmt::format("{} does not dissolve so strong at 20 degC: keep it warm, or use twice the water.", plan.wish.alkali.name),
                       Tone::care);
    if (plan.aluminium_dissolves && !*plan.aluminium_dissolves)
        page.paragraph(fmt::format("{} falls out of so strong a solution at 20 degC: keep it warm.", plan.wish.aluminium.name), Tone::care);
}

void laying(PageBuilder& page, const BathPlan& plan) {
    page.section("3. Lay the lake");
    page::Steps steps;
    steps.steps.push_back(plan.foam ? fmt::format("Vessel: {} of liquid in all. {} is comfortable, below {} it foams over.", litres_text(plan.liquid),
                                                  litres_text(plan.vessel_good), litres_text(plan.vessel_least))
                                    : fmt::format("Vessel: {} of liquid in all; {} is comfortable to stir.", litres_text(plan.liquid),
                                                  litres_text(plan.vessel_good)));
    steps.steps.push_back("Stir the alum solution into the warm liquor. Put the vessel in the sink.");
    if (plan.foam) {
        steps.steps.push_back("One teaspoon of alkali first: time how long its foam takes to fall (--foam).");
        steps.steps.push_back(fmt::format(
            "Pour the first {} in {} or more, over no less than {}: {} of gas come in all.", whole_millilitres(plan.first_portion),
            plan.foam->portions == 1 ? std::string("one portion") : fmt::format("{} portions", plan.foam->portions), time_text(plan.foam->pouring), litres_text(plan.foam->gas)));
    } else {
        steps.steps.push_back(fmt::format("Pour the first {} slowly.", whole_millilitres(plan.first_portion)));
    }
    steps.steps.push_back(fmt::format("Stir warm for 10 to 15 minutes{}. Then read the pH, of the clear liquor.",
                                      plan.foam ? " until it no longer fizzes" : ""));
    steps.steps.push_back(fmt::format("Pour the rest by drops, with two minutes between, to pH {}: three readings five minutes apart, "
                                      "within {}.", stop_text(plan), number_text(plan.rests_within.value())));
    page.add(std::move(steps));
    if (plan.chalk) return;
    if (plan.foam && plan.over_by_tenth)
        page.paragraph(fmt::format("A bath that fizzes reads low: one with a tenth too much soda shows {} while it fizzes and {} at rest.",
                                   ph_text(plan.over_by_tenth->fizzing), ph_text(plan.over_by_tenth->at_rest)), Tone::care);
    if (plan.wish.end_points > 0)
        page.paragraph(fmt::format("By {} of your own: {} hydroxides to an aluminium.",
                                   plan.wish.end_points == 1 ? std::string("an end point") : fmt::format("{} end points", plan.wish.end_points),
                                   value_text(plan.wish.hydroxides->mean, plan.wish.hydroxides->standard_uncertainty)));
    const bool keeps_sulphate = !plan.basic_curve.empty();
    page.paragraph(keeps_sulphate
                       ? fmt::format("How much is not known better because the lake keeps some sulphate: the books' hydroxide would take {} of {}.",
                                     mass_text(plan.book_alkali), plan.wish.alkali.name)
                       : fmt::format("{} has no sulphate for the lake to keep, so the books' hydroxide is expected: {} of {}.",
                                     plan.wish.aluminium.name, mass_text(plan.book_alkali), plan.wish.alkali.name));
    page.paragraph(fmt::format("Half as much alkali solution as alum solution, a common rule, is {} what the books want here.",
                               percent_text(std::abs(plan.half_measure_excess)) +
                                   (std::signbit(plan.half_measure_excess) ? " short of" : " over")));
    page.paragraph("Strong alum before it clouds has a pH near 3; the model knows none there, and the table gives none.");
    page::Table table{.caption = "pH at rest as the alkali goes in",
                      .columns = {{.head = "poured", .align = Align::right, .width = 10},
                                  {.head = "pH, if a basic sulphate falls", .align = Align::right, .width = 31},
                                  {.head = "pH, if hydroxide falls", .align = Align::right, .width = 24}}};
    const auto cell = [](const TitrationPoint& point) { return point.ph ? ph_text(*point.ph) : std::string("-"); };
    const auto per_mass = plan.alkali_solution.volume_per_salt();
    for (std::size_t i = 8; i < plan.hydroxide_curve.size(); i += i < 24 ? 8 : 2) {
        const auto& point = plan.hydroxide_curve[i];
        table.rows.push_back({.cells = {whole_millilitres(point.alkali * per_mass),
                                        plan.basic_curve.empty() ? std::string("-") : cell(plan.basic_curve[i]), cell(point)}});
    }
    page.add(std::move(table));
    page.paragraph(fmt::format("Long flat, then a sudden rise{}. Trust the shape, and each figure to 0.4.",
                               keeps_sulphate ? ": it lies between the two" : ""));
    page::Chart chart{.question = "Where to stop pouring"};
    chart.x = {.name = "alkali solution", .unit = "mL", .low = 0.0,
               .high = in_millilitres(plan.hydroxide_curve.back().alkali * per_mass)};
    chart.y = {.name = "pH at rest", .low = 3.0, .high = 10.0};
    const auto series = [&](const std::vector<TitrationPoint>& curve, const char* label, page::Stroke stroke) {
        page::Series line{.label = label, .stroke = stroke};
        for (const auto& point : curve)
            if (point.ph) line.points.push_back({in_millilitres(point.alkali * per_mass), std::min(10.0, point.ph->value())});
        if (!line.points.empty()) chart.series.push_back(std::move(line));
    };
    series(plan.basic_curve, "basic sulphate", page::Stroke::solid);
    series(plan.hydroxide_curve, "hydroxide", page::Stroke::dashed);
    chart.bands.push_back({.from = plan.stop.low.value(), .to = plan.stop.high.value(), .label = "stop"});
    chart.caption = "Stirred until it no longer fizzes. Lines begin where the bath clouds.";
    page.section("Where to stop", page::Place::left).shown = page::Shown::html_only;
    page.drawn(page::Picture{std::move(chart)});
}

void mending(PageBuilder& page, const BathPlan& plan) {
    if (plan.chalk) return;
    page.section("If it went wrong", page::Place::right);
    page.item("Too little (pH below the stop at rest): pour on by drops.");
    page.item(fmt::format("Too much: for each 10 mL over, {} of {} in water brings it back; wait a quarter of an hour and read.",
                          mass_text(plan.aluminium_for_ten_millilitres), plan.wish.aluminium.name));
    page.item("Hardly any lake: look at the packets. Soda crystals hold 37 % of the soda that soda ash does.");
}

void washing(PageBuilder& page, const BathPlan& plan) {
    page.section("4. Settle and wash", page::Place::left);
    page::Steps steps;
    steps.steps.push_back("Let it sink. Read the height of the blanket three times, equally far apart, and ask --blanket "
                          "\"100 mm, 62 mm, 48 mm every 2 h\" when to draw off the water.");
    if (!plan.chalk) {
        steps.steps.push_back(fmt::format(
            "Wash {}, filling up to {} each: {} of water in all, if {} stays below each time and the cake drains on paper.", times_text(plan.washes),
            litres_text(plan.wash.filled), litres_text(plan.wash_water), litres_text(plan.wash.bed)));
        steps.steps.push_back(fmt::format("It begins with {} of salts, {} g/L. A conductivity pen in the decant says when to stop; read "
                                          "the wash water too.", mass_text(plan.salts),
                                          fixed_text(in_kilograms_per_cubic_metre(plan.salts_strength.value), 0)));
    } else {
        steps.steps.push_back(fmt::format("Wash {} or more, filling up to {} each. Gypsum dissolves for ever: no pen says when it "
                                          "is washed.", times_text(plan.washes), litres_text(plan.wash.filled)));
    }
    page.add(std::move(steps));
}

void drying(PageBuilder& page, const BathPlan& plan) {
    page.section("5. Dry, and jar", page::Place::right);
    page::Steps steps;
    steps.steps.push_back("Drain on paper, spread thin, in the shade. Weigh it daily at the same hour once it no longer looks wet.");
    steps.steps.push_back("Three weighings, each entered on its day (--cake), say where it will end and on which days it is dry.");
    steps.steps.push_back("Grind, sieve, weigh the jar empty and full. Keep 1 g back as a sample.");
    page.add(std::move(steps));
    if (!plan.chalk)
        page.paragraph(fmt::format("A dry lake still holds water: {} is usual. Weigh yours to know its density better than anything "
                                   "else does.", percent_value_text(plan.lake_inputs->water.value().value(),
                                                                    plan.lake_inputs->water.standard_uncertainty().value())));
    page.section("6. Write down", page::Place::right);
    if (!plan.chalk)
        page.item("Keep a glass of the dye liquor from before the alum: filled up until it looks like the clear liquor it tells what is left (--colour).");
    page.item("Hue in your own words, wet and dry (--hue); a swatch with its number (--swatch); the pH at the stop. Nobody can work these out.");
}

void flow(PageBuilder& page, const BathPlan& plan) {
    if (plan.chalk) return;
    auto& section = page.section("Where it all goes", page::Place::left);
    section.shown = page::Shown::html_only;
    page::Bars bars{.question = "From plant to jar, by weight"};
    const auto bar = [&](std::string label, Mass mass, page::Fill fill) {
        bars.bars.push_back({.label = std::move(label), .segments = {{in_grams(mass), fill}}, .value = mass_text(mass)});
    };
    if (plan.plant_dry) bar("plant, dry", *plan.plant_dry, page::Fill::open);
    bar(plan.wish.aluminium.name, plan.aluminium, page::Fill::solid);
    bar(plan.wish.alkali.name, plan.alkali.middle, page::Fill::solid);
    bar("salts, washed away", plan.salts, page::Fill::hatched);
    bar("lake, in the jar", plan.lake->mass, page::Fill::solid);
    bars.caption = "Water and gas are left out.";
    page.add(page::Picture{std::move(bars)});
}

void add_bath_cautions(PageBuilder& page, const std::vector<BathCaution>& cautions) {
    page.section("Cautions");
    page::Cautions block;
    for (const auto each : cautions) {
        const auto words = bath_caution_words(each);
        block.cautions.push_back({words.subject, {}, words.text});
    }
    page.add(std::move(block));
}

std::string plan_name(const BathPlan& plan, const Bench& bench) {
    return fmt::format("{} of {} with {}", total_text(plan.aluminium, bench), plan.wish.aluminium.name, plan.wish.alkali.name);
}

} // namespace

page::Page new_bath_page(const BathPlan& plan, const Bench& bench, const std::string& bath, const std::string& file) {
    page::Page page = bath_page(plan, bench);
    PageBuilder begun(page::Title{});
    begun.section("Begun").heading_shown = false;
    begun.paragraph(fmt::format("Begun: {}. Enter what happens as it comes:", file), Tone::good);
    begun.paragraph(fmt::format("lakebound-bath {} --poured \"120 mL\"", bath));
    page.sections.insert(page.sections.begin(), std::move(std::move(begun).page().sections.front()));
    return page;
}

page::Page bath_page(const BathPlan& plan, const Bench& bench) {
    PageBuilder page({.kind = "Bath sheet", .name = plan_name(plan, bench), .form = page::TitleForm::after_colon,
                      .slip = {{"Worked by", {}, true}, {"Lot", {}, true}}});
    lead(page, plan, bench);
    liquor(page, plan, bench);
    solutions(page, plan, bench);
    laying(page, plan);
    mending(page, plan);
    washing(page, plan);
    drying(page, plan);
    flow(page, plan);
    add_bath_cautions(page, plan.cautions);
    return std::move(page).page();
}

} // namespace lakebound
