// A paint of a small part of the mass is the same paint: what stands at nothing is nothing, not little.

#include <catch2/catch.hpp>

#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/cohesion.hpp"
#include "lakebound/paint/layers.hpp"
#include "lakebound/paint/process.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/paint/quick_check.hpp"
#include "support/told.hpp"
#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

TEST_CASE("a watercolour of a third of a gram is as soft, and as rich in glycerol, as one of grams", "[identity]") {
    const auto extras = [](double g) {
        const BatchRequest r = request(watercolour(), grams(g));
        return size_batch(r).batch.value().watercolour.value();
    };
    const auto large = extras(10.0), small = extras(0.3);
    REQUIRE(large.plasticiser_ratio);
    REQUIRE(small.plasticiser_ratio);
    CHECK(*small.plasticiser_ratio == Approx(*large.plasticiser_ratio).epsilon(1e-9));
    CHECK(small.soft_share.value() == Approx(large.soft_share.value()).epsilon(1e-9));
    CHECK(small.pvc_in_room.value() == Approx(large.pvc_in_room.value()).epsilon(1e-9));
}

TEST_CASE("oil and pigment of less than a gram, and none of either", "[unit][errors]") {
    const auto share = [](double pigment, double oil) {
        return oil_share({.pigment = grams(pigment), .pigment_density = grams_per_cubic_centimetre(1.9), .oil = grams(oil),
                          .oil_density = grams_per_cubic_centimetre(0.93)});
    };
    CHECK(share(0.3, 0.2).by_mass.value() == Approx(0.4).epsilon(1e-12));
    CHECK(share(0.3, 0.0).by_mass.value() == 0.0);
    CHECK(told([&] { (void)share(0.3, -0.1); }) == "oil mass: -0.1 g");
    CHECK(told([&] { (void)share(-0.3, 0.1); }) == "pigment mass: -0.3 g");
}

TEST_CASE("packing without voids has no binder sufficiency", "[errors]") {
    const auto full = CriticalPigmentVolumeConcentration::of(1.0), nearly = CriticalPigmentVolumeConcentration::of(0.999);
    CHECK(told([&] { (void)binder_sufficiency(PigmentVolumeConcentration::of(0.4), full); }) == "voids of the packed pigment: 0");
    CHECK(told([&] { (void)binder_sufficiency(ReducedPigmentVolumeConcentration::of(0.4), full); }) == "voids of the packed pigment: 0");
    // By hand: (1/0.4 - 1) 0.999 / 0.001 = 1498.5
    CHECK(binder_sufficiency(PigmentVolumeConcentration::of(0.4), nearly).value() == Approx(1498.5).epsilon(1e-9));
}

TEST_CASE("nothing in the paint binds nothing, and the jar's pigment is one of the recipe's", "[unit][errors]") {
    const Recipe recipe = watercolour();
    Composition none;
    none.pigments.assign(recipe.pigments.size(), Mass());
    none.medium_parts.assign(recipe.medium.parts.size(), Mass());
    none.additives.assign(recipe.additives.size(), Mass());
    CHECK(cohesive_share(recipe, none).value() == 0.0);
    none.medium_parts.assign(recipe.medium.parts.size(), grams(1e-6));
    CHECK(cohesive_share(recipe, none).value() > 0.3);
}

TEST_CASE("a binder of which hardly anything stays is asked of all the same", "[unit]") {
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(1);
    q.pigment_density = grams_per_cubic_centimetre(2.0);
    q.binders = {{"thin size", grams(1000), MassFraction::of(0.0005), {}, {}}};
    q.binders[0].solids_density = grams_per_cubic_centimetre(1.25);
    // By hand: 0.5 g dry is 0.4 mL beside 0.5 mL of pigment.
    CHECK(quick_check(q).pvc.value().value() == Approx(0.5 / 0.9).epsilon(1e-9));
    q.binders[0].non_volatile = MassFraction::of(0.0);
    CHECK(told([&] { (void)quick_check(q); }) == "non-volatile share of the binder: 0 w/w");
}
