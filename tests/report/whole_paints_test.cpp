// Whole answers on paints, line by line as a person or a program gets them. The texts under expected/ were read against
// docs/theory.md and against the figures that these paints are made of; what is new there must be read before it is kept.
#include <catch2/catch.hpp>

#include "lakebound/report/batch_json.hpp"
#include "lakebound/report/explain.hpp"
#include "lakebound/report/layer_report.hpp"
#include "lakebound/report/pvc_json.hpp"
#include "lakebound/report/pvc_report.hpp"
#include "lakebound/report/sweep_json.hpp"
#include "lakebound/report/sweep_page.hpp"
#include "lakebound/report/weigh_sheet.hpp"
#include "support/example_paint.hpp"
#include "support/whole_answer.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

void check_batch(const std::string& name, const BatchRequest& request, bool with_working = false) {
    const auto subject = batch_subject(request, example_tests());
    check_expected("report", name, whole(weigh_sheet_page(subject)) + "\n" + whole_json(batch_json(subject, with_working)));
}
void check_limits(const std::string& name, PvcQuestion asked, const JarOutlook* outlook = nullptr) {
    const auto subject = pvc_subject(std::move(asked));
    check_expected("report", name, whole(pvc_page(subject, outlook)) + "\n" + whole_json(pvc_json(subject, outlook)));
}

Pigment example_chalk() {
    Pigment chalk = example_lake();
    chalk.id = "chalk", chalk.name = "Chalk", chalk.pigment_class = PigmentClass::extender;
    chalk.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.70), library());
    chalk.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18.0), 1.1, library());
    chalk.hazards = {Hazard::dust};
    return chalk;
}
/// 7 of the lake to 3 of chalk.
BatchRequest blended(BatchRequest request) {
    auto& pigments = request.recipe.pigments;
    pigments.front().share = MassFraction::of(0.7);
    pigments.front().pigment.median_size = Estimate<Length>::exact(micrometres(2.0), measured());
    Pigment chalk = example_chalk();
    chalk.median_size = Estimate<Length>::exact(micrometres(6.0), measured());
    pigments.push_back({chalk, MassFraction::of(0.3)});
    return request;
}
PvcQuestion limits_of(Process process, double k) {
    PvcQuestion asked;
    asked.request = example_request(process);
    asked.request.recipe.vessel.reset();
    asked.request.jar.reset();
    asked.request.aim = BinderSufficiency::of(k);
    asked.pigment = grams(10.0);
    asked.tests = example_tests();
    asked.title = "10.0 g of Weld lake";
    asked.assumed = {"The bench is taken to be an example."};
    return asked;
}
/// Of a jar whose bath left 0.8 % of salts and pH 7.4, with benzoate in the gum and sorbate on the shelf.
BatchRequest out_of_a_bath(BatchRequest request) {
    request.jar->remains.salts = Estimate<MassFraction>::lognormal(MassFraction::of(0.008), 1.4, {Origin::computed, "computed from the bath", false});
    request.jar->remains.ph = Estimate<Ph>::normal(Ph::of(7.4), Ph::Difference::of(0.5), measured());
    request.lake_limits = LakeLimits{MassFraction::of(0.01), MassFraction::of(0.005), Share::of(0.05), Ph::of(8.0), Probability::of(0.1)};
    request.preservatives = {{"potassium-sorbate", "Potassium sorbate", PreservativeAcid::sorbic, false}};
    if (request.recipe.family.process == Process::watercolour) {
        auto kept = example_ingredient("sodium-benzoate", "Sodium benzoate", Role::preservative, 1.5, 1.0, 1.5);
        kept.works_as = PreservativeAcid::benzoic;
        request.recipe.additives = {{kept, MassFraction::of(0.002), DoseBasis::medium}};
    }
    return request;
}
JarOutlook learned() {
    JarOutlook o;
    o.demand_over_library = 1.25, o.demand_low = 1.1, o.demand_high = 1.42;
    o.oil_absorption = grams_per_100_grams(86);
    o.oil_absorption_spread = 0.06, o.step_from_oil = 1.02;
    o.aim = BinderSufficiency::of(1.45);
    o.library.chance = Probability::of(0.62);
    o.kin = {3, 2, Probability::of(0.71)};
    o.own_readings = {1, 0, Probability::of(0.83)};
    o.own_paints = {0, 2, Probability::of(0.91)};
    o.coaching.now.chance = Probability::of(0.91);
    o.coaching.advice = CoachAdvice::target_met;
    o.doubt = NormalMixture(0.09);
    return o;
}

} // namespace

