#include "lakebound/shelf/bench_reading_file.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <variant>

#include "faults_of.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string head = "kind: bench reading\nname: Trial\nscale: 0.01 g\nrepeatability: 0.02 g\n";
const std::string displacement = head + "test: displacement\npigment: 3.02 g\ngraduate: 0.2 mL\nbefore: 6.0 mL\nafter: 7.6 mL\n";
const std::string fill = head + "test: tapped fill\nruler: 1 mm\ndiameter: 42 mm\nheight: 50 mm\npowder: 24.24 g\n";
const std::string drying = head + "test: moisture\ndish: 20.00 g\ndish_and_wet: 30.00 g\ndish_and_dry: 23.69 g\n";
const std::string bottle = head + "test: pyknometer\nfull_of_liquid: 52.37 g\npigment: 3.02 g\npigment_and_liquid: 53.79 g\nliquid: 0.99705 g/cm3\n";
const std::string rub_outs = head + "test: rub-out\ndropper: {drops: 50, weighed: 1.81 g}\nrub_outs:\n"
                                    "  - {pigment: 1.00 g, oil: 19 drops}\n  - {pigment: 2.00 g, oil: 38 drops}\n";

BenchReading read(const std::string& text) { return read_bench_reading(load_document("r.yaml", text)); }
std::string faults(const std::string& text) {
    return summary(faults_of([&] { (void)read(text); }));
}
std::string changed(std::string text, const std::string& from, const std::string& to) {
    REQUIRE(text.find(from) != std::string::npos);
    return text.replace(text.find(from), from.size(), to);
}

} // namespace

TEST_CASE("Each kind of bench reading is read with what was weighed and measured", "[unit]") {
    const auto in_water = std::get<Displacement>(read(displacement).test);
    CHECK(in_grams(in_water.pigment) == Approx(3.02));
    CHECK(in_grams(in_water.scale.step) == Approx(0.01));
    CHECK(in_grams(in_water.scale.repeatability) == Approx(0.02));
    CHECK(in_millilitres(in_water.graduate.step) == Approx(0.2));
    CHECK(in_millilitres(in_water.before) == Approx(6.0));
    CHECK(in_millilitres(in_water.after) == Approx(7.6));
    CHECK(read(displacement).name == "Trial");
    const auto tapped = std::get<TappedFillReading>(read(fill).test);
    CHECK(in_millimetres(tapped.fill.ruler.step) == Approx(1.0));
    CHECK(in_millimetres(tapped.fill.diameter) == Approx(42.0));
    CHECK(in_millimetres(tapped.fill.height) == Approx(50.0));
    CHECK(in_grams(tapped.powder) == Approx(24.24));
    const auto damp = std::get<MoistureReading>(read(drying).test).test;
    CHECK(in_grams(damp.dish) == Approx(20.0));
    CHECK(in_grams(damp.dish_and_wet) == Approx(30.0));
    CHECK(in_grams(damp.dish_and_dry) == Approx(23.69));
    const auto solids = std::get<MediumSolidsReading>(read(changed(drying, "test: moisture", "test: medium solids")).test).test;
    CHECK(in_grams(solids.dish_and_dry) == Approx(23.69));
    const auto pyknometer = std::get<Pyknometer>(read(bottle).test);
    CHECK(in_grams(pyknometer.full_of_liquid) == Approx(52.37));
    CHECK(in_grams(pyknometer.pigment_and_liquid) == Approx(53.79));
    CHECK(in_grams_per_cubic_centimetre(pyknometer.liquid) == Approx(0.99705));
    const auto series = std::get<RubOutSeries>(read(rub_outs).test);
    REQUIRE(series.rub_outs.size() == 2);
    CHECK(series.rub_outs[0].drops == Approx(19.0));
    CHECK(series.rub_outs[1].drops == Approx(38.0));
    CHECK(in_grams(series.rub_outs[1].pigment) == Approx(2.0));
    REQUIRE(series.dropper);
    CHECK(series.dropper->drops == Approx(50.0));
    CHECK(in_grams(series.dropper->weighed) == Approx(1.81));
}

TEST_CASE("A reading that lacks a figure, or that no powder gives, is refused where it stands", "[errors]") {
    CHECK(faults("kind: bench reading\nname: Trial\n") == "key-missing 1:1");
    CHECK(faults(changed(displacement, "name: Trial\n", "")) == "key-missing 1:1");
    CHECK(faults(changed(displacement, "test: displacement", "test: floating")) == "word-unknown 5:7");
    for (const char* key : {"pigment: 3.02 g\n", "graduate: 0.2 mL\n", "before: 6.0 mL\n", "after: 7.6 mL\n", "scale: 0.01 g\n"})
        CHECK(faults(changed(displacement, key, "")) == "key-missing 1:1");
    for (const char* key : {"ruler: 1 mm\n", "diameter: 42 mm\n", "height: 50 mm\n", "powder: 24.24 g\n"})
        CHECK(faults(changed(fill, key, "")) == "key-missing 1:1");
    for (const char* key : {"dish: 20.00 g\n", "dish_and_wet: 30.00 g\n", "dish_and_dry: 23.69 g\n"})
        CHECK(faults(changed(drying, key, "")) == "key-missing 1:1");
    // Level after below before, dry above wet, a bottle lighter with powder in it, no oil at all.
    CHECK(faults(changed(displacement, "after: 7.6 mL", "after: 5.6 mL")) == "out-of-range 5:7");
    CHECK(faults(changed(drying, "dish_and_dry: 23.69 g", "dish_and_dry: 31 g")) == "out-of-range 5:7");
    CHECK(faults(changed(changed(drying, "test: moisture", "test: medium solids"), "dish_and_dry: 23.69 g", "dish_and_dry: 19 g")) == "out-of-range 5:7");
    CHECK(faults(changed(bottle, "pigment_and_liquid: 53.79 g", "pigment_and_liquid: 60 g")) == "out-of-range 5:7");
    CHECK(faults(changed(rub_outs, "38 drops", "1.40 g")) == "rub-out-oil 9:28"); // weighed, where a dropper is given
    CHECK(faults(changed(displacement, "name: Trial\n", "name: Trial\nnote: [1]\n")) == "value-shape 3:7");
}
