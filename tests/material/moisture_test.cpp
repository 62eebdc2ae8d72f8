#include "lakebound/material/moisture.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/material/density.hpp"

using namespace lakebound;

namespace {

MassFraction water(double percent) { return MassFraction::of(percent / 100.0); }
Estimate<MassFraction> moist(double percent, double u = 0.0) {
    return Estimate<MassFraction>::normal(water(percent), MassFraction::Difference::of(u / 100.0), {Origin::estimate, "", false});
}
/// The worked kitchen lake of docs/theory.md, its figures at 15 % of water.
Pigment lake() {
    const Provenance from{Origin::estimate, "docs/theory.md", false};
    Pigment p;
    p.id = p.name = "lake";
    p.pigment_class = PigmentClass::lake;
    p.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.879), grams_per_cubic_centimetre(0.2), from);
    p.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.35, from);
    p.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), from);
    p.moisture = moist(15, 4);
    return p;
}
double oa(const Pigment& p) { return in_grams_per_100_grams(p.oil_absorption.value().value()); }
double rho(const Pigment& p) { return in_grams_per_cubic_centimetre(p.density.value()); }

} // namespace

TEST_CASE("The oil follows the dry matter, not the water", "[unit]") {
    // Of 100 g at 15 %, 85 g are dry: at 2, 25 and 30 % the oil of 100 g goes as 98, 75 and 70 to 85.
    for (const double w : {2.0, 10.0, 15.0, 25.0, 30.0})
        CHECK(oa(at_moisture(lake(), moist(w))) == Approx(65.0 * (100.0 - w) / 85.0).epsilon(1e-12));
}

TEST_CASE("Powder that brings the same dry matter takes the same oil at every moisture", "[identity]") {
    const double oil = 10.0 * oa(lake());
    for (double w = 0.0; w <= 50.0; w += 2.5) {
        const double grams_of = in_grams(mass_at(grams(10.0), {.of_figure = water(15), .now = water(w)}));
        CHECK(grams_of * oa(at_moisture(lake(), moist(w))) == Approx(oil).epsilon(1e-12));
    }
}

TEST_CASE("Excess water is no pigment: CPVC does not change with it", "[identity]") {
    const double pore = oa(lake()) * rho(lake());
    for (const double w : {15.0, 16.0, 25.0, 40.0}) {
        const Pigment p = at_moisture(lake(), moist(w));
        CHECK(oa(p) * rho(p) == Approx(pore).epsilon(1e-12));
        CHECK(p.excess_water.value() == Approx(1.0 - (100.0 - w) / 85.0).margin(1e-14));
    }
}

TEST_CASE("A drier powder follows the mixture rule", "[reference]") {
    // docs/theory.md (domain table): 1.879 at 15 % is 2.096 at 5 % and 2.224 bone dry.
    CHECK(rho(at_moisture(lake(), moist(5))) == Approx(2.096).margin(2e-3));
    CHECK(rho(at_moisture(lake(), moist(0))) == Approx(2.224).margin(2e-3));
    CHECK(at_moisture(lake(), moist(5)).excess_water.value() == Approx(0.0).margin(1e-15));
}

TEST_CASE("A figure measured on the powder as it lies is left as it is", "[unit]") {
    const Pigment p = at_moisture(lake(), moist(25), {false, true});
    CHECK(oa(p) == Approx(65.0).epsilon(1e-12));
    CHECK(p.excess_water.value() == Approx(1.0 - 75.0 / 85.0).epsilon(1e-12));
    // A pyknometer weighs the excess water with the grains: 1 g at 1.7 g/cm3 with 0.1176 g of it.
    Pigment measured = lake();
    measured.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.7), {});
    const double e = 1.0 - 75.0 / 85.0;
    CHECK(1.0 / rho(at_moisture(measured, moist(25), {true, false})) ==
          Approx(1.0 / 1.7 - e / 0.9982071).epsilon(1e-9));
}

