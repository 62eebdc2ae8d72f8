#include "lakebound/report/reading_report.hpp"

#include <catch2/catch.hpp>

#include <sstream>

#include <nlohmann/json.hpp>

#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

const Instrument<Mass> scale{grams(0.01), {}};
const DropCalibration dropper{50, grams(1.81), scale};

std::string text_of(BenchReading reading) { return reading_text(answer_reading(reading, shipped_reading_habits())); }
nlohmann::json json_of(BenchReading reading) { return nlohmann::json::parse(reading_json(answer_reading(reading, shipped_reading_habits()))); }
RubOut weighed(double oil) { return {grams(100.0), 0.0, grams(oil), scale}; }
RubOut dropped(double pigment) { return {grams(pigment), 19.0, {}, scale}; }

// The worked readings of tests/material/bench_readings_test.cpp and docs/theory.md.
const BenchReading one_rub_out{"Rub-out of Lake M", RubOutSeries{{dropped(1.0)}, dropper}};
const BenchReading bottle{"Density", Pyknometer{grams(52.37), grams(3.02), grams(53.79),
                                                grams_per_cubic_centimetre(0.99705), scale}};
const BenchReading syringe{"Density", Displacement{grams(3.02), scale, millilitres(6.0), millilitres(7.6),
                                                   {millilitres(0.2), {}}}};
const BenchReading jar{"Fill", TappedFillReading{{millimetres(42), millimetres(50), {millimetres(1), {}}},
                                                 grams(24.2445), scale}};
const DryingTest drying{grams(20.00), grams(30.00), grams(23.69), scale};

} // namespace

TEST_CASE("A reading ends in a line ready for the file of the jar", "[reference]") {
    // By hand, in the tests of the formulas: 68.78 x/ exp(.1085), 1.88193 +- .00506, 1.89 +- .10, .35 x/ 1.015,
    // 36.9 +- .036 and 63.1 % w/w.
    CHECK_THAT(text_of(one_rub_out), Catch::EndsWith("\noil_absorption: 68.8 x/ 1.11 g/100g\n"));
    CHECK_THAT(text_of(bottle), Catch::EndsWith("\ndensity: 1.882 +- 0.005 g/cm3\n") ||
                                    Catch::EndsWith("\ndensity: 1.8819 +- 0.0051 g/cm3\n"));
    CHECK_THAT(text_of(syringe), Contains("\ndensity: 1.89 +- 0.1"));
    CHECK_THAT(text_of(jar), Contains("\ntapped_density: 0.35"));
    CHECK_THAT(text_of({"Medium", MediumSolidsReading{drying}}), Contains("\nnon_volatile: 36.9") && Catch::EndsWith(" % w/w\n"));
    CHECK_THAT(text_of({"Powder", MoistureReading{drying}}), Contains("\nmoisture: 63.1") && Catch::EndsWith(" % w/w\n"));
}

TEST_CASE("All before the figure is a comment of 80 columns at most, its name first", "[unit]") {
    for (const auto& reading : {one_rub_out, bottle, syringe, jar, BenchReading{"Medium", MediumSolidsReading{drying}},
                                BenchReading{"Powder", MoistureReading{drying}}}) {
        const auto text = text_of(reading);
        CHECK_THAT(text, Catch::StartsWith("# " + reading.name + "\n"));
        std::istringstream lines(text);
        int bare = 0;
        for (std::string line; std::getline(lines, line);) {
            CHECK(line.size() <= 80);
            bare += line.rfind("# ", 0) != 0;
        }
        CHECK(bare == 1);
    }
}

