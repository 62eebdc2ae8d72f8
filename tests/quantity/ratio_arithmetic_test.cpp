#include "lakebound/quantity/ratio_arithmetic.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/chemical_units.hpp"

using namespace lakebound;

namespace {

template <class A, class B> concept Multiplies = requires(A a, B b) { a * b; };

} // namespace

TEST_CASE("A ratio takes its part of what it is a ratio of", "[unit]") {
    CHECK(in_grams(grams(20.0) * MassFraction::of(0.15)) == Approx(3.0));
    CHECK(in_grams(MassFraction::of(0.15) * grams(20.0)) == Approx(3.0));
    CHECK(in_millilitres(millilitres(50.0) * VolumeFraction::of(0.3)) == Approx(15.0));
    CHECK(in_grams(Share::of(0.03) * grams(10.0)) == Approx(0.3));
    CHECK(in_millilitres(millilitres(2.0) * Share::of(0.9)) == Approx(1.8));
    CHECK((MassFraction::of(0.5) * MassFraction::of(0.2)).value() == Approx(0.1));
    // The rub-out of ISO 787-5: 68 g/100g on 10 g of powder is 6.8 g of oil.
    CHECK(in_grams(grams(10.0) * grams_per_100_grams(68.0)) == Approx(6.8));
    CHECK(in_grams(MediumPerPigment::of(4.0) * grams(10.0)) == Approx(40.0));
}

TEST_CASE("A part over its whole, and the whole of a part", "[unit]") {
    CHECK(part_of<MassFraction>(grams(3.0), grams(20.0)).value() == Approx(0.15));
    CHECK(part_of<VolumeFraction>(millilitres(3.0), millilitres(20.0)).value() == Approx(0.15));
    CHECK(part_of<Share>(grams(3.0), grams(2.0)).value() == Approx(1.0)); // more than all is all
    CHECK_THROWS_AS(part_of<Share>(grams(-1.0), grams(2.0)), DomainError);
    CHECK_THROWS_AS(part_of<Share>(grams(0.0), grams(0.0)), DomainError);
    CHECK(in_grams(grams(3.0) / MassFraction::of(0.15)) == Approx(20.0));
    CHECK(in_grams(grams(9.7) / complement(Share::of(0.03))) == Approx(10.0));
    CHECK(MassFraction::of(0.3) / MassFraction::of(0.2) == Approx(1.5));
    CHECK((MediumPerPigment::of(4.0) * MassFraction::of(0.25)).value() == Approx(1.0));
}

TEST_CASE("Specific volumes add by mass, densities by volume", "[unit]") {
    // A third of chalk of 2.7 and two thirds of a lake of 1.8 g/cm3, by mass: 1/3/2.7 + 2/3/1.8 mL in a gram.
    const auto third = MassFraction::of(1.0 / 3.0);
    const MassDensity chalk = grams_per_cubic_centimetre(2.7), lake = grams_per_cubic_centimetre(1.8);
    CHECK(in_millilitres_per_gram(third / chalk + complement(third) / lake) == Approx(0.493827).epsilon(1e-6));
    CHECK(in_grams_per_cubic_centimetre(VolumeFraction::of(0.25) * chalk + VolumeFraction::of(0.75) * lake) == Approx(2.025));
    CHECK(in_grams_per_cubic_centimetre(MassFraction::of(0.9) / millilitres_per_gram(0.5)) == Approx(1.8));
    CHECK(in_millilitres_per_gram(third * millilitres_per_gram(0.6)) == Approx(0.2));
    CHECK(in_millilitres_per_gram(BinderSufficiency::of(1.35) * millilitres_per_gram(0.8)) == Approx(1.08));
}

TEST_CASE("A ratio of masses is none of volumes, and no ratio is a number", "[unit]") {
    STATIC_REQUIRE(Multiplies<Mass, MassFraction>);
    STATIC_REQUIRE_FALSE(Multiplies<Volume, MassFraction>);
    STATIC_REQUIRE_FALSE(Multiplies<Mass, VolumeFraction>);
    STATIC_REQUIRE_FALSE(Multiplies<Volume, OilAbsorption>);
    STATIC_REQUIRE_FALSE(Multiplies<Temperature, Share>);
    STATIC_REQUIRE_FALSE(Multiplies<MassFraction, VolumeFraction>);
    STATIC_REQUIRE_FALSE(Multiplies<MassFraction, double>);
    STATIC_REQUIRE_FALSE(Multiplies<Mass, BinderSufficiency>);
    STATIC_REQUIRE_FALSE(Multiplies<MassFraction, MassDensity>);
    STATIC_REQUIRE_FALSE(Multiplies<VolumeFraction, SpecificVolume>);
    STATIC_REQUIRE(IsPartOf<MassFraction, MassDensity>);
    STATIC_REQUIRE_FALSE(IsPartOf<MassFraction, Volume>);
    STATIC_REQUIRE_FALSE(IsPartOf<VolumeFraction, Mass>);
}

TEST_CASE("a share of a whole, from either side, and a part of a part", "[unit]") {
    CHECK(in_grams(grams(20) * Share::of(0.25)) == Approx(5.0).epsilon(1e-14));
    CHECK(in_grams(Share::of(0.25) * grams(20)) == Approx(5.0).epsilon(1e-14));
    CHECK(in_millilitres(millilitres(20) * Share::of(0.25)) == Approx(5.0).epsilon(1e-14));
    CHECK(in_millilitres(Share::of(0.25) * millilitres(20)) == Approx(5.0).epsilon(1e-14));
    CHECK((VolumeFraction::of(0.5) * VolumeFraction::of(0.2)).value() == Approx(0.1).epsilon(1e-14));
    CHECK((MassFraction::of(0.5) * MassFraction::of(0.2)).value() == Approx(0.1).epsilon(1e-14));
}

TEST_CASE("units of chemistry", "[reference]") {
    // si-brochure: a standard atmosphere is 101 325 Pa; water's 18.015 g/mol is 0.018015 kg/mol; a mole per litre a thousand per m3.
    CHECK(in_pascals(standard_atmospheres(2.0)) == Approx(202650.0).epsilon(1e-14));
    CHECK(in_standard_atmospheres(pascals(202650.0)) == Approx(2.0).epsilon(1e-14));
    CHECK(grams_per_mole(18.015).value() == Approx(0.018015).epsilon(1e-14));
    CHECK(in_grams_per_mole(grams_per_mole(18.015)) == Approx(18.015).epsilon(1e-14));
    CHECK(moles_per_litre(0.5).value() == Approx(500.0).epsilon(1e-14));
    CHECK(in_moles_per_litre(moles_per_litre(0.5)) == Approx(0.5).epsilon(1e-14));
    CHECK(in_moles(moles(3.0)) == 3.0);
}
