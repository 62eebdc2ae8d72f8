#include "lakebound/paint/cohesion.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
VolumeFraction share_of(Recipe recipe, std::vector<MediumPart> parts) {
    recipe.medium = medium("m", PartsBasis::mass, std::move(parts));
    return cohesive_share(recipe, compose(recipe, formulate(recipe, aim_of(recipe)), grams(10)));
}
const CohesionLimits limits{VolumeFraction::of(0.30), VolumeFraction::of(0.50)};
} // namespace

TEST_CASE("What binds is gum, oil, resin, yolk and glue", "[unit]") {
    for (const Role role : {Role::gum, Role::drying_oil, Role::resin, Role::emulsion, Role::protein})
        CHECK(is_cohesive(role));
    for (const Role role : {Role::plasticiser, Role::wax, Role::water, Role::solvent, Role::preservative,
                            Role::wetting_agent, Role::salt})
        CHECK_FALSE(is_cohesive(role));
}

TEST_CASE("The base medium is gum by two thirds of its dry volume", "[reference]") {
    // docs/theory.md, table of gum media: 69 % of v_b is gum.
    CHECK(share_of(watercolour(), base_medium().parts).value() == Approx(0.69063).margin(1e-4));
}

TEST_CASE("Glycerol, honey and wax alone bind nothing, gum and oil alone all", "[unit]") {
    CHECK(share_of(watercolour(), {{glycerol(), 1}}).value() == Approx(0.0).margin(1e-15));
    CHECK(share_of(watercolour(), {{honey(), 1}}).value() == Approx(0.0).margin(1e-15));
    CHECK(share_of(oil_paint(), {{beeswax(), 1}}).value() == Approx(0.0).margin(1e-15));
    CHECK(share_of(watercolour(), {{gum(), 1}, {water(), 2}}).value() == Approx(1.0));
    Recipe oil = oil_paint();
    oil.additives.clear();
    CHECK(share_of(oil, {{linseed_oil(), 1}}).value() == Approx(1.0));
}

TEST_CASE("A limit of cohesion belongs to the better side", "[unit]") {
    CHECK(cohesion(VolumeFraction::of(0.0), limits) == Cohesion::none);
    CHECK(cohesion(VolumeFraction::of(0.2999), limits) == Cohesion::none);
    CHECK(cohesion(VolumeFraction::of(0.30), limits) == Cohesion::weak);
    CHECK(cohesion(VolumeFraction::of(0.4999), limits) == Cohesion::weak);
    CHECK(cohesion(VolumeFraction::of(0.50), limits) == Cohesion::binds);
    CHECK(cohesion(VolumeFraction::of(1.0), limits) == Cohesion::binds);
}
