#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_text.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

const KitchenMeasures spoons{millilitres(0.05), millilitres(5.0)};

std::string fault_of_amount(const std::string& text, bool shares = false) {
    return summary(faults_of([&] { (void)read_amount("--pigment", text, {}, shares); }));
}

std::string fault_of_figure(const std::string& text) {
    bool filled_in = false;
    return summary(faults_of([&] { (void)figure_option<OilAbsorption>("--oil-absorption", text, 0.1, filled_in); }));
}

} // namespace

TEST_CASE("A label is what stands before the colon", "[unit]") {
    CHECK(labelled("--pigment", "chalk: 3 g").label == "chalk");
    CHECK(labelled("--pigment", "chalk: 3 g").text == "3 g");
    CHECK(labelled("--pigment", " 3 g ").label.empty());
    CHECK(labelled("--pigment", " 3 g ").text == "3 g");
    CHECK(summary(faults_of([] { (void)labelled("--pigment", "Chalk 2: 3 g"); })) == "label-form");
}

TEST_CASE("An amount is a mass, a volume or a share that says of what", "[unit]") {
    CHECK(in_grams(std::get<Mass>(read_amount("--pigment", "12.5 g", {}, false))) == Approx(12.5));
    CHECK(in_millilitres(std::get<Volume>(read_amount("--pigment", "3 tsp", spoons, false))) == Approx(15.0));
    CHECK(std::get<MassFraction>(read_amount("--pigment", "30 % w/w", {}, true)).value() == Approx(0.3));
    CHECK(std::get<VolumeFraction>(read_amount("--pigment", "30 % v/v", {}, true)).value() == Approx(0.3));
    CHECK(fault_of_amount("2 parts") == "parts-basis");
    CHECK(fault_of_amount("30 %", true) == "percent-basis");
    CHECK(fault_of_amount("3 tsp") == "unit-uncalibrated");
    CHECK(fault_of_amount("0 g") == "out-of-range");
    CHECK(fault_of_amount("0 mL") == "out-of-range");
    CHECK(is_spooned("3 tsp", spoons));
    CHECK(is_spooned("12 drops", spoons));
    CHECK_FALSE(is_spooned("15 mL", spoons));
    CHECK_FALSE(is_spooned("15 g", spoons));
}

TEST_CASE("A figure keeps the uncertainty that was typed, and else takes the usual one", "[unit]") {
    bool filled_in = false;
    const auto given = figure_option<OilAbsorption>("--oil-absorption", "68 +- 7 g/100g", 0.1, filled_in);
    CHECK(in_grams_per_100_grams(given.value()) == Approx(68.0));
    CHECK(given.relative_uncertainty() == Approx(7.0 / 68.0));
    CHECK_FALSE(filled_in);
    const auto bare = figure_option<OilAbsorption>("--oil-absorption", "68 g/100g", 0.1, filled_in);
    CHECK(filled_in);
    CHECK(bare.relative_uncertainty() == Approx(0.1)); // of its logarithm
    CHECK(fault_of_figure("0 g/100g") == "out-of-range");
    CHECK(fault_of_figure("68 +- 80 g/100g") == "spread-too-wide");
    CHECK(fault_of_figure("68") == "unit-missing");
}

TEST_CASE("Of several texts the one with the pigment's label is taken, and only one", "[unit]") {
    const std::vector<std::string> texts{"chalk: 20 g/100g", "weld: 68 g/100g"};
    CHECK(text_for("--oil-absorption", texts, "weld", false) == "68 g/100g");
    CHECK_FALSE(text_for("--oil-absorption", texts, "madder", false).has_value());
    CHECK(text_for("--oil-absorption", {"68 g/100g"}, "weld", true) == "68 g/100g");
    CHECK(summary(faults_of([] { (void)text_for("--density", {"1.9 g/cm3"}, "weld", false); })) == "label-missing");
    CHECK(summary(faults_of([] {
              (void)text_for("--density", {"weld: 1.9 g/cm3", "weld: 2 g/cm3"}, "weld", false);
          })) == "option-twice");
}

TEST_CASE("One typed quantity has the bounds of its kind, each with its words", "[errors]") {
    const auto told = [](auto read) {
        const auto faults = faults_of(read);
        return faults.empty() ? std::string() : faults.front().id + ": " + faults.front().message + " | " + faults.front().hint;
    };
    CHECK(told([] { (void)quantity_option<RelativeHumidity>("--humidity", "120 %"); }) ==
          "out-of-range: --humidity \"120 %\": relative humidity must be 0 to 100 % | check the number, its sign and its unit");
    CHECK(told([] { (void)quantity_option<Mass>("--drew", "three"); }).find("--drew \"three\": ") != std::string::npos);
    CHECK(told([] { (void)positive_option<Mass>("--drew", "0 g"); }) == "out-of-range: --drew \"0 g\": must be above 0 | check the number and its sign");
    CHECK(told([] { (void)ranged_option<Length>("--depth", "0.9 mm", range::water_depth); }) ==
          "out-of-range: --depth \"0.9 mm\": must be 1 to 5000 mm | check the unit: is it mm?");
    CHECK(told([] { (void)ranged_option<Length>("--depth", "5.01 m", range::water_depth); }) ==
          "out-of-range: --depth \"5.01 m\": must be 1 mm to 5 m | check the unit: is it mm?");
    CHECK(in_millimetres(ranged_option<Length>("--depth", "1 mm", range::water_depth)) == Approx(1.0));
    CHECK(in_millimetres(ranged_option<Length>("--depth", "5 m", range::water_depth)) == Approx(5000.0));
    CHECK(fault_of_amount("1 part") == "parts-basis");
    CHECK(is_spooned("2 teaspoons", spoons));
    CHECK(is_spooned("1 drop", spoons));
}

TEST_CASE("A chance is written in per cent, and is never all or nothing", "[unit][errors]") {
    const auto told = [](const char* text) {
        const auto faults = faults_of([&] { (void)chance_option("--sure", text); });
        return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message + " / " + faults[0].hint;
    };
    CHECK(told("0.95") == "unit-missing: --sure \"0.95\": a chance is written in per cent / write --sure \"95 %\"");
    CHECK(told("95") == "unit-missing: --sure \"95\": a chance is written in per cent / write --sure \"95 %\"");
    CHECK(told("1") == "unit-missing: --sure \"1\": a chance is written in per cent / write --sure \"1 %\"");
    CHECK(told("1.5").find("\"1.5 %\"") != std::string::npos);
    CHECK(told("0.95 x").find("95 %") == std::string::npos);
    CHECK(told("0").find("write --sure") == std::string::npos);
    CHECK(told("120").find("120 %\"") == std::string::npos);
    CHECK(told("0 %").starts_with("out-of-range: --sure \"0 %\": must be above 0 / "));
    CHECK(told("100 %").starts_with("out-of-range: --sure \"100 %\": must be below 100 % / a chance is never all or nothing"));
    CHECK(chance_option("--sure", "95 %").value() == Approx(0.95));
    CHECK(chance_option("--sure", "99.9 %").value() == Approx(0.999));
}
