// Sentences and figures of pages and JSON on either side of the places where they change.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "lakebound/report/batch_json.hpp"
#include "lakebound/report/bath_pictures.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "lakebound/report/explain.hpp"
#include "lakebound/report/grind_report.hpp"
#include "lakebound/report/pvc_json.hpp"
#include "lakebound/report/pvc_report.hpp"
#include "lakebound/report/reading_report.hpp"
#include "lakebound/report/settle_report.hpp"
#include "lakebound/report/sheet_pictures.hpp"
#include "lakebound/report/sieve_report.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "bath/kitchen_bath.hpp"
#include "support/bench_practice.hpp"
#include "support/example_paint.hpp"
#include "support/four_pours.hpp"
#include "support/grinding_tests.hpp"
#include "support/in_one_line.hpp"
#include "support/worked_sieve_test.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

PvcQuestion limits_of(Process process, double k) {
    PvcQuestion asked;
    asked.request = example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.jar.reset();
    asked.request.aim = BinderSufficiency::of(k);
    asked.pigment = grams(10.0);
    asked.tests = example_tests();
    return asked;
}
/// The rows of the table with this caption, cells parted by a bar.
std::vector<std::string> rows_of(const page::Page& page, const std::string& caption) {
    std::vector<std::string> rows;
    const auto look = [&](const auto& self, const std::vector<page::Block>& blocks) -> void {
        for (const auto& block : blocks) {
            if (const auto* verdict = std::get_if<page::Verdict>(&block.is)) self(self, verdict->body);
            const auto* table = std::get_if<page::Table>(&block.is);
            if (table == nullptr || table->caption != caption) continue;
            for (const auto& row : table->rows) {
                std::string text;
                for (const auto& cell : row.cells) text += (text.empty() ? "" : " | ") + cell.words.plain();
                rows.push_back(text);
            }
        }
    };
    for (const auto& section : page.sections) look(look, section.blocks);
    return rows;
}
using Rows = std::vector<std::string>;

} // namespace

TEST_CASE("JSON is indented by two, and holds what is above nothing however small", "[unit]") {
    auto request = example_request(Process::oil);
    auto& part = request.recipe.pigments.front();
    CHECK(batch_json(batch_subject(request, example_tests())).find("{\n  \"schema_version\": 4,\n  \"kind\": \"batch\",\n") == 0);
    const auto pigment = [&] { return nlohmann::json::parse(batch_json(batch_subject(request, example_tests()))).at("pigments").at(0); };
    CHECK(pigment().count("excess_water") == 0);
    CHECK(pigment().count("step_from_oil") == 0);
    part.pigment.excess_water = MassFraction::of(0.0005);
    part.step_from_oil = 1.0005;
    CHECK(pigment().at("excess_water").get<double>() == Approx(0.0005));
    CHECK(pigment().at("step_from_oil").get<double>() == Approx(1.0005));
    part.step_from_oil = 0.9995;
    CHECK(pigment().at("step_from_oil").get<double>() == Approx(0.9995));
    part.step_from_oil = 1.2;
    CHECK(pigment().at("step_from_oil").get<double>() == Approx(1.2));
    // Figures of the oil at its end want both density and oil absorption.
    for (const bool density : {false, true})
        for (const bool absorption : {false, true}) {
            auto asked = limits_of(Process::oil, 1.3);
            asked.density_known = density, asked.oil_absorption_known = absorption;
            CHECK(nlohmann::json::parse(pvc_json(pvc_subject(asked))).at("oil").count("cured") == (density && absorption ? 1u : 0u));
        }
}

TEST_CASE("What the limits cannot tell is said for one figure and for more", "[unit]") {
    using Lines = std::vector<std::string>;
    QuickCheck check;
    CHECK(unanswered_sentences(check).empty());
    const std::string rub_out = " the oil absorption of the pigment: a rub-out of ten minutes gives it (--oil-absorption \"68 g/100g\").";
    check.unanswered = {{QuickAnswer::verdict, QuickNeed::oil_absorption}, {QuickAnswer::pvc, QuickNeed::pigment_density}};
    CHECK(unanswered_sentences(check) == Lines{"The verdict needs" + rub_out, "PVC needs the density of the pigment (--density \"1.88 g/cm3\")."});
    check.unanswered = {{QuickAnswer::k, QuickNeed::oil_absorption}, {QuickAnswer::cpvc, QuickNeed::pigment_density},
                        {QuickAnswer::binder_balance, QuickNeed::oil_absorption}, {QuickAnswer::reduced_pvc, QuickNeed::pigment_density}};
    CHECK(unanswered_sentences(check) ==
          Lines{"The figure k and binder short or spare need" + rub_out, "CPVC and reduced PVC need the density of the pigment (--density \"1.88 g/cm3\")."});
    check.unanswered = {{QuickAnswer::porosity, QuickNeed::pigment_density}, {QuickAnswer::k, QuickNeed::family}};
    check.k = BinderSufficiency::of(1.2);
    CHECK(unanswered_sentences(check) == Lines{"Air in the film needs the density of the pigment (--density \"1.88 g/cm3\"). k and the verdict do not: density "
                                               "cancels out of them."});
}

