#include "lakebound/paint/layer_answer.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

namespace {

using namespace lakebound;

/// docs/theory.md, fat over lean: oil by weight and by volume of three ground paints.
LayerPaint laid(const char* name, double by_mass, double by_volume) {
    return {name, PigmentVolumeConcentration::of(1.0 - by_volume), MassFraction::of(by_mass)};
}
const LayerPaint white_layer = laid("lead white", .130, .519), blue_layer = laid("ultramarine", .301, .520),
                 lake_layer = laid("alizarin", .602, .723);
using LayerOrder = std::vector<std::size_t>;

} // namespace

TEST_CASE("layers are judged by volume and not by weight", "[unit]") {
    // Ultramarine holds more than twice the oil of lead white by weight, and the same by volume.
    CHECK(judge_layers({blue_layer, white_layer}, .02).in_order());
    CHECK(judge_layers({white_layer, blue_layer, lake_layer}, .02).in_order());
    const auto wrong = judge_layers({lake_layer, white_layer, blue_layer}, .02);
    CHECK_FALSE(wrong.in_order());
    REQUIRE(wrong.lean_over_fat.size() == 2);
    CHECK(wrong.lean_over_fat[0].lower == 0);
    CHECK(wrong.lean_over_fat[0].upper == 1);
    CHECK(wrong.lean_over_fat[0].difference == Approx(.204).epsilon(1e-9));
    CHECK(wrong.lean_over_fat[1].upper == 2);
    CHECK(wrong.lean_to_fat == LayerOrder{1, 2, 0});
    REQUIRE(wrong.from_the_ground_up.size() == 3);
    CHECK(wrong.from_the_ground_up[0].paint.name == "alizarin");
    CHECK(wrong.from_the_ground_up[0].oil_by_volume.value() == Approx(.723).epsilon(1e-12));
    CHECK(wrong.from_the_ground_up[2].paint.oil_by_mass.value() == Approx(.301));
    CHECK(wrong.alike == Approx(.02));
}

TEST_CASE("how near two layers count as alike decides, and is given back", "[unit]") {
    CHECK(judge_layers({blue_layer, white_layer}, .0005).lean_over_fat.size() == 1);
    CHECK(judge_layers({lake_layer, white_layer}, .21).in_order());
    CHECK(judge_layers({lake_layer, white_layer}, .21).lean_to_fat == LayerOrder{1, 0}); // the better order is told all the same
    CHECK(judge_layers({}, .02).in_order());
    CHECK_THROWS_AS(judge_layers({lake_layer, white_layer}, 1.0), DomainError);
}

TEST_CASE("a batch of oil paint is a layer, of any other it is none", "[reference]") {
    // docs/theory.md, by hand: 10 g of lake of 1.88 with .9285 of oil a gram, of .93: w = .9285/1.9285 = 48.1 %,
    // f = .9985/(.9985 + .5319) = 65.2 %; the table of layers_test.cpp has both.
    worked::BatchRequest asked = worked::request(worked::oil_paint(), grams(10));
    asked.recipe.additives.clear();
    asked.recipe.medium.parts = {{worked::linseed_oil(), 1.0}};
    asked.aim = MediumPerPigment::of(.9285);
    const Batch batch = *size_batch(asked).batch;
    const auto layer = layer_paint("a lake", batch);
    REQUIRE(layer);
    CHECK(layer->name == "a lake");
    CHECK(layer->oil_by_mass.value() == Approx(.481).margin(6e-4));
    CHECK(oil_volume_fraction(layer->pvc).value() == Approx(.652).margin(6e-4));
    CHECK_FALSE(layer_paint("a pan", *size_batch(worked::request(worked::watercolour(), grams(10))).batch));
}