TEST_CASE("Going there and back changes nothing", "[identity]") {
    for (const double w : {0.0, 8.0, 20.0, 40.0}) {
        const Pigment back = at_moisture(at_moisture(lake(), moist(w)), moist(15));
        CHECK(oa(back) == Approx(65.0).epsilon(1e-12));
        CHECK(rho(back) == Approx(1.879).epsilon(1e-9));
        CHECK(back.excess_water.value() == Approx(0.0).margin(1e-15));
    }
}

TEST_CASE("The doubt in the moisture of the figure widens it", "[unit]") {
    const Pigment p = at_moisture(lake(), moist(10));
    CHECK(p.oil_absorption->relative_uncertainty() ==
          Approx(std::hypot(std::log(1.35), 0.04 / 0.85)).epsilon(1e-12));
}

TEST_CASE("Where the library names no moisture its figures are kept while air-dry", "[unit]") {
    Pigment p = lake();
    p.moisture.reset();
    CHECK(oa(at_moisture(p, moist(20))) == Approx(65.0).epsilon(1e-12));
    CHECK(at_moisture(p, moist(20)).excess_water.value() == Approx(0.0).margin(1e-15));
    CHECK(at_moisture(p, moist(40)).excess_water.value() == Approx(1.0 - 60.0 / 75.0).epsilon(1e-12));
    p.pigment_class = PigmentClass::inorganic;
    CHECK(at_moisture(p, moist(10)).excess_water.value() == Approx(1.0 - 90.0 / 95.0).epsilon(1e-12));
}

TEST_CASE("A paste is no powder", "[errors]") {
    CHECK_NOTHROW(at_moisture(lake(), moist(50)));
    CHECK_THROWS_WITH(at_moisture(lake(), moist(51)), Catch::Contains("dry it first"));
}

TEST_CASE("A density carried to another moisture keeps its shape and its doubt", "[reference]") {
    // docs/theory.md (domain table): 1.879 at 15 % is 2.096 at 5 %.
    const auto at_five = [](const Estimate<MassDensity>& rho) { return density_at(rho, {.of_figure = water(15), .now = water(5)}); };
    const auto figure = grams_per_cubic_centimetre(1.879);
    const auto exact = at_five(Estimate<MassDensity>::exact(figure, {}));
    CHECK(in_grams_per_cubic_centimetre(exact.value()) == Approx(2.096).margin(2e-3));
    CHECK(exact.distribution().shape == Shape::exact);
    const auto factor = at_five(Estimate<MassDensity>::lognormal(figure, 1.10, {}));
    CHECK(factor.distribution().shape == Shape::lognormal);
    CHECK(in_grams_per_cubic_centimetre(factor.value()) == Approx(2.096).margin(2e-3));
    CHECK(factor.relative_uncertainty() == Approx(std::log(1.10)).epsilon(1e-12));
    for (const auto& spread : {Estimate<MassDensity>::normal(figure, grams_per_cubic_centimetre(0.1), {}),
                               Estimate<MassDensity>::rectangular(figure, grams_per_cubic_centimetre(0.1), {})}) {
        CHECK(at_five(spread).distribution().shape == Shape::normal);
        CHECK(at_five(spread).relative_uncertainty() == Approx(spread.relative_uncertainty()).epsilon(1e-12));
    }
    // And where neither the figure nor its moisture is in doubt, the oil absorption is not either.
    const auto oil = oil_absorption_at(Estimate<OilAbsorption>::exact(grams_per_100_grams(65), {}), moist(15), water(32));
    CHECK(oil.distribution().shape == Shape::exact);
    CHECK(in_grams_per_100_grams(oil.value()) == Approx(52.0).epsilon(1e-12)); // 65 x 68/85
}

TEST_CASE("What is believed of an oil absorption moves with the powder, unless it was read as it lies", "[unit]") {
    Pigment p = lake();
    const auto of = [](double g) { return Estimate<OilAbsorption>::lognormal(grams_per_100_grams(g), 1.2, {}); };
    p.oil_absorption_belief = {of(68), of(51)};
    const Pigment damp = at_moisture(p, moist(32)); // 68/85 of the dry matter
    CHECK(in_grams_per_100_grams(damp.oil_absorption_belief->reading.value()) == Approx(54.4).epsilon(1e-12));
    CHECK(in_grams_per_100_grams(damp.oil_absorption_belief->expected.value()) == Approx(40.8).epsilon(1e-12));
    const Pigment read = at_moisture(p, moist(32), {false, true});
    CHECK(in_grams_per_100_grams(read.oil_absorption_belief->reading.value()) == Approx(68.0).epsilon(1e-12));
}

