#include "lakebound/bath/wash_habits.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "usual_habits.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("a pen with the habits' doubts", "[unit]") {
    const auto h = usual_wash_habits();
    const auto pen = usual_pen(h, Compensation::none, microsiemens_per_centimetre(10));
    CHECK(pen.compensation == Compensation::none);
    CHECK(pen.per_kelvin == Approx(.02));
    CHECK(pen.calibrated_to.value().value() == Approx(.03));
    CHECK(pen.repeats_to.value().value() == Approx(.01));
    CHECK(in_microsiemens_per_centimetre(pen.step) == Approx(10));
    CHECK(pen.thermometer.value() == Approx(1));
}

TEST_CASE("dissolved solids of tap water by its conductivity", "[unit]") {
    const auto solids = solids_of_wash_water(microsiemens_per_centimetre(500), usual_wash_habits());
    CHECK(in_kilograms_per_cubic_metre(solids.value()) == Approx(.325)); // g/L
    CHECK(in_kilograms_per_cubic_metre(solids.standard_uncertainty()) == Approx(.05));
    CHECK_THROWS_AS(solids_of_wash_water(microsiemens_per_centimetre(-1), usual_wash_habits()), DomainError);
}

TEST_CASE("what a drained cake holds, and the limits that a paint asks about", "[unit]") {
    const auto held = usual_held(usual_wash_habits());
    // By hand: .8 x .83/.2 = 3.32 over .9982 g/mL; ln-sd of the odds .06/(.8 x .2) = .375 and .05/.83 = .0602.
    CHECK(in_millilitres_per_gram(held.value()) == Approx(3.326).margin(.001));
    CHECK(held.relative_uncertainty() == Approx(std::hypot(.375, .0602)).epsilon(1e-3));
    const auto limits = lake_limits(usual_wash_habits());
    CHECK(limits.salts_allowed.value() == Approx(.01));
    CHECK(limits.salts_for_oil.value() == Approx(.005));
    CHECK(limits.preservative_active.value() == Approx(.05));
    CHECK(limits.alkaline_above.value() == Approx(8));
    CHECK(limits.said_from.value() == Approx(.1));
}
