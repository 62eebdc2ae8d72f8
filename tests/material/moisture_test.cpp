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
double oa(const Pigment& p) { return in_grams_per_100_grams(p.oil_absorption.value()); }
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
        const double grams_of = in_grams(mass_at(grams(10.0), water(15), water(w)));
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
    CHECK(p.oil_absorption.relative_uncertainty() ==
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
