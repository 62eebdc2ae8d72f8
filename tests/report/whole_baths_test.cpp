// Whole sheets of a bath and of where it stands, line by line as a person or a program gets them. The texts under
// expected/ were read; what is new there must be read before it is kept.
#include <catch2/catch.hpp>

#include "bath/kitchen_bath.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "support/weighed_cakes.hpp"
#include "support/whole_answer.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Bench kitchen_bench() {
    auto bench = lakebound::testing::bare_bench();
    bench.name = "Kitchen";
    bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}}};
    return bench;
}
BathPlan planned(const BathWish& wish) { return plan_bath(wish, usual_laking(), usual_wash_habits()); }
void check_sheet(const std::string& name, const BathWish& wish) {
    const auto plan = planned(wish);
    check_expected("report", name, whole(bath_page(plan, kitchen_bench())) + "\n" + whole_json(bath_json(plan)));
}

BathSetting dyed_bath() {
    auto setting = kitchen_bath();
    setting.dye_liquor = litres(1.3);
    return setting;
}
std::string stands(const BathReadings& readings) {
    const auto at = bath_standing(readings, dyed_bath());
    return whole(bath_standing_page(planned(roots_and_alum()), at, kitchen_bench())) + "\n" + whole_json(bath_standing_json(at)) + "\n";
}
PenReading reads(double us) { return {microsiemens_per_centimetre(us), degrees_celsius(25), {}}; }

} // namespace

TEST_CASE("Sheets of baths, whole", "[unit]") {
    check_sheet("bath", roots_and_alum());
    auto tight = roots_and_alum();
    tight.pot = litres(1.0), tight.vessel = litres(6), tight.plant->fresh = true;
    check_sheet("bath-in-a-small-pot", tight);
    auto liquor = roots_and_alum();
    liquor.plant.reset();
    liquor.water = litres(1.5), liquor.aluminium = ammonium_alum(), liquor.alkali = soda_crystals();
    liquor.strength = Strength{0.05};
    check_sheet("bath-of-a-liquor", liquor);
    auto chalk = roots_and_alum();
    chalk.alkali = chalk_salt();
    check_sheet("bath-with-chalk", chalk);
}

TEST_CASE("Where a bath stands, whole", "[unit]") {
    BathReadings r{};
    std::string text = stands(r);
    r.filter = {{minutes(30), litres(.3)}, {hours(2), litres(.6)}};
    r.to_filter = litres(1.7);
    text += stands(r);
    check_expected("report", "bath-at-the-filter", text);
    r = {};
    r.alkali = {grams(5)};
    r.foam_life = seconds(60);
    text = stands(r);
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.6), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}};
    r.hue = "warm rose", r.swatch = 12;
    text += stands(r);
    r.hue.clear(), r.swatch.reset();
    r.alkali = {grams(25)};
    r.ph = {{Ph::of(9.4), PhMeans::strip, false}};
    text += stands(r);
    check_expected("report", "bath-being-laid", text);
}

TEST_CASE("A bath that is washed and dried, whole", "[unit]") {
    BathReadings r{};
    r.wash_water = reads(200);
    r.decants = {reads(12000), reads(4330)};
    std::string text = stands(r);
    r.weighings = weighed_daily({38.6, 24.9, 17.9});
    text += stands(r);
    r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.3, 12.5, 11.5, 11.1, 10.8, 10.7, 10.65, 10.62});
    text += stands(r);
    check_expected("report", "bath-washed-and-dried", text);
}

