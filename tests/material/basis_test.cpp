#include "lakebound/material/basis.hpp"

#include <catch2/catch.hpp>

#include "lakebound/material/density.hpp"

using namespace lakebound;

namespace {
Approx near(double x, double relative = 1e-12) { return Approx(x).epsilon(relative).margin(1e-15); }
} // namespace

TEST_CASE("gum of one part to two of water, by mass and by volume", "[reference]") {
    // docs/theory.md, worked by hand: gum with 12 % moisture, powder at 0.60 g/mL. By mass 29.3 % dry
    // gum, by volume 20.3 %; three printed digits.
    const auto by_mass = weight_per_weight_of_solute_per_solvent(0.5);
    const auto moisture = MassFraction::of(0.12);
    CHECK(in_grams(dry_mass(grams(100 * by_mass.value()), moisture)) == Approx(29.3).margin(0.05));
    const auto gum = mass_of_bulk(millilitres(1), grams_per_cubic_centimetre(0.60));
    const auto by_volume = weight_per_weight_of_solute_per_solvent(in_grams(gum) / 2.0);
    CHECK(in_grams(dry_mass(grams(100 * by_volume.value()), moisture)) == Approx(20.3).margin(0.05));
}

TEST_CASE("ten per cent alum and soda by mass and by volume", "[reference]") {
    // Densities 1.049 and 1.103 g/cm3 (value from memory): 40 and 20 mL at 10 % w/w hold 4.196 and
    // 2.206 g against 4.000 and 2.000 g at 10 % w/v; four digits.
    const auto alum = weight_per_volume(MassFraction::of(0.10), grams_per_cubic_centimetre(1.049));
    const auto soda = weight_per_volume(MassFraction::of(0.10), grams_per_cubic_centimetre(1.103));
    CHECK(in_grams(alum.value * millilitres(40)) == Approx(4.196).margin(5e-4));
    CHECK(in_grams(soda.value * millilitres(20)) == Approx(2.206).margin(5e-4));
    CHECK(in_grams(grams_per_100_millilitres(10).value * millilitres(40)) == near(4.0));
}

TEST_CASE("conversions return to where they started", "[identity]") {
    for (double w = 0.0; w < 0.95; w += 0.09) {
        const auto moisture = MassFraction::of(w);
        CHECK(wet_basis_moisture(dry_basis_moisture(moisture)).value() == near(w));
        CHECK(in_grams(as_is_mass(dry_mass(grams(7), moisture), moisture)) == near(7));
        const auto rho = grams_per_cubic_centimetre(1.0 + 0.4 * w);
        CHECK(weight_per_weight(weight_per_volume(moisture, rho), rho).value() == near(w));
    }
    const auto bulk = grams_per_cubic_centimetre(0.35), solid = grams_per_cubic_centimetre(1.88);
    CHECK(in_millilitres(bulk_volume_of_solid(solid_volume_of_bulk(millilitres(10), bulk, solid), bulk,
                                              solid)) == near(10));
    CHECK(in_grams(mass_of_bulk(millilitres(10), bulk)) ==
          near(in_grams(solid_volume_of_bulk(millilitres(10), bulk, solid) * solid)));
}

TEST_CASE("one to one by mass and by volume", "[reference]") {
    // Lake of bulk density 0.35 g/mL, gum medium 1.117 g/mL; docs/theory.md: 28.6 mL = 31.9 g of
    // medium to 10 g of lake, three digits.
    const auto medium = grams_per_cubic_centimetre(1.117), bulk = grams_per_cubic_centimetre(0.35);
    CHECK(medium_per_pigment({1, 1, PartsBasis::mass}, {}, {}).value() == near(1.0));
    CHECK(medium_per_pigment({1, 1, PartsBasis::volume}, medium, bulk).value() == Approx(3.19).margin(0.005));
}

