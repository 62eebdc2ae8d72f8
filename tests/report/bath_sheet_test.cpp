#include "lakebound/report/bath_sheet.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <optional>
#include <string>

#include "bath/salts.hpp"
#include "bath/usual_habits.hpp"
#include "lakebound/page/text_writer.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

Bench kitchen() {
    auto bench = lakebound::testing::bare_bench();
    bench.name = "Kitchen";
    bench.scales.push_back({});
    bench.scales.back().step = grams(0.1);
    return bench;
}

BathPlan small_plan(const Salt& alkali) {
    BathPlan plan;
    plan.wish.aluminium = potash_alum();
    plan.wish.alkali = alkali;
    plan.aluminium = grams(50);
    plan.aluminium_solution.salt = grams(50);
    plan.aluminium_solution.volume = millilitres(500);
    plan.alkali_solution.salt = grams(16);
    plan.alkali_solution.volume = millilitres(160);
    plan.alkali = {grams(13), grams(14.5), grams(16)};
    plan.middle_volume = millilitres(145);
    plan.high_volume = millilitres(160);
    plan.half_measure_excess = .492;
    plan.stop = {Ph::of(6), Ph::of(7)};
    plan.hydroxide_curve = plan.basic_curve = {{grams(0), 0.0, std::nullopt, {}}, {grams(16), 2.9, Ph::of(6.1), Share::of(.99)}};
    plan.cautions = bath_cautions(plan.wish.aluminium, alkali, true);
    plan.wash = {litres(1), litres(3)};
    return plan;
}

} // namespace

TEST_CASE("a sheet says what it stands on, and a chalk-laid lake is told apart", "[unit]") {
    BathPlan plan = small_plan(soda_ash());
    plan.lake_inputs = usual_lake(usual_wash_habits());
    plan.lake = LakeExpectation{};
    plan.lake->mass = grams(11.2);
    const auto text = page::write_text(bath_page(plan, kitchen()), {});
    CHECK_THAT(text, Contains("145 mL") && Contains("130 to 160 mL") && Contains("49 % over") && Contains("pH 6 to 7"));
    BathPlan chalked = small_plan(chalk_salt());
    chalked.chalk = ChalkLake{};
    chalked.chalk->alumina_share = MassFraction::of(.21);
    const auto other = page::write_text(bath_page(chalked, kitchen()), {});
    CHECK_THAT(other, Contains("ANOTHER PIGMENT") && Contains("21 %"));
    CHECK_THAT(other, !Contains("pH AT REST"));
}

TEST_CASE("a standing says what to do now and what is open", "[unit]") {
    BathPlan plan = small_plan(soda_ash());
    BathStanding at;
    at.stage = BathStage::laying;
    at.next = BathStep::add_aluminium;
    at.doubts = {BathDoubt::hydroxides_unknown};
    at.alkali = AlkaliStanding{};
    at.alkali->poured = grams(20);
    at.alkali->add_aluminium = grams(18.5);
    const auto text = page::write_text(bath_standing_page(plan, at, kitchen()), {});
    CHECK_THAT(text, Contains("BATH: laying the lake") && Contains("too much alkali") && Contains("18.5 g") && Contains("STILL IN DOUBT"));
    CHECK_THAT(bath_standing_json(at), Contains("\"add_aluminium\"") && Contains("hydroxides_unknown"));
}

TEST_CASE("a record adds its days, its entries and what was kept", "[unit]") {
    using namespace std::chrono_literals;
    const std::chrono::sys_days thursday = 2026y / std::chrono::May / 14;
    BathPlan plan = small_plan(soda_ash());
    BathStanding at;
    at.stage = BathStage::washing;
    at.next = BathStep::wash_again;
    at.to_expect_kg = {.0096, .0114};
    at.washed = WashOutlook{};
    at.washed->sure = 2u;
    BathTold told;
    told.bath = "madder";
    told.dry = DayRange{thursday, thursday + std::chrono::days(2)};
    told.lines = {{"2026-05-04-01-poured", thursday, "poured", "115 mL", "deep red"}};
    auto text = page::write_text(bath_standing_page(plan, at, kitchen(), told), {});
    CHECK_THAT(text, Contains("BATH: madder, washing") && Contains("2 washes more, dry on Thursday 14 to Saturday 16 May") &&
                         Contains("9.6 to") && Contains("11.4 g") && Contains("poured: 115 mL; deep red"));
    told.kept = "baths/madder/2026-05-05-01-decant.yaml";
    text = page::write_text(bath_standing_page(plan, at, kitchen(), told), {});
    CHECK_THAT(text, Contains("Kept in baths/madder/2026-05-05-01-decant.yaml") && !Contains("WHAT HAPPENED"));
    CHECK_THAT(bath_standing_json(at, told), Contains("\"first\": \"2026-05-14\"") && Contains("\"kept\"") && Contains("deep red"));
    told.jar = BathJar{};
    told.jar->remarks = {JarRemark::salts_for_oil};
    told.jar_file = "jars/madder.yaml";
    text = page::write_text(bath_standing_page(plan, at, kitchen(), told), {});
    CHECK_THAT(text, Contains("jars/madder.yaml") && Contains("one wash more"));
    CHECK_THAT(bath_standing_json(at, told), Contains("salts_for_oil"));
}
