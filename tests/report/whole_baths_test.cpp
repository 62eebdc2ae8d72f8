// Whole sheets of a bath and of where it stands, line by line as a person or a program gets them. The texts under
// expected/ were read; what is new there must be read before it is kept.
#include <catch2/catch.hpp>

#include "bath/kitchen_bath.hpp"
#include "lakebound/report/bath_sheet.hpp"
#include "support/weighed_cakes.hpp"
#include "support/whole_answer.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

Bench kitchen_bench() {
    Bench bench;
    bench.name = "Kitchen";
    bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}}};
    return bench;
}
BathPlan planned(const BathWish& wish) { return plan_bath(wish, usual_laking(), usual_wash_habits()); }
void check_sheet(const std::string& name, const BathWish& wish) {
    const auto plan = planned(wish);
    check_expected("report", name, whole(bath_page(plan, kitchen_bench())) + "\n" + whole_json(bath_json(plan)));
}

std::string stands(const BathReadings& readings) {
    const auto at = bath_standing(readings, kitchen_bath());
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
    r.ph = {{6.6, PhMeans::pen, false}, {6.5, PhMeans::pen, false}};
    r.hue = "warm rose", r.swatch = 12;
    text += stands(r);
    r.hue.clear(), r.swatch.reset();
    r.alkali = {grams(25)};
    r.ph = {{9.4, PhMeans::strip, false}};
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