TEST_CASE("Pans of watercolour, whole", "[unit]") { check_batch("pans", example_request(Process::watercolour)); }

TEST_CASE("A tube of oil, whole", "[unit]") { check_batch("tube", example_request(Process::oil)); }

TEST_CASE("Egg tempera, whole", "[unit]") { check_batch("tempera", example_request(Process::egg_tempera)); }

TEST_CASE("A lean blend on a damp powder, whole", "[unit]") {
    auto request = blended(example_request(Process::watercolour));
    request.aim = BinderSufficiency::of(0.8);
    request.recipe.pigments.front().pigment.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.25), measured());
    request.amount = VesselCount{*request.recipe.vessel, 3};
    request.jar.reset();
    check_batch("lean-blend", request, true);
}

TEST_CASE("A rich oil paint of more than the jar holds, whole", "[unit]") {
    auto request = example_request(Process::oil, VesselCount{example_vessel("tube-15-ml", "Tube, 15 mL", 15.0, 1.0, FilledBy::wet_volume), 4});
    request.aim = BinderSufficiency::of(2.6);
    request.bench.scales.resize(1);
    request.stocks = {{"linseed-oil", grams(12.0)}};
    check_batch("rich-and-short", request);
}

TEST_CASE("Two tubes, whole", "[unit]") {
    auto request = example_request(Process::oil, VesselCount{example_vessel("tube-15-ml", "Tube, 15 mL", 15.0, 1.0, FilledBy::wet_volume), 2});
    request.jar = JarOnHand{0, grams(60.0)};
    request.stocks = {{"linseed-oil", grams(60.0)}};
    check_batch("two-tubes", request);
}

TEST_CASE("What binds nothing, and gum that comes dissolved, whole", "[unit]") {
    auto request = example_request(Process::watercolour);
    auto& parts = request.recipe.medium.parts;
    const auto gum = parts[0], glycerol = parts[2];
    parts = {glycerol};
    request.recipe.medium.id = request.recipe.medium.name = "glycerol";
    check_batch("nothing-binds", request);
    parts = {gum};
    parts[0].ingredient.non_volatile = Estimate<MassFraction>::exact(MassFraction::of(0.3), library());
    parts[0].ingredient.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.12), library());
    request.recipe.medium.id = request.recipe.medium.name = "gum solution";
    check_batch("gum-solution", request);
}

TEST_CASE("A pinch of watercolour in a wet room, whole", "[unit]") {
    auto request = example_request(Process::watercolour, grams(0.8));
    request.bench.humidity = RelativeHumidity::of(0.80);
    request.bench.scales.resize(1);
    check_batch("pinch-in-a-wet-room", request);
}

TEST_CASE("A paint with a record of its jar, whole", "[unit]") {
    auto request = example_request(Process::watercolour);
    request.learned_doubt = NormalMixture(0.09);
    const auto subject = batch_subject(request, example_tests());
    SheetRecord record;
    record.outlook = learned();
    record.jar_id = "weld", record.kept = "studio/entries/2026-05-03-batch.yaml";
    check_expected("report", "pans-with-a-record",
                   whole(weigh_sheet_page(subject, &record)) + "\n" + whole_json(batch_json(subject, false, &record)));
}

TEST_CASE("The steps behind the sheets, whole", "[unit]") {
    for (const auto& [name, process] : {std::pair{"explained-pans", Process::watercolour}, {"explained-tube", Process::oil},
                                        {"explained-tempera", Process::egg_tempera}})
        check_expected("report", name, whole(explanation_page(batch_subject(example_request(process), example_tests()))));
    check_expected("report", "explained-blend",
                   whole(explanation_page(batch_subject(blended(example_request(Process::oil)), example_tests()))));
}

TEST_CASE("The limits of paints, whole", "[unit]") {
    for (const auto& [name, process, k] : {std::tuple{"limits-lean-pans", Process::watercolour, 0.7},
                                           {"limits-oil", Process::oil, 1.35}, {"limits-rich-tempera", Process::egg_tempera, 2.2}}) {
        auto asked = limits_of(process, k);
        asked.rescue = RescueWish{};
        check_limits(name, asked);
    }
    auto rich = limits_of(Process::oil, 3.0);
    rich.rescue = RescueWish{};
    rich.rescue->jar = grams(4.0);
    rich.rescue->accepted = Probability::of(0.2);
    check_limits("limits-rich-oil", rich);
}