TEST_CASE("Shares of the doubt from half a hundredth on, of k, PVC or Lambda, the largest of k first", "[unit]") {
    auto subject = pvc_subject(limits_of(Process::oil, 1.3));
    auto& chance = *subject.base.chance;
    const double k[] = {0.0049, 0.0051, 0.3, 0.3, -0.0051, 0.0}, pvc[] = {0.0, 0.0, -0.2, 0.0, 0.0, 0.0051}, lambda[] = {0.0049, 0.0, 0.0, 0.0051, 0.0, 0.0049};
    for (auto* budget : {&chance.ln_k, &chance.ln_pvc, &chance.ln_reduced_pvc}) budget->lines.assign(6, {});
    for (std::size_t i = 0; i < 6; ++i)
        chance.ln_k.lines[i].share = k[i], chance.ln_pvc.lines[i].share = pvc[i], chance.ln_reduced_pvc.lines[i].share = lambda[i];
    chance.kinds = {ChanceInput::moisture, ChanceInput::spooning, ChanceInput::pigment_density, ChanceInput::binder_solids, ChanceInput::binder_index, ChanceInput::tapped_density};
    chance.subjects = {"weld", "weld", "weld", "linseed-oil", "", "weld"};
    chance.sigma = 0.1234, chance.ln_pvc.standard_uncertainty = 0.0567, chance.ln_reduced_pvc.standard_uncertainty = 0.2345;
    const auto rows = [&] { return rows_of(pvc_page(subject), "Shares of the doubt"); };
    CHECK(rows() == Rows{"standard deviation | 0.12 | 0.057 | 0.23", "density | 30 % | -20 % | -", "solids of the binder | 30 % | - | 0.5 %",
                         "filling of the spoon | 0.5 % | - | -", "tapped density | - | 0.5 % | -", "binder index | -0.5 % | - | -"});
    // Of a blend each powder is named.
    auto chalk = example_lake();
    chalk.id = "chalk", chalk.name = "Chalk, ground";
    subject.base.request.recipe.pigments.push_back({chalk, MassFraction::of(0.3)});
    chance.subjects[1] = "chalk";
    CHECK(rows().at(1) == "density, weld lake | 30 % | -20 % | -");
    CHECK(rows().at(3) == "filling of the spoon, chalk | 0.5 % | - | -");
    CHECK(rows().at(5) == "binder index | -0.5 % | - | -");
    // Where PVC is not known only the doubt of k stands.
    subject.check.pvc.reset(), subject.check.reduced_pvc.reset();
    CHECK(rows() == Rows{"standard deviation | 0.12", "density, weld lake | 30 %", "solids of the binder, linseed oil | 30 %", "filling of the spoon, chalk | 0.5 %",
                         "binder index | -0.5 %"});
}

TEST_CASE("What comes next is a table where there are tests and a paint worth measuring", "[unit]") {
    auto subject = pvc_subject(limits_of(Process::oil, 1.3));
    auto& next = *subject.base.next;
    subject.base.tests.push_back({"look", "a look", minutes(2.5), SpreadTerm::method_transfer, 0.1, grams(0)});
    next.now = Probability::of(0.47), next.aim = BinderSufficiency::of(1.42), next.aimed_anew = Probability::of(0.52);
    next.advice = MeasurementAdvice::stop_measuring;
    next.gains = {{1, 0.1, Probability::of(0.81), 0.1, 0.01}, {3, 0.1, Probability::of(0.55), 0.1, 0.01}};
    const auto rows = [&] { return rows_of(pvc_page(subject), "What each test would tell"); };
    CHECK(rows() == Rows{"as it stands |  |  | 47 %", "aimed at k 1.42 |  |  | 52 %", "four swatches at stepped k | 40 | 0.80 g | 81 %", "a look | 2.5 | - | 55 %"});
    next.advice = MeasurementAdvice::change_the_recipe;
    CHECK(rows().empty());
    next.advice = MeasurementAdvice::good_enough, next.gains.clear();
    CHECK(rows().empty());
}

