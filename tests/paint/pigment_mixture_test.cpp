#include "lakebound/paint/pigment_mixture.hpp"

#include <catch2/catch.hpp>

#include "support/worked_paints.hpp"

using namespace worked;

TEST_CASE("a blend rubbed out is one pigment with the density and hazards of its parts", "[identity]") {
    Pigment a = lake(), b = chalk();
    a.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88), grams_per_cubic_centimetre(0.2), from());
    b.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(2.70), grams_per_cubic_centimetre(0.03), from());
    a.hazards = {Hazard::dust, Hazard::light_sensitive};
    b.hazards = {Hazard::dust, Hazard::silica};
    const PigmentPart parts[] = {{a, MassFraction::of(0.7)}, {b, MassFraction::of(0.3)}};
    const auto oil = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(50), 1.11, from());
    const Pigment blend = pigment_of_blend(parts, oil, density(0.93));
    // By hand: 1/rho = .7/1.88 + .3/2.70 = .48345, rho 2.0685; volume shares .7702 and .2298; relative
    // uncertainties 200/1880 and 30/2700: u/rho = hypot(.7702 x .10638, .2298 x .01111) = .08198.
    CHECK(in_grams_per_cubic_centimetre(blend.density.value()) == Approx(2.0685).margin(1e-4));
    CHECK(blend.density.relative_uncertainty() == Approx(0.08198).margin(2e-5));
    CHECK(blend.density.provenance().origin == Origin::computed);
    CHECK(blend.name == "Lake M + chalk");
    CHECK(blend.oil_absorption.value().value() == oil.value());
    // Each hazard once, those of every part.
    CHECK(blend.hazards == std::vector<Hazard>{Hazard::dust, Hazard::light_sensitive, Hazard::silica});
    // The additive rule: demand by mass, 68.78 and 18 g of oil of .93 to 100 g.
    const PigmentMixture mixture = pigment_mixture(parts);
    CHECK(in_millilitres_per_gram(mixture.demand) == Approx((0.7 * 0.6878 + 0.3 * 0.18) / 0.93).epsilon(1e-12));
    CHECK(mixture.density == blend.density.value());
    CHECK_THROWS_AS(pigment_mixture({}), DomainError);
}

TEST_CASE("what a record learned of a jar multiplies its demand", "[unit]") {
    PigmentPart part{lake(), MassFraction::of(1.0)};
    part.step_from_oil = 1.25;
    CHECK(in_millilitres_per_gram(demand_of(part)) == Approx(1.25 * 0.6878 / 0.93).epsilon(1e-12));
    const PigmentPart parts[] = {part};
    CHECK(in_millilitres_per_gram(pigment_mixture(parts).demand) == Approx(1.25 * 0.6878 / 0.93).epsilon(1e-12));
}

TEST_CASE("shares of what is weighed where a powder is damp", "[reference]") {
    // By hand: 7 parts dry of a powder that is one fifth excess water weigh 8.75; with 3 of chalk 11.75.
    Pigment damp = lake();
    damp.excess_water = MassFraction::of(0.2);
    const auto shares = as_weighed_shares({{damp, MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}});
    CHECK(shares[0].share.value() == Approx(8.75 / 11.75).epsilon(1e-12));
    CHECK(shares[1].share.value() == Approx(3.0 / 11.75).epsilon(1e-12));
    // A blend is as damp as its parts by their shares, and of dry ones not at all.
    const PigmentPart mixed[] = {{damp, MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}}, none[] = {{lake(), MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}};
    CHECK(pigment_of_blend(mixed, *chalk().oil_absorption, chalk().test_oil_density).excess_water.value() == Approx(0.14).epsilon(1e-12));
    CHECK(pigment_of_blend(none, *chalk().oil_absorption, chalk().test_oil_density).excess_water == MassFraction::of(0));
    const auto dry = as_weighed_shares({{lake(), MassFraction::of(0.7)}, {chalk(), MassFraction::of(0.3)}});
    CHECK(dry[0].share.value() == Approx(0.7).epsilon(1e-12));
}