TEST_CASE("The limits of a blend, of a jar on record and of what is half known, whole", "[unit]") {
    auto blend = limits_of(Process::oil, 1.2);
    blend.request = blended(blend.request);
    blend.with_packing = true;
    check_limits("limits-blend", blend);
    auto known = limits_of(Process::watercolour, 1.4);
    known.request.learned_doubt = NormalMixture(0.09);
    const auto outlook = learned();
    check_limits("limits-with-a-record", known, &outlook);
    auto half = limits_of(Process::oil, 1.2);
    half.density_known = false;
    check_limits("limits-without-density", half);
    half.density_known = true, half.oil_absorption_known = false;
    check_limits("limits-without-absorption", half);
}

TEST_CASE("Layers, whole", "[unit]") {
    const LayerPaint white{"lead white", PigmentVolumeConcentration::of(0.45), MassFraction::of(0.12)},
        lake{"madder lake", PigmentVolumeConcentration::of(0.30), MassFraction::of(0.45)},
        earth{"green earth", PigmentVolumeConcentration::of(0.31), MassFraction::of(0.40)};
    const auto wrong = judge_layers({lake, white, earth}, 0.02), right = judge_layers({white, earth, lake}, 0.02);
    check_expected("report", "layers",
                   whole(layer_page(wrong)) + whole_json(layer_json(wrong)) + whole(layer_page(right)) + whole_json(layer_json(right)));
}

TEST_CASE("Sweeps, whole", "[unit]") {
    auto asked = limits_of(Process::oil, 1.2);
    asked.request = blended(asked.request);
    asked.with_packing = true;
    const auto subject = pvc_subject(asked);
    std::string text;
    for (const auto over : {SweepOver::medium, SweepOver::extender, SweepOver::size_ratio}) {
        const auto table = sweep_table(sweep_paint(subject, usual_range(over, subject)));
        text += whole(sweep_page(table)) + "\n" + sweep_text(table) + "\n" + whole_json(sweep_json(table));
    }
    check_expected("report", "sweeps", text);
}

TEST_CASE("Oil with wax and drops of clove, whole", "[unit]") {
    auto request = example_request(Process::oil);
    auto& recipe = request.recipe;
    recipe.additives = {{example_ingredient("beeswax", "Beeswax", Role::wax, 0.96, 1.0, 0.96), MassFraction::of(0.02), DoseBasis::medium}};
    check_batch("waxed", request);
    recipe.additives[0].ingredient.stock =
        StockPractice{{oil_of_the_medium}, Estimate<MassFraction>::exact(MassFraction::of(0.05), library()), grams(50.0)};
    recipe.additives.push_back({example_ingredient("clove-oil", "Clove oil", Role::preservative, 1.045, 0.0, 0.0, {Hazard::skin_sensitiser}),
                                MassFraction::of(0.002), DoseBasis::medium});
    request.bench.scales.resize(1);
    request.bench.kitchen.drop = millilitres(0.03);
    check_batch("waxed-by-a-stock", request);
}

TEST_CASE("Rescues in a damp room, and of what wants none, whole", "[unit]") {
    auto damp = limits_of(Process::watercolour, 1.3);
    damp.request.bench.humidity = RelativeHumidity::of(0.80);
    damp.rescue = RescueWish{};
    check_limits("limits-sticky", damp);
    auto fine = limits_of(Process::watercolour, 1.47);
    fine.rescue = RescueWish{};
    fine.rescue->aim = BinderSufficiency::of(1.47);
    check_limits("limits-at-the-aim", fine);
    auto bare = limits_of(Process::watercolour, 0.9);
    auto& parts = bare.request.recipe.medium.parts;
    parts = {parts[0], parts[1]};
    bare.request.recipe.medium.id = mixed_medium_id;
    bare.rescue = RescueWish{};
    check_limits("limits-without-plasticiser", bare);
}