TEST_CASE("The limits tell air, spare binder, softeners and oil above nothing, however small", "[unit]") {
    auto subject = pvc_subject(limits_of(Process::watercolour, 1.3));
    const auto row = [&] { return rows_of(pvc_page(subject), "k, PVC and CPVC of this paint").back(); };
    subject.check.porosity = VolumeFraction::of(0.0);
    CHECK(row() == "Air | none");
    subject.check.porosity = VolumeFraction::of(0.0006);
    CHECK(row() == "Air | 0.1 %");
    const auto said = [&] { return in_one_line(pvc_page(subject)); };
    subject.spare_medium.reset();
    subject.check.spare_binder = millilitres(0.0);
    CHECK_THAT(said(), Contains("that is just what fills the pigment, nothing short and nothing spare."));
    subject.check.spare_binder = millilitres(0.25);
    CHECK_THAT(said(), Contains("that is 0.25 mL over what just fills the pigment."));
    subject.check.spare_binder = millilitres(-0.25);
    CHECK_THAT(said(), Contains("that is 0.25 mL short of what just fills the pigment."));
    subject.spare_medium = grams(-0.75);
    CHECK_THAT(said(), Contains("that is 0.25 mL (as 0.75 g of gum water with glycerol and honey) short of what just fills the pigment."));
    auto& extras = *subject.base.answer.batch->watercolour;
    extras.plasticiser_ratio = 0.0;
    CHECK_THAT(said(), Contains("No glycerol, honey or sugar to a gram of gum"));
    extras.plasticiser_ratio = 0.0049; // what would be written 0.00
    CHECK_THAT(said(), Contains("No glycerol, honey or sugar to a gram of gum"));
    extras.plasticiser_ratio = 0.0051;
    CHECK_THAT(said(), Contains(" 0.01 g of glycerol and sugars to a gram of dry gum"));
    extras.plasticiser_ratio.reset();
    CHECK_THAT(said(), !Contains("glycerol and sugars to a gram") && !Contains("No glycerol"));
    auto oil = pvc_subject(limits_of(Process::oil, 1.3));
    CHECK_THAT(in_one_line(pvc_page(oil)), Contains("AS IT CURES"));
    oil.base.answer.batch->oil->oil_per_pigment = MediumPerPigment::of(0.0);
    CHECK_THAT(in_one_line(pvc_page(oil)), !Contains("AS IT CURES"));
    oil.base.answer.batch->oil->oil_per_pigment = MediumPerPigment::of(0.0005);
    CHECK_THAT(in_one_line(pvc_page(oil)), Contains("0.050 g of binder to 100 g of pigment."));
}

TEST_CASE("Beside a weighing stand its fills, portions and errors from where they matter", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    auto& oil = subject.answer.batch->sheet.slab.at(1);
    REQUIRE(oil.part == SheetPart::medium);
    const auto said = [&] { return in_one_line(weigh_sheet_page(subject)); };
    oil.syringe = SyringeReading{1, millilitres(9.9), millilitres(10.0), 1};
    CHECK_THAT(said(), Contains("or 10.0 mL in the 10 mL syringe ORDER OF WORK"));
    oil.syringe->fills = 2;
    CHECK_THAT(said(), Contains("or 10.0 mL in the 10 mL syringe, 2 fills ORDER OF WORK"));
    CHECK_THAT(said(), !Contains("portions: more than"));
    oil.portions = 2;
    CHECK_THAT(said(), Contains("In 2 portions: more than the kitchen scale carries."));
    oil.below_minimum = true;
    oil.error = Share::of(0.94);
    CHECK_THAT(said(), Contains("Up to 94 % off here."));
    oil.error = Share::of(0.96);
    CHECK_THAT(said(), Contains("The kitchen scale may be off by as much as all of it."));
    // What the stocks make is told from one batch on.
    subject.request.stocks = {{"linseed-oil", grams(12.0)}};
    auto& limiting = subject.answer.batch->limiting.emplace(LimitingStock{"linseed-oil", 1.0, grams(9.3), grams(9.3)});
    CHECK_THAT(said(), Contains("Stocks enough for 1 such batch; linseed oil runs out first"));
    limiting.factor = 1.1;
    CHECK_THAT(said(), Contains("Stocks enough for 1.1 such batches; linseed oil runs out first"));
    limiting.factor = 0.99;
    CHECK_THAT(said(), !Contains("Stocks enough"));
    limiting.factor = 1.1, subject.request.stocks.clear(); // the jar alone is no stock
    CHECK_THAT(said(), !Contains("Stocks enough"));
}

