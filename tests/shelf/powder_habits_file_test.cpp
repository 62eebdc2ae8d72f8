#include "lakebound/shelf/powder_habits_file.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "habit_rows.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

using H = PowderHabits;
using Row = HabitRow<H>;

const std::string head = "kind: powder habits\nname: Test\nusual_powder: weld\n";

H powder_habits_of(const std::string& text) {
    return read_powder_habits(load_document("h.yaml", text));
}

const std::vector<std::string> no_half = {"0 %", "50.1 %"}, half = {"0.01 %", "50 %"};
const std::vector<std::string> no_part = {"0 %", "100.1 %"}, part = {"0.01 %", "100 %"};
const std::vector<std::string> before = {"-1 min"}, from_0 = {"0 min"};
const std::vector<std::string> no_grain = {"0.9 nm", "5.1 mm"}, grain = {"1 nm", "5 mm"};
const std::vector<std::string> no_height = {"0 mm", "1.001 m"}, height = {"0.01 mm", "1 m"};
const std::vector<std::string> no_exponent = {"0", "5.01"}, exponents = {"0.001", "5"};

const std::vector<Row> rows = {
    {"sieving_repeats_to", "1.1 % w/w", 0.011, [](const H& h) { return h.sieving_repeats_to.value().value(); }, {"0 % w/w", "50.1 % w/w"}, {"0.01 % w/w", "50 % w/w"}},
    {"dry_efficiency", "91 %", 0.91, [](const H& h) { return h.dry_efficiency.value().value(); }, no_part, part},
    {"wet_efficiency", "96 %", 0.96, [](const H& h) { return h.wet_efficiency.value().value(); }, no_part, part},
    {"loss", "2 %", 0.02, [](const H& h) { return h.loss.value().value(); }, {"-1 %", "50.1 %"}, {"0 %", "50 %"}},
    {"emptier_is_faster", "51 %", 0.51, [](const H& h) { return h.emptier_is_faster.value().value(); }, {"-1 %"}, {"0 %", "100 %"}},
    {"dry_handling", "4 min", 240, [](const H& h) { return in_seconds(h.dry_handling.value()); }, before, from_0},
    {"wet_handling", "11 min", 660, [](const H& h) { return in_seconds(h.wet_handling.value()); }, before, from_0},
    {"drying", "13 h", 46800, [](const H& h) { return in_seconds(h.drying.value()); }, before, from_0},
    {"fill_and_stir", "3 min", 180, [](const H& h) { return in_seconds(h.fill_and_stir.value()); }, before, from_0},
    {"pour", "2 min", 120, [](const H& h) { return in_seconds(h.pour.value()); }, before, from_0},
    {"solids", "3 % v/v", 0.03, [](const H& h) { return h.solids.value().value(); }, {"0 % v/v", "50.1 % v/v"}, {"0.01 % v/v", "50 % v/v"}},
    {"water_depth", "101 mm", 0.101, [](const H& h) { return in_metres(h.water_depth.value()); }, {"0.9 mm", "5.01 m"}, {"1 mm", "5 m"}},
    {"draw", "81 %", 0.81, [](const H& h) { return h.draw.value().value(); }, no_part, part},
    {"refills", "5", 5, [](const H& h) { return static_cast<double>(h.refills); }, {"-1", "2.5", "1000"}, {"0", "999"}},
    {"shortest_wait", "6 s", 6, [](const H& h) { return in_seconds(h.shortest_wait.value()); }, before, from_0},
    {"longest_wait", "25 h", 90000, [](const H& h) { return in_seconds(h.longest_wait.value()); }, {"0 min"}, {"0.1 min"}},
    {"dry_sieving_ends", "76 um", 76, [](const H& h) { return in_micrometres(h.dry_sieving_ends.value()); }, no_grain, grain},
    {"wet_screening_ends", "41 um", 41, [](const H& h) { return in_micrometres(h.wet_screening_ends.value()); }, no_grain, grain},
    {"usual_residue", "1.2 % w/w", 0.012, [](const H& h) { return h.usual_residue.value().value(); }, {"0 % w/w", "50.1 % w/w"}, {"0.01 % w/w", "50 % w/w"}},
    {"largest_grain", "2.1", 2.1, [](const H& h) { return h.largest_grain; }, {"1", "100.1"}, {"1.001", "100"}},
    {"selection_exponent", "0.8", 0.8, [](const H& h) { return std::exp(h.breakage.log_exponent); }, no_exponent, exponents},
    {"breakage_exponent", "1.25", 1.25, [](const H& h) { return std::exp(h.breakage.log_gamma); }, no_exponent, exponents},
    {"exponent_spread", "0.34", 0.34, [](const H& h) { return h.breakage.log_exponent_deviation; }, {"0", "2.01"}, {"0.001", "2"}},
    {"sieving_repeats_weight", "3", 3, [](const H& h) { return h.breakage.fraction_deviation_weight; }, {"0", "1000.1"}, {"0.001", "1000"}},
    {"cushioning", "0.6 +- 2.5", 0.6, [](const H& h) { return h.cushioning.latent; }, {"-0.1 +- 1", "100.1 +- 1", "0.5"}, {"0 +- 1", "100 +- 1"}},
    {"mulling_gain", "3 um", 3, [](const H& h) { return in_micrometres(h.mulling_gain.value()); }, no_grain, grain},
    {"mulling_spell", "11 min", 660, [](const H& h) { return in_seconds(h.mulling_spell.value()); }, {"0 min"}, {"0.1 min"}},
    {"height_read_to", "1.1 mm", 1100, [](const H& h) { return in_micrometres(h.height_read_to.value()); }, no_height, height},
    {"water_above_blanket", "16 mm", 16000, [](const H& h) { return in_micrometres(h.water_above_blanket.value()); }, no_height, height},
    {"decant_within", "6 %", 0.06, [](const H& h) { return h.decant_within.value().value(); }, no_half, half},
};

} // namespace

TEST_CASE("Each powder habit lands in its own place and holds its limits", "[unit][errors]") {
    check_rows(head, rows, powder_habits_of);
}

TEST_CASE("Both exponents share one spread, and a fit takes the scatter of the sieves", "[unit]") {
    const H habits = powder_habits_of(written(head, rows));
    CHECK(habits.breakage.log_gamma_deviation == Approx(0.34));
    CHECK(habits.breakage.fraction_deviation == Approx(0.011));
    CHECK(habits.cushioning.latent_deviation == Approx(2.5));
}