TEST_CASE("Blends that were rubbed out, of unknown or nearly equal grains, whole", "[unit]") {
    auto blend = limits_of(Process::oil, 1.2);
    blend.request = blended(blend.request);
    blend.with_packing = true;
    const auto& pigments = blend.request.recipe.pigments;
    auto rubbed = blend;
    rubbed.blend_measured = true;
    rubbed.blend_of = pigments;
    rubbed.request.recipe.pigments = {{pigment_of_blend(pigments, Estimate<OilAbsorption>::lognormal(grams_per_100_grams(50), 1.11, measured()),
                                                        pigments[0].pigment.test_oil_density), MassFraction::of(1.0)}};
    check_limits("limits-blend-rubbed-out", rubbed);
    for (const auto& [name, first, second] : {std::tuple{"limits-blend-near", 5.5, 6.0}, {"limits-blend-colloidal", 0.3, 6.0}}) {
        auto sized = blend;
        sized.request.recipe.pigments[0].pigment.median_size = Estimate<Length>::exact(micrometres(first), measured());
        sized.request.recipe.pigments[1].pigment.median_size = Estimate<Length>::exact(micrometres(second), measured());
        check_limits(name, sized);
    }
    blend.request.recipe.pigments[1].pigment.median_size.reset();
    check_limits("limits-blend-unsized", blend);
}

TEST_CASE("What was spooned, believed and warned of, whole", "[unit]") {
    auto spooned = limits_of(Process::oil, 1.2);
    auto& pigment = spooned.request.recipe.pigments[0].pigment;
    const auto tapped = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(0.35), grams_per_cubic_centimetre(0.03), library());
    pigment.tapped_density = tapped;
    spooned.request.by_volume = {{0, tapped}};
    spooned.request.medium_spooned = 0.1;
    const auto reading = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(75.0), 1.11, measured()),
               expected = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(60.0), 1.35, library());
    pigment.oil_absorption_belief = {reading, expected};
    auto outlook = learned();
    outlook.worth_saying = true;
    outlook.kin_distance = {1, 0.4, 0.1, 0.15, 2.1};
    check_limits("limits-spooned", spooned, &outlook);
}

TEST_CASE("A paint of a jar that its bath left salty and alkaline, whole", "[unit]") {
    check_batch("pans-out-of-a-bath", out_of_a_bath(example_request(Process::watercolour)));
    check_batch("tube-out-of-a-bath", out_of_a_bath(example_request(Process::oil)));
    auto asked = limits_of(Process::watercolour, 1.4);
    asked.request.jar = JarOnHand{0, grams(24.0)};
    asked.request = out_of_a_bath(asked.request);
    check_limits("limits-out-of-a-bath", asked);
}

TEST_CASE("A sheet of an assumed bench, with a note, of what is not dusty and fills no vessel, whole", "[unit]") {
    auto request = example_request(Process::watercolour);
    auto& recipe = request.recipe;
    recipe.vessel.reset();
    recipe.note = "Keep it out of the sun.";
    recipe.medium.shelf_life.clear();
    recipe.working_water = {};
    recipe.pigments[0].pigment.hazards.clear();
    recipe.pigments[0].pigment.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.30), measured());
    request.aim = BinderSufficiency::of(1.2);
    auto subject = batch_subject(request, example_tests());
    subject.bench_assumed = true;
    subject.jar_name = "Weld of May";
    check_expected("report", "sheet-of-an-assumed-bench", whole(weigh_sheet_page(subject)) + "\n" + whole_json(batch_json(subject, false)));
    // A program may ask for the masses alone: what nobody reckoned is not shown, and no chart of it.
    subject.chance.reset(), subject.next.reset();
    check_expected("report", "sheet-without-a-chance", whole(weigh_sheet_page(subject)) + "\n" + whole(explanation_page(subject)));
    subject.judgement.reset();
    CHECK(batch_json(subject, false).find("\"chance\"") == std::string::npos);
}

TEST_CASE("More than there is: by mass, by pans of which none can be filled, and nothing at all, whole", "[unit]") {
    auto by_mass = example_request(Process::watercolour, grams(60.0));
    check_batch("short-by-mass", by_mass);
    auto nothing = example_request(Process::oil, grams(5.0));
    nothing.jar = JarOnHand{0, grams(0.4)}; // less than the reserve
    const auto subject = batch_subject(nothing, example_tests());
    REQUIRE_FALSE(subject.answer.batch);
    check_expected("report", "short-of-all", whole(weigh_sheet_page(subject)) + "\n" + whole_json(batch_json(subject, true)) + whole(explanation_page(subject)));
    auto pans = example_request(Process::watercolour);
    pans.amount = VesselCount{*pans.recipe.vessel, 4};
    pans.jar = JarOnHand{0, grams(1.6)};
    check_batch("short-of-a-pan", pans);
}

