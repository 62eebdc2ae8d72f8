#include "lakebound/paint/pvc.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lakebound;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
const SpecificVolume lake_demand = binder_demand(grams_per_100_grams(68.78), grams_per_cubic_centimetre(0.93));
const MassDensity lake_density = grams_per_cubic_centimetre(1.88);
} // namespace

TEST_CASE("published PVC example: titanium white in an alkyd", "[reference]") {
    // beetsma-pvc: TiO2 25.20 g at 4.2 g/cm3, alkyd solids 30.05 g at 1.10 g/cm3; PVC 18.0 % as
    // printed, so half a unit of its last digit is the tolerance.
    const auto pigment = pigment_volume(grams(25.20), grams_per_cubic_centimetre(4.2));
    const auto binder = pigment_volume(grams(30.05), grams_per_cubic_centimetre(1.10));
    CHECK(in_millilitres(pigment) == Approx(6.00).margin(0.005));
    CHECK(in_millilitres(binder) == Approx(27.32).margin(0.005));
    CHECK(pigment_volume_concentration({.pigment = pigment, .dry_binder = binder}).value() == Approx(0.180).margin(0.0005));
}

TEST_CASE("published CPVC form with oil absorption 20 and density 4.2", "[reference]") {
    // lewarchik-2014: 1/(1 + OA rho/93.5), inputs printed there; the answer 52.7 % is computed from
    // the printed form, to its third digit.
    const auto q = binder_demand(grams_per_100_grams(20), grams_per_cubic_centimetre(0.935));
    CHECK(critical_pigment_volume_concentration(q, grams_per_cubic_centimetre(4.2)).value() ==
          Approx(0.527).margin(0.0005));
}

TEST_CASE("worked kitchen lake", "[reference]") {
    // Worked by hand in docs/theory.md from OA 68.78, density 1.88, test oil 0.93; five digits.
    CHECK(in_millilitres_per_gram(lake_demand) == near(0.73957, 1e-4));
    const auto c = critical_pigment_volume_concentration(lake_demand, lake_density);
    CHECK(c.value() == near(0.41834, 1e-4));
    const auto k = BinderSufficiency::of(1.35);
    CHECK(pigment_volume_concentration(k, c).value() == near(0.34755, 1e-4));
    CHECK(reduced_pigment_volume_concentration(k, c).value() == near(0.83081, 1e-4));
    const auto oil = dry_binder_for(k, grams(100), lake_demand) * grams_per_cubic_centimetre(0.93);
    CHECK(in_grams(oil) == near(92.85, 1e-4));
    CHECK(film_porosity(PigmentVolumeConcentration::of(0.55), c).value() == Approx(0.2394).margin(5e-4));
}

TEST_CASE("yolk reaches fewer voids, so its CPVC is lower", "[reference]") {
    // Worked by hand in docs/theory.md: e = 0.85 -> 0.379, e = 0.7 -> 0.335.
    for (const auto& [index, expected] : {std::pair{0.85, 0.379}, std::pair{0.70, 0.335}})
        CHECK(critical_pigment_volume_concentration(effective_demand(lake_demand, BinderIndex::of(index)),
                                                    lake_density).value() == Approx(expected).margin(5e-4));
}

TEST_CASE("k, PVC, CPVC and reduced PVC agree whichever way they are reached", "[identity]") {
    for (double rho = 0.8; rho < 9.0; rho *= 1.7)
        for (double oa = 5; oa < 400; oa *= 1.9)
            for (double kk = 0.1; kk < 5.0; kk *= 1.4) {
                const auto q = binder_demand(grams_per_100_grams(oa), grams_per_cubic_centimetre(0.93));
                const auto density = grams_per_cubic_centimetre(rho);
                const auto c = critical_pigment_volume_concentration(q, density);
                const auto k = BinderSufficiency::of(kk);
                const auto mass = grams(7.3);
                const auto binder = dry_binder_for(k, mass, q);
                const auto pvc = pigment_volume_concentration({.pigment = pigment_volume(mass, density), .dry_binder = binder});
                CHECK(binder_sufficiency(binder, mass, q).value() == near(kk, 1e-13));
                CHECK(pigment_volume_concentration(k, c).value() == near(pvc.value(), 1e-12));
                const auto lambda = reduced_pigment_volume_concentration(pvc, c);
                CHECK(reduced_pigment_volume_concentration(k, c).value() == near(lambda.value(), 1e-12));
                CHECK(binder_sufficiency(pvc, c).value() == near(kk, 1e-11));
                CHECK(binder_sufficiency(lambda, c).value() == near(kk, 1e-11));
                // Either at the limit from both sides, or clearly on the same side.
                if (std::abs(kk - 1.0) > 1e-9) CHECK((kk > 1.0) == (lambda.value() < 1.0));
                const double air = film_porosity(pvc, c).value();
                CHECK(air >= 0.0);
                CHECK((air > 0.0) == (pvc > PigmentVolumeConcentration::of(c.value())));
            }
    const auto c = critical_pigment_volume_concentration(lake_demand, lake_density);
    CHECK(pigment_volume_concentration(BinderSufficiency::of(1.0), c).value() == near(c.value(), 1e-15));
}

TEST_CASE("solids, binder and air of an underbound film sum to one", "[identity]") {
    const auto c = CriticalPigmentVolumeConcentration::of(0.5);
    const auto pvc = PigmentVolumeConcentration::of(0.6);
    // At touching packing the pigment holds the share c of the film; binder c (1 - PVC) / PVC.
    const double binder = 0.5 * 0.4 / 0.6;
    CHECK(c.value() + binder + film_porosity(pvc, c).value() == near(1.0, 1e-14));
}

