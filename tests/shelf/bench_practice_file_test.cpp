#include "lakebound/shelf/bench_practice_file.hpp"

#include <catch2/catch.hpp>

#include "habit_rows.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

using P = BenchPractice;
using Row = HabitRow<P>;

std::string head_with(const std::string& strengths) {
    return "kind: bench practice\nname: Test\nstock_strengths: {values: [" + strengths +
           "], evidence: {origin: estimate}}\n";
}

P practice_of(const std::string& text) {
    return read_bench_practice(load_document("p.yaml", text));
}

const std::vector<std::string> not_0_to_2 = {"-0.001", "2.001"}, all_0_to_2 = {"0", "2"};
const std::vector<std::string> not_above_0 = {"0", "2.001"}, up_to_2 = {"0.000001", "2"};
const std::vector<std::string> not_0_to_1 = {"-0.001", "1.001"}, all_0_to_1 = {"0", "1"};

const std::vector<Row> rows = {
    {"rub_out_repeat_spread", "0.101", 0.101, [](const P& p) { return p.rub_out.repeat_spread; }, not_above_0, up_to_2},
    {"rub_out_repeat_weight", "3", 3, [](const P& p) { return p.rub_out.repeat_weight; }, {"0", "1000.1"}, {"0.01", "1000"}},
    {"rub_out_hand_and_oil", "0.102", 0.102, [](const P& p) { return p.rub_out.hand_and_oil; }, not_above_0, up_to_2},
    {"moisture_drift", "0.103", 0.103, [](const P& p) { return p.moisture_drift; }, not_0_to_2, all_0_to_2},
    {"shared_guess", "0.104", 0.104, [](const P& p) { return p.shared_guess; }, not_0_to_2, all_0_to_2},
    {"spoon_filling", "0.105", 0.105, [](const P& p) { return p.spoon_filling; }, not_0_to_2, all_0_to_2},
    {"drop_spread", "0.106", 0.106, [](const P& p) { return p.small_amounts.drop_spread; }, not_0_to_2, all_0_to_2},
    {"most_drops", "41", 41, [](const P& p) { return p.small_amounts.most_drops; }, {"-1", "1000.1"}, {"0", "1000"}},
    {"most_medium_for_drops", "501 g", 501, [](const P& p) { return in_grams(p.small_amounts.most_medium_for_drops); }, {"-1 g"}, {"0 g"}},
    {"stock_share", "0.51", 0.51, [](const P& p) { return p.small_amounts.stock_share; }, not_0_to_1, all_0_to_1},
    {"most_syringe_fills", "4", 4, [](const P& p) { return p.small_amounts.most_syringe_fills; }, {"-1", "1000.1"}, {"0", "1000"}},
    {"least_stock", "2.5 g", 2.5, [](const P& p) { return in_grams(p.small_amounts.least_stock); }, {"-1 g"}, {"0 g"}},
    {"unusual_dose", "2.1", 2.1, [](const P& p) { return p.notice.unusual_dose; }, {"0.999", "1000.1"}, {"1", "1000"}},
    {"rounding_shift", "0.107", 0.107, [](const P& p) { return p.notice.rounding_shift; }, not_0_to_1, all_0_to_1},
    {"large_loss", "0.108", 0.108, [](const P& p) { return p.notice.large_loss; }, not_0_to_1, all_0_to_1},
    {"fluid_paint", "1.6", 1.6, [](const P& p) { return p.notice.fluid_paint; }, {"0.999", "1000.1"}, {"1", "1000"}},
    {"layers_alike", "0.109", 0.109, [](const P& p) { return p.notice.layers_alike; }, {"-0.001", "0.501"}, {"0", "0.5"}},
    {"assumed_scale", "0.2 g", 0.2, [](const P& p) { return in_grams(p.assumed_bench.scale_step); }, {"0 g"}, {"0.0001 g"}},
    {"assumed_slab_loss", "0.7 g", 0.7, [](const P& p) { return in_grams(p.assumed_bench.slab_loss); }, {"-0.1 g"}, {"0 g"}},
    {"assumed_slab_loss_share", "4 %", 0.04, [](const P& p) { return p.assumed_bench.slab_loss_share.value(); }, {"-1 %", "50.1 %"}, {"0 %", "50 %"}},
    {"assumed_weighing_tolerance", "6 %", 0.06, [](const P& p) { return p.assumed_bench.weighing_tolerance.value(); }, {"0 %", "50.1 %"}, {"0.1 %", "50 %"}},
    {"assumed_humidity", "40 %", 0.40, [](const P& p) { return p.assumed_bench.humidity.value(); }, {"-1 %", "100.1 %"}, {"0 %", "100 %"}},
    {"assumed_temperature", "18 degC", 18.0, [](const P& p) { return in_degrees_celsius(p.assumed_bench.temperature); }, {"-21 degC", "81 degC"}, {"-19 degC", "79 degC"}},
    {"typed_density", "0.021", 0.021, [](const P& p) { return p.typed.density; }, not_above_0, up_to_2},
    {"typed_reading", "0.11", 0.11, [](const P& p) { return p.typed.reading; }, not_above_0, up_to_2},
    {"bought_oil", "0.004", 0.004, [](const P& p) { return p.typed.bought_oil; }, not_above_0, up_to_2},
    {"test_oil", "0.92 g/cm3", 0.92, [](const P& p) { return in_grams_per_cubic_centimetre(p.test_oil.value()); }, {"0.009 g/cm3", "25.1 g/cm3"}, {"0.01 g/cm3", "25 g/cm3"}},
};

std::string fault_of(const std::string& strengths) {
    return summary(faults_of([&] { practice_of(written(head_with(strengths), rows)); }));
}

} // namespace

TEST_CASE("Each figure of bench practice lands in its own place and holds its limits", "[unit][errors]") {
    check_rows(head_with("10 % w/w"), rows, practice_of);
}

TEST_CASE("Stocks go from the strongest to the weakest, half oil at most", "[unit][errors]") {
    const auto& strengths = practice_of(written(head_with("50 % w/w, 5 % w/w, 0.5 % w/w"), rows)).small_amounts.stock_strengths;
    REQUIRE(strengths.size() == 3);
    CHECK(strengths[0].value() == Approx(0.5));
    CHECK(strengths[1].value() == Approx(0.05));
    CHECK(strengths[2].value() == Approx(0.005));
    CHECK(fault_of("5 % w/w, 5 % w/w") == "out-of-range 3:37");
    CHECK(fault_of("5 % w/w, 6 % w/w") == "out-of-range 3:37");
    CHECK(fault_of("50.1 % w/w") == "out-of-range 3:28");
    CHECK(fault_of("5 % w/w, 0 % w/w") == "quantity-negative 3:37");
    CHECK(fault_of("five").find(" 3:28") != std::string::npos);
}