TEST_CASE("a basis that is not given is asked for", "[errors]") {
    CHECK_THROWS_AS(medium_per_pigment({1, 1, {}}, {}, {}), DomainError);
    CHECK_THROWS_WITH(medium_per_pigment({1, 1, {}}, {}, {}), Catch::Contains("by mass or by volume"));
    CHECK_THROWS_WITH(medium_per_pigment({1, 1, PartsBasis::volume}, {}, {}),
                      Catch::Contains("density of the medium"));
    CHECK_THROWS_WITH(medium_per_pigment({1, 1, PartsBasis::volume}, grams_per_cubic_centimetre(1), {}),
                      Catch::Contains("bulk density of the pigment"));
    CHECK_THROWS_AS(medium_per_pigment({0, 1, PartsBasis::mass}, {}, {}), DomainError);
    CHECK_THROWS_AS(medium_per_pigment({1, -1, PartsBasis::mass}, {}, {}), DomainError);
    CHECK_THROWS_WITH(require_same_moisture(MoistureState::as_weighed, MoistureState::bone_dry),
                      Catch::Contains("give the moisture"));
    CHECK_THROWS_AS(require_same_moisture(MoistureState::bone_dry, MoistureState::as_weighed), DomainError);
    CHECK_NOTHROW(require_same_moisture(MoistureState::bone_dry, MoistureState::bone_dry));
    CHECK_THROWS_AS(as_is_mass(grams(1), MassFraction::of(1)), DomainError);
    CHECK_THROWS_AS(dry_basis_moisture(MassFraction::of(1)), DomainError);
    CHECK_THROWS_AS(wet_basis_moisture(-0.1), DomainError);
    CHECK_THROWS_AS(grams_per_100_millilitres(-1), DomainError);
    CHECK_THROWS_AS(weight_per_weight(grams_per_100_millilitres(120), grams_per_cubic_centimetre(1.1)),
                    DomainError);
    CHECK_THROWS_AS(
        solid_volume_of_bulk(millilitres(1), grams_per_cubic_centimetre(2), grams_per_cubic_centimetre(1.88)),
        DomainError);
}

TEST_CASE("parts, bulk and moisture at their limits", "[errors]") {
    CHECK(medium_per_pigment({3, 2, PartsBasis::mass}, {}, {}).value() == Approx(1.5));
    const auto rho = [](double x) { return grams_per_cubic_centimetre(x); };
    CHECK(medium_per_pigment({3, 2, PartsBasis::volume}, rho(1.2), rho(0.4)).value() == Approx(4.5));
    CHECK_NOTHROW(medium_per_pigment({5e-4, 5e-4, PartsBasis::mass}, {}, {}));
    try {
        solid_volume_of_bulk(millilitres(1), rho(1.5), rho(1.5));
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.quantity() == "bulk density");
        CHECK(error.value() == "1.5 g/cm3");
    }
    CHECK_NOTHROW(solid_volume_of_bulk(millilitres(1), rho(1.499), rho(1.5)));
    CHECK_THROWS_AS(solid_volume_of_bulk(millilitres(1), rho(0), rho(1.5)), DomainError);
    CHECK_THROWS_AS(mass_of_bulk(millilitres(-1), rho(1)), DomainError);
    CHECK_THROWS_AS(mass_of_bulk(Volume::from_value(HUGE_VAL), rho(1)), DomainError);
    CHECK_THROWS_AS(mass_of_bulk(millilitres(1), MassDensity::from_value(HUGE_VAL)), DomainError);
    CHECK_THROWS_WITH(as_is_mass(grams(1), MassFraction::of(1.0)), Catch::Contains("0 to below 1"));
    CHECK(in_grams(as_is_mass(grams(1), MassFraction::of(0.999))) == Approx(1000));
}

TEST_CASE("a strength beyond its solution is told as it was meant, one of all of it is taken", "[errors]") {
    const auto rho = grams_per_cubic_centimetre(1.0);
    try {
        weight_per_weight(grams_per_100_millilitres(120), rho);
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.value() == "120 % w/v");
    }
    CHECK(weight_per_weight(grams_per_100_millilitres(100), rho).value() == Approx(1.0));
    try {
        require_same_moisture(MoistureState::as_weighed, MoistureState::bone_dry);
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.value() == "bone dry");
    }
    try {
        require_same_moisture(MoistureState::bone_dry, MoistureState::as_weighed);
        FAIL("taken");
    } catch (const DomainError& error) {
        CHECK(error.value() == "as weighed");
    }
    CHECK(in_grams(as_is_mass(grams(1), MassFraction::of(0.9995))) == Approx(2000).epsilon(1e-9));
    // Light as a feather is a density.
    CHECK(in_millilitres(powder_volume(grams(1), kilograms_per_cubic_metre(5e-4))) == Approx(2e6));
}