TEST_CASE("Sheets of baths that begin otherwise, or stand on a maker's own end points, whole", "[unit]") {
    auto by_lake = roots_and_alum();
    by_lake.aluminium_mass.reset();
    by_lake.lake = grams(12.0);
    by_lake.hydroxides = HydroxideBelief{2.71, 0.05};
    by_lake.end_points = 1;
    check_sheet("bath-for-a-lake", by_lake);
    auto cold = planned(by_lake); // what dissolves needs no word
    const auto silent = whole(bath_page(cold, kitchen_bench()));
    cold.alkali_dissolves = true, cold.aluminium_dissolves = true;
    CHECK(whole(bath_page(cold, kitchen_bench())) == silent);
    auto by_plant = roots_and_alum();
    by_plant.aluminium_mass.reset();
    by_plant.hydroxides = HydroxideBelief{2.71, 0.03};
    by_plant.end_points = 3;
    by_plant.strength = Strength{0.25};
    by_plant.pot = litres(0.8);
    auto plan = planned(by_plant);
    plan.alkali_dissolves = false, plan.aluminium_dissolves = false;
    check_expected("report", "bath-for-a-plant",
                   whole(new_bath_page(plan, kitchen_bench(), "madder", "baths/madder.yaml")) + "\n" + whole_json(bath_json(plan)));
}

TEST_CASE("A bath that sinks, whose colour was matched, whole", "[unit]") {
    BathReadings r{};
    r.wash_water = reads(200);
    r.blanket = InterfaceHeights{millimetres(100.0), millimetres(62.0), millimetres(48.0), hours(2.0)};
    std::string text = stands(r);
    r.blanket = InterfaceHeights{millimetres(100.0), millimetres(97.0), millimetres(94.5), minutes(20.0)};
    r.colour = ColourMatch{4.0};
    text += stands(r);
    check_expected("report", "bath-that-sinks", text);
}

TEST_CASE("A standing after an entry tells only what the entry is about, whole", "[unit]") {
    using namespace std::chrono_literals;
    const std::chrono::sys_days thursday = 2026y / std::chrono::May / 14;
    const auto plan = planned(roots_and_alum());
    BathTold told;
    told.bath = "madder";
    const auto tells = [&](const BathReadings& readings) {
        const auto at = bath_standing(readings, dyed_bath());
        return whole(bath_standing_page(plan, at, kitchen_bench(), told)) + "\n" + whole_json(bath_standing_json(at, told)) + "\n";
    };
    told.kept = "baths/madder/2026-05-14-01-ran.yaml";
    told.entered = {"ran"};
    BathReadings r{};
    r.filter = {{minutes(30), litres(.3)}, {hours(2), litres(.6)}};
    r.to_filter = litres(1.7);
    std::string text = tells(r);
    r.alkali = {grams(14.5)};
    r.ph = {{Ph::of(6.6), PhMeans::pen, false}, {Ph::of(6.5), PhMeans::pen, false}};
    told.kept = "baths/madder/2026-05-14-03-ph.yaml";
    told.entered = {"poured", "pH", "pH"};
    told.taken_back = "2026-05-13-01-poured";
    text += tells(r);
    told.taken_back.clear();
    r.colour = ColourMatch{4.0};
    told.entered = {"colour"};
    text += tells(r);
    told.entered = {"decant"};
    r.wash_water = reads(200);
    r.decants = {reads(3000), reads(300)};
    text += tells(r);
    // Dried: neither filter, nor alkali, nor salts are told of again. Then in its jar, with its whole record.
    told.entered = {};
    told.dry = DayRange{thursday, thursday + std::chrono::days(3)};
    r.weighings = weighed_daily({38.6, 24.9, 17.9, 14.3});
    text += tells(r);
    told.kept.clear();
    told.lines = {{"2026-05-14-01-began", thursday, "note", "", ""}, {"2026-05-15-01-decant", thursday + std::chrono::days(1), "decant", "300 uS/cm", "warm"}};
    r.jarred = true;
    text += tells(r);
    check_expected("report", "bath-after-an-entry", text);
}

TEST_CASE("Washing with hard water, whole", "[unit]") {
    BathReadings r{};
    r.wash_water = reads(6000);
    r.decants = {reads(12000)};
    std::string text = stands(r);
    r.decants = {reads(6060)};
    text += stands(r);
    check_expected("report", "bath-in-hard-water", text);
}