TEST_CASE("A damp powder that dries is the powder that was never damp", "[identity]") {
    const Pigment damp = at_moisture(lake(), moist(30));
    for (const double w : {0.0, 5.0, 15.0, 22.0}) {
        const Pigment dried = at_moisture(damp, moist(w)), never = at_moisture(lake(), moist(w));
        CHECK(rho(dried) == Approx(rho(never)).epsilon(1e-9));
        CHECK(oa(dried) == Approx(oa(never)).epsilon(1e-12));
        CHECK(dried.excess_water.value() == Approx(never.excess_water.value()).margin(1e-14));
    }
}

TEST_CASE("A bone dry density stays what it is until the powder is damper than air-dry", "[unit]") {
    Pigment p = lake();
    p.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.2241), {}); // that of 1.879 at 15 %
    p.density_state = MoistureState::bone_dry;
    const Pigment air_dry = at_moisture(p, moist(10));
    CHECK(rho(air_dry) == Approx(2.2241).epsilon(1e-12));
    CHECK(air_dry.density_state == MoistureState::bone_dry);
    const Pigment damp = at_moisture(p, moist(32));
    CHECK(damp.density_state == MoistureState::as_weighed);
    CHECK(rho(damp) == Approx(1.879 * 85.0 / 68.0).epsilon(2e-4)); // without the excess water: rho_f / f
    // Measured as it lies, but bone dry, it still is no figure of a damp powder.
    CHECK(rho(at_moisture(p, moist(32), {true, false})) == Approx(rho(damp)).epsilon(1e-12));
    // And one measured on an air-dry powder is left alone.
    CHECK(rho(at_moisture(lake(), moist(10), {true, false})) == Approx(1.879).epsilon(1e-12));
}

TEST_CASE("A density that leaves no room for the water, and a powder all of water, are refused", "[errors]") {
    Pigment heavy = lake(); // at 50 % its excess water alone, .412 of its mass, fills 1.03 of its volume
    heavy.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.5), {});
    CHECK_THROWS_WITH(at_moisture(heavy, moist(50), {true, false}), Catch::Contains("density of the damp powder"));
    heavy.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.4), {});
    CHECK_NOTHROW(at_moisture(heavy, moist(50), {true, false}));
    CHECK_THROWS_WITH(oil_absorption_at(lake().oil_absorption.value(), moist(100), water(10)), Catch::Contains("0 to below 1"));
    CHECK_NOTHROW(at_moisture(lake(), moist(50)));
}

TEST_CASE("a little doubt and a little water count", "[unit]") {
    const auto oil = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), std::exp(5e-4), {});
    CHECK(oil_absorption_at(oil, moist(15), water(15)).relative_uncertainty() == Approx(5e-4).epsilon(1e-9));
    const Pigment damp = at_moisture(lake(), moist(15.04)); // e = .04/85
    CHECK(damp.excess_water.value() == Approx(0.04 / 85).epsilon(1e-9));
    CHECK(rho(damp) == Approx(1.879 / (1.0 - 0.04 / 85)).epsilon(1e-12));
    try {
        at_moisture(lake(), moist(51));
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.value() == "51 %");
    }
    CHECK(excess_water({.now = water(15), .air_dry = water(15)}).value() == Approx(0.0).margin(1e-300));
    CHECK(in_grams(mass_at(grams(68), {.of_figure = water(15), .now = water(32)})) == Approx(85.0));
    CHECK(most_air_dry_moisture(PigmentClass::lake).value() == Approx(0.25));
    CHECK(most_air_dry_moisture(PigmentClass::organic).value() == Approx(0.05));
}