TEST_CASE("The jar's picture names what is left over and the reserve only where there is some", "[unit]") {
    const auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    const auto& batch = *subject.answer.batch;
    JarShares shares{};
    shares.in_jar = grams(24.0), shares.drawn = grams(10.0), shares.in_vessels = grams(8.0), shares.to_slab = grams(2.0), shares.stays = grams(14.0);
    const auto names = [&](const Batch& of) {
        std::string text;
        const auto picture = jar_picture(shares, of, subject.request.bench);
        for (const auto& group : std::get<page::StackedBar>(picture.is).groups)
            for (const auto& part : group.parts) text += part.name + " " + part.amount + "; ";
        return text;
    };
    CHECK(names(batch) == "filled 8.0 g; to the slab 2.0 g;  ; ");
    shares.left_over = grams(0.4), shares.reserve = grams(0.5);
    CHECK(names(batch) == "filled 8.0 g; left over 0.40 g; to the slab 2.0 g;  ; reserve 0.50 g; ");
    auto unfilled = batch;
    unfilled.filling->vessels = 0;
    CHECK(names(unfilled).rfind("paint 8.0 g", 0) == 0);
    unfilled.filling->vessels = 1;
    CHECK(names(unfilled).rfind("filled 8.0 g", 0) == 0);
    unfilled.filling.reset();
    CHECK(names(unfilled).rfind("paint 8.0 g", 0) == 0);
}

TEST_CASE("Ways of grinding compared: hours to two days, then days, and minutes by five from an hour on", "[unit]") {
    auto answer = planned(grind_question({early(), late()}));
    REQUIRE_FALSE(answer.ways.empty());
    answer.ways.resize(1);
    auto& way = answer.ways.front();
    way.plan.in_rounds = false;
    const auto row = [&] {
        const auto text = rows_of(grind_page(answer), "Ways to get there, least hands first").at(0);
        return text.substr(text.find(" | 1 | ") + 7);
    };
    auto& run = way.plan.run;
    run.grinding = minutes(57.4), run.hands = minutes(62.4), run.elapsed = hours(0.4), run.through = 0.0994;
    CHECK(row() == "57 min | 60 min | 1 h | 9.9 %");
    run.grinding = minutes(59.9), run.hands = minutes(62.6), run.elapsed = hours(47.4), run.through = 0.0996;
    CHECK(row() == "60 min | 65 min | 47 h | 10 %");
    run.hands = minutes(177.6), run.elapsed = hours(47.9);
    CHECK(row() == "60 min | 180 min | 48 h | 10 %");
    run.elapsed = hours(48.1);
    CHECK(row() == "60 min | 180 min | 2 d | 10 %");
    run.elapsed = hours(85.0);
    CHECK(row() == "60 min | 180 min | 4 d | 10 %");
}

TEST_CASE("Shares poured off that round to nothing are told to be below a thousandth", "[unit]") {
    auto answer = plan_settling(four_pours(micrometres(45.0)));
    answer.recovery.resize(1);
    answer.recovery.front().poured = {0.0, 0.0003, 0.0006, 0.996};
    const auto row = rows_of(settle_page(answer), "Share poured off, by size").at(0);
    CHECK(row.substr(row.find(" | ", row.find(" | ") + 3) + 3) == "0 % | < 0.1 % | 0 % | 100 %");
    // Up to six pours stand all; of more the first three, the middle and the last.
    for (const auto& [pours, heads] : {std::pair{6u, "1 pour 2 pours 3 pours 4 pours 5 pours 6 pours"}, {7u, "1 pour 2 pours 3 pours 7 pours"},
                                       {10u, "1 pour 2 pours 3 pours 5 pours 10 pours"}, {12u, "1 pour 2 pours 3 pours 6 pours 12 pours"}, {1u, "1 pour"}}) {
        auto asked = four_pours(micrometres(45.0));
        asked.pours = pours;
        const auto text = in_one_line(settle_page(plan_settling(asked)));
        CAPTURE(pours);
        CHECK_THAT(text, Contains(std::string("size falls past in ") + heads + " "));
    }
}

TEST_CASE("Of more than twelve pours the twelfth and the last stand with dots between", "[unit]") {
    for (const unsigned pours : {11u, 12u, 13u, 14u}) {
        auto asked = four_pours(micrometres(45.0));
        asked.pours = pours;
        const auto rows = rows_of(settle_page(plan_settling(asked)), "When to stir and when to pour");
        CAPTURE(pours);
        REQUIRE(rows.size() == (pours <= 13 ? pours : 14u));
        CHECK(rows[10].rfind("11 | ", 0) == 0);
        CHECK(rows.back().rfind(std::to_string(pours) + " | ", 0) == 0);
        if (pours == 14) CHECK(rows[12] == "...");
        if (pours == 13) CHECK(rows[11].rfind("12 | ", 0) == 0);
    }
}

