#include "lakebound/report/layer_report.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

using namespace lakebound;
using Catch::Contains;

namespace {

/// docs/theory.md, fat over lean: oil by weight and by volume of three ground paints.
LayerPaint layer(const char* name, double by_mass, double by_volume) {
    return {name, PigmentVolumeConcentration::of(1.0 - by_volume), MassFraction::of(by_mass)};
}
const auto white = layer("lead white", .130, .519), blue = layer("ultramarine", .301, .520),
           lake = layer("alizarin", .602, .723);

} // namespace

TEST_CASE("JSON of layers numbers them from the ground up and names each fault", "[unit]") {
    const auto json = nlohmann::json::parse(layer_json(judge_layers({lake, white, blue}, .02)));
    CHECK(json.at("kind") == "layers");
    CHECK(json.at("in_order") == false);
    const auto& ground = json.at("from_the_ground_up").at(0);
    CHECK(ground.at("name") == "alizarin");
    CHECK(ground.at("oil_volume_fraction").get<double>() == Approx(.723));
    CHECK(ground.at("oil_mass_fraction").get<double>() == Approx(.602));
    CHECK(ground.at("pvc").get<double>() == Approx(.277));
    // White over alizarin is the fault; blue is no leaner than white, the layer that it lies on.
    REQUIRE(json.at("lean_over_fat").size() >= 1);
    const auto& fault = json.at("lean_over_fat").at(0);
    CHECK(fault.at("lower") == 0);
    CHECK(fault.at("upper") == 1);
    CHECK(fault.at("difference").get<double>() == Approx(.204).epsilon(1e-9));
    CHECK(json.at("lean_to_fat") == nlohmann::json({1, 2, 0}));
    const auto right = nlohmann::json::parse(layer_json(judge_layers({white, blue, lake}, .02)));
    CHECK(right.at("in_order") == true);
    CHECK(right.at("lean_over_fat").empty());
}

TEST_CASE("The page of layers has a verdict, each layer with both figures, and the better order", "[unit]") {
    const auto wrong = layer_text(judge_layers({lake, white}, .02));
    CHECK_THAT(wrong, Contains("LEAN OVER FAT") && Contains("(72 % against") && Contains("1  alizarin") &&
                          Contains("2  lead white") && Contains("72 %") && Contains("60 %") && Contains("13 %"));
    CHECK_THAT(layer_text(judge_layers({white, lake}, .02)), Contains("IN ORDER") && !Contains("LEAN OVER FAT") && !Contains("lies over"));
}

TEST_CASE("The page of layers says how near counts as alike, as the maker's own practice has it", "[unit]") {
    CHECK_THAT(layer_text(judge_layers({white, lake}, .02)), Contains("Differences below 2 % of the film are not told"));
    CHECK_THAT(layer_text(judge_layers({white, lake}, .125)), Contains("Differences below 12.5 % of the film"));
    CHECK_THAT(layer_text(judge_layers({white, lake}, .0004)), Contains("Differences below 0.04 % of the film"));
    CHECK_THAT(layer_text(judge_layers({white, lake}, 0)), !Contains("Differences") && Contains("Judged by volume"));
}