TEST_CASE("Rub-outs tell how many there are, how far apart, and what a drop is worth", "[unit]") {
    CHECK_THAT(text_of(one_rub_out), Contains("One rub-out: judging its end") && Contains("A drop weighs 0.0362 g.") &&
                                         Contains("One drop makes 3.6 g/100g: take more pigment"));
    // On 1.2 g and more a drop is 3.02 g/100g, on 1.21 g below 3.
    CHECK_THAT(text_of({"x", RubOutSeries{{dropped(1.20)}, dropper}}), Contains("One drop makes 3.0 g/100g"));
    CHECK_THAT(text_of({"x", RubOutSeries{{dropped(1.21)}, dropper}}), !Contains("One drop makes"));
    const auto agree = text_of({"x", RubOutSeries{{weighed(78), weighed(74)}, {}}});
    CHECK_THAT(agree, Contains("2 rub-outs: 78.0 and 74.0 g/100g; their geometric mean.") && !Contains("One rub-out") &&
                          !Contains("farther apart") && !Contains("A drop weighs"));
    CHECK_THAT(text_of({"x", RubOutSeries{{weighed(50), weighed(75), weighed(100)}, {}}}),
               Contains("3 rub-outs: ") && Contains("farther apart than one hand") && Contains("(2 %)"));
}

TEST_CASE("What two more rub-outs bring follows the maker's own practice", "[unit]") {
    CHECK_THAT(text_of(one_rub_out), Contains("makes most of the doubt") && Contains("bring it down to 7.5 %"));
    auto steady = shipped_reading_habits();
    steady.rub_out = {0.02, 4.0, 0.10};
    steady.constant_within = Share::of(0.02);
    const auto text = reading_text(answer_reading({"x", RubOutSeries{{weighed(75)}, {}}}, steady));
    CHECK_THAT(text, Contains("One rub-out. Two more bring its doubt to 10 %.") && !Contains("most of the doubt"));
    for (const BenchReading& reading : {BenchReading{"Gum", MediumSolidsReading{drying}}, BenchReading{"Lake", MoistureReading{drying}}})
        CHECK_THAT(reading_text(answer_reading(reading, steady)), Contains("agree within 2 %"));
}

TEST_CASE("Air is warned of where it matters more than the scale", "[unit]") {
    CHECK_THAT(text_of(bottle), Contains("A bubble of 0.05 mL"));
    auto kitchen = std::get<Pyknometer>(bottle.test);
    kitchen.scale = {grams(0.1), grams(0.1)};
    CHECK_THAT(text_of({"Density", kitchen}), !Contains("A bubble"));
    CHECK_THAT(text_of(syringe), Contains("Air left in the powder makes this too low"));
    CHECK_THAT(text_of(jar), !Contains("Air"));
}

TEST_CASE("JSON of a reading carries the figure in the unit of its key", "[identity]") {
    const auto rub = json_of(one_rub_out);
    CHECK(rub.at("kind") == "bench_reading");
    CHECK(rub.at("schema_version") == reading_json_version);
    CHECK(rub.at("figure") == "oil_absorption");
    CHECK(rub.at("name") == "Rub-out of Lake M");
    CHECK(rub.at("oil_absorption_g_per_100g").at("value").get<double>() == Approx(68.78).margin(5e-3));
    CHECK(rub.at("repeat_spread").get<double>() == Approx(0.0963).margin(5e-5)); // .095, a drop in 19 / sqrt 12, scale .0041
    CHECK(rub.at("readings_disagree") == false);
    CHECK(rub.count("chance_as_far_apart") == 0);
    const auto three = json_of({"x", RubOutSeries{{weighed(50), weighed(75), weighed(100)}, {}}});
    CHECK(three.at("chance_as_far_apart").get<double>() == Approx(0.0168).margin(2e-4)); // F(2, 4), closed form
    CHECK(three.at("readings_disagree") == true);
    CHECK(json_of(bottle).at("density_g_per_cm3").at("value").get<double>() == Approx(1.88193).epsilon(1e-5));
    CHECK(json_of(syringe).at("density_g_per_cm3").at("value").get<double>() == Approx(1.89).margin(0.005));
    CHECK(json_of(jar).at("tapped_density_g_per_cm3").at("value").get<double>() == Approx(0.35).epsilon(1e-4));
    CHECK(json_of({"Medium", MediumSolidsReading{drying}}).at("non_volatile_percent").at("value").get<double>() ==
          Approx(36.9).epsilon(1e-9));
    CHECK(json_of({"Powder", MoistureReading{drying}}).at("moisture_percent").at("value").get<double>() ==
          Approx(63.1).epsilon(1e-9));
    CHECK(rub.at("text") == "68.8 x/ 1.11 g/100g");
}