TEST_CASE("A comment of a reading is filled to eighty columns and no further", "[unit]") {
    const Instrument<Mass> scale{grams(0.01), {}};
    const auto first_line = [&](std::size_t letters) {
        BenchReading reading{std::string(letters, 'a') + " b", TappedFillReading{{millimetres(42), millimetres(50), {millimetres(1), {}}}, grams(24.2445), scale}};
        const auto text = reading_text(answer_reading(reading, shipped_reading_habits()));
        return text.substr(0, text.find('\n'));
    };
    CHECK(first_line(76) == "# " + std::string(76, 'a') + " b");
    CHECK(first_line(77) == "# " + std::string(77, 'a'));
}

TEST_CASE("A wash is drawn where some salts may be left, down to a twentieth of what is allowed", "[unit]") {
    WashOutlook outlook{};
    CHECK_FALSE(wash_picture(outlook, MassFraction::of(0.02)));
    const auto after = [](unsigned washes, double left, double low, double high) {
        return WashCourse{washes, MassFraction::of(left), MassFraction::of(low), MassFraction::of(high), Probability::of(0.5)};
    };
    outlook.course = {after(0, 0.0, 0.0, 0.0)};
    CHECK_FALSE(wash_picture(outlook, MassFraction::of(0.02)));
    outlook.course = {after(0, 0.0003, 0.0001, 0.0005), after(1, 0.002, 0.0015, 0.003)};
    for (const double allowed : {0.02, 0.005}) { // in per cent: 2 and .5, a twentieth of them .1 and .025
        const auto picture = wash_picture(outlook, MassFraction::of(allowed));
        REQUIRE(picture);
        const auto& chart = std::get<page::Chart>(picture->is);
        CHECK(chart.y.low == Approx(5.0 * allowed));
        CHECK(chart.y.high == Approx(200.0 * allowed));
        CHECK(chart.marks.at(0).at.y == Approx(std::max(5.0 * allowed, 0.03)));
        CHECK(chart.marks.at(1).at.y == Approx(0.2));
        CHECK(chart.x.high == Approx(1.4));
    }
    outlook.course.front().high = MassFraction::of(0.05);
    CHECK(std::get<page::Chart>(wash_picture(outlook, MassFraction::of(0.02))->is).y.high == Approx(6.5));
}

TEST_CASE("A bath is told to read low where it fizzes and a tenth too much is reckoned", "[unit]") {
    auto plan = plan_bath(roots_and_alum(), usual_laking(), usual_wash_habits());
    auto bench = lakebound::testing::bare_bench();
    bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}}};
    REQUIRE(plan.foam);
    REQUIRE(plan.over_by_tenth);
    const auto said = [&] { return in_one_line(bath_page(plan, bench)).find("A bath that fizzes reads low") != std::string::npos; };
    const auto foam = plan.foam;
    CHECK(said());
    plan.foam.reset();
    CHECK_FALSE(said());
    plan.foam = foam, plan.over_by_tenth.reset();
    CHECK_FALSE(said());
}

TEST_CASE("The doubt of k is explained input by input, each that has a share", "[unit]") {
    auto subject = batch_subject(example_request(Process::oil), example_tests());
    auto& chance = *subject.chance;
    chance.ln_k.lines.assign(3, {});
    chance.kinds = {ChanceInput::moisture, ChanceInput::pigment_density, ChanceInput::binder_index};
    chance.subjects = {"weld", "weld", ""};
    chance.ln_k.lines[0].share = 0.0006, chance.ln_k.lines[0].contribution = -0.00123;
    chance.ln_k.lines[2].share = 0.9994, chance.ln_k.lines[2].contribution = 0.0567;
    CHECK(rows_of(explanation_page(subject), "What each input does to ln k") == Rows{"moisture, Weld lake | 0.0012 | 0.1 %", "binder index | 0.057 | 99.9 %"});
}

TEST_CASE("A scale of a thousandth of a gram has its doubt too", "[unit]") {
    auto question = worked_sieving();
    question.record.test.scale_step = grams(0.001);
    CHECK_THAT(in_one_line(sieve_page(read_sieving(question))), Contains("One weighing on this scale of 0.001 g steps is sure to ± 0.0004 g"));
}