TEST_CASE("What fills less than its vessel, whole", "[unit]") {
    check_batch("less-than-a-tube", example_request(Process::oil, grams(3.0)));
    auto yolk = example_request(Process::egg_tempera, grams(1.0));
    auto& recipe = yolk.recipe;
    recipe.medium.parts.push_back({example_ingredient("water", "Water", Role::water, 0.9982, 0.0), 0.5});
    recipe.medium.id = "yolk-and-water", recipe.medium.name = "Yolk and water";
    recipe.medium.parts.front().ingredient.in_one_egg.reset();
    recipe.working_water = {};
    check_batch("less-than-a-pot-of-yolk", yolk);
}

TEST_CASE("Pours where the brim is never reached, and oil whose wax is in its medium, whole", "[unit]") {
    auto subject = batch_subject(example_request(Process::watercolour), example_tests());
    subject.answer.batch->filling->pours->brim.reset();
    check_expected("report", "pans-by-thirds", whole(weigh_sheet_page(subject)) + "\n" + whole_json(batch_json(subject, false)));
    auto request = example_request(Process::oil);
    auto& medium = request.recipe.medium;
    medium.parts.push_back({example_ingredient("beeswax", "Beeswax", Role::wax, 0.96, 1.0, 0.96), 0.03});
    medium.id = "wax-oil", medium.name = "Oil with wax";
    request.recipe.vessel->fill = Share::of(0.9);
    request.recipe.vessel->capacity = Estimate<Volume>::exact(millilitres(6.0), measured());
    request.stocks = {{"beeswax", grams(0.28)}};
    request.bench.scales[0].capacity = grams(8.0), request.bench.scales.resize(1);
    check_batch("wax-in-its-medium", request);
}

TEST_CASE("A sheet with a record that is not kept yet, or a slip, or nothing but the library, whole", "[unit]") {
    const auto subject = batch_subject(example_request(Process::oil), example_tests());
    SheetRecord record;
    record.jar_id = "weld";
    record.outlook = learned();
    record.outlook.kin = {}, record.outlook.own_readings = {}, record.outlook.own_paints = {};
    record.outlook.worth_saying = true;
    record.outlook.kin_distance = {1, 0.4, 0.1, 0.15, 2.1};
    record.outlook.surprises = {{std::size_t{0}, {}, Probability::of(0.004)}};
    record.outlook.coaching.advice = CoachAdvice::steps_used_up;
    record.remark = "That is ten times the usual dose.";
    check_expected("report", "tube-without-a-record", whole(weigh_sheet_page(subject, &record)) + "\n" + whole_json(batch_json(subject, false, &record)));
}

TEST_CASE("The limits of what has no excess, no guide and no chance, whole", "[unit]") {
    auto neither = limits_of(Process::watercolour, 1.4);
    neither.density_known = neither.oil_absorption_known = false;
    check_limits("limits-of-hardly-anything", neither);
    auto damp = limits_of(Process::watercolour, 1.4);
    auto& pigment = damp.request.recipe.pigments[0].pigment;
    pigment.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.30), measured());
    damp.request.recipe.medium.parts.resize(2);
    damp.assumed.clear();
    damp.rescue = RescueWish{};
    damp.rescue->soft_aim = VolumeFraction::of(0.45);
    check_limits("limits-damp-and-bare", damp);
    // No test is at hand: what comes next is told without a table of tests.
    auto untested = limits_of(Process::oil, 1.3);
    untested.tests.candidates.clear();
    check_limits("limits-without-a-test", untested);
    auto sticky = limits_of(Process::watercolour, 1.45);
    sticky.request.bench.humidity = RelativeHumidity::of(0.85);
    auto& parts = sticky.request.recipe.medium.parts;
    for (auto& part : parts)
        if (part.ingredient.role == Role::plasticiser) part.parts *= 3.0;
    sticky.rescue = RescueWish{};
    check_limits("limits-very-sticky", sticky);
}