TEST_CASE("the kernel refuses what has no meaning", "[errors]") {
    CHECK_THROWS_AS(binder_demand(grams_per_100_grams(50), grams_per_cubic_centimetre(0)), DomainError);
    CHECK_THROWS_WITH(binder_demand(OilAbsorption::from_proven(0.0), grams_per_cubic_centimetre(0.93)), Catch::Contains("oil absorption"));
    CHECK_THROWS_AS(pigment_volume(grams(1), grams_per_cubic_centimetre(-1)), DomainError);
    CHECK_THROWS_AS(binder_sufficiency(millilitres(1), grams(0), lake_demand), DomainError);
    CHECK_THROWS_AS(binder_sufficiency(millilitres(-1), grams(1), lake_demand), DomainError);
    CHECK_THROWS_AS(pigment_volume_concentration(DryFilm{}), DomainError);
    CHECK_THROWS_AS(binder_sufficiency(PigmentVolumeConcentration::of(0), CriticalPigmentVolumeConcentration::of(.4)),
                    DomainError);
    CHECK_THROWS_AS(binder_sufficiency(PigmentVolumeConcentration::of(.5), CriticalPigmentVolumeConcentration::of(1)), DomainError);
    CHECK_THROWS_AS(binder_sufficiency(ReducedPigmentVolumeConcentration::of(.5), CriticalPigmentVolumeConcentration::of(1)), DomainError);
    // A last digit above the CPVC, or below, is no air; a millionth above is.
    const auto just = CriticalPigmentVolumeConcentration::of(.4);
    for (const double off : {-5e-13, 0.0, 5e-13})
        CHECK(film_porosity(PigmentVolumeConcentration::of(.4 * (1 + off)), just) == VolumeFraction::of(0));
    CHECK(film_porosity(PigmentVolumeConcentration::of(.4 * (1 + 1e-6)), just).value() == near(1e-6, 1e-5));
    // An index of 0 would ask for endless binder.
    CHECK_THROWS_AS(effective_demand(lake_demand, BinderIndex::from_proven(0)), DomainError);
    // Without these checks a CPVC of 400 % or no number at all came out.
    CHECK_THROWS_AS(critical_pigment_volume_concentration(millilitres_per_gram(-0.5), grams_per_cubic_centimetre(1.5)),
                    DomainError);
    CHECK_THROWS_AS(critical_pigment_volume_concentration(lake_demand, MassDensity::from_value(std::nan(""))), DomainError);
    const auto no_voids = CriticalPigmentVolumeConcentration::of(0);
    CHECK_THROWS_AS(pigment_volume_concentration(BinderSufficiency::of(0), no_voids), DomainError);
    CHECK_THROWS_AS(reduced_pigment_volume_concentration(BinderSufficiency::of(0), no_voids), DomainError);
    CHECK_THROWS_AS(reduced_pigment_volume_concentration(PigmentVolumeConcentration::of(.3), no_voids), DomainError);
    // A reduced PVC beyond 1/c would need less than no binder.
    CHECK_THROWS_AS(binder_sufficiency(ReducedPigmentVolumeConcentration::of(2.6), CriticalPigmentVolumeConcentration::of(.4)),
                    DomainError);
}

TEST_CASE("A film without binder holds the air of the dry packing, whatever its index", "[identity]") {
    const auto c = CriticalPigmentVolumeConcentration::of(0.4183);
    for (const double e : {0.6, 0.85, 1.0}) {
        const auto air = [&](double k) {
            return film_porosity(BinderSufficiency::of(k), c, BinderIndex::of(e)).value();
        };
        CHECK(air(0.0) == Approx(1.0 - 0.4183).epsilon(1e-12));
        CHECK(air(1.0) == Approx(0.0).margin(1e-15));
        CHECK(air(1.3) == Approx(0.0).margin(1e-15));
        for (double k = 0.0; k < 1.0; k += 0.05)
            CHECK(air(k) >= air(k + 0.05));
        // Air, binder and pigment make up the film: with V_p 1 the bulk is between the two packings.
        const double e_c = 1.0 / 0.4183 - 1.0, bulk = (1.0 + 0.5 * e_c / e) / (1.0 - air(0.5));
        CHECK(bulk == Approx(0.5 * (1.0 / 0.4183 + 1.0 + e_c / e)).epsilon(1e-12));
    }
    // With an index of 1 it is 1 - c/PVC.
    const auto k = BinderSufficiency::of(0.7);
    CHECK(film_porosity(k, c, BinderIndex::of(1.0)).value() ==
          Approx(film_porosity(pigment_volume_concentration(k, c), c).value()).epsilon(1e-12));
}

TEST_CASE("a binder that reached every void would give k over its index", "[identity]") {
    // The demand is divided by the index where k is made; with an index of 1 it is not.
    const auto q = binder_demand(grams_per_100_grams(68.78), grams_per_cubic_centimetre(0.93));
    const auto index = BinderIndex::of(0.7);
    const auto k = binder_sufficiency(millilitres(5), grams(10), effective_demand(q, index));
    CHECK(sufficiency_if_all_reached(k, index).value() ==
          Approx(binder_sufficiency(millilitres(5), grams(10), q).value() ).epsilon(1e-12));
    CHECK_THROWS_AS(sufficiency_if_all_reached(k, BinderIndex::from_proven(0.0)), DomainError);
}
