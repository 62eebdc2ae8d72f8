#include "lakebound/material/density.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include <array>

#include "support/worked_paints.hpp"

using namespace lakebound;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
Component part(double share, double rho) { return {MassFraction::of(share), grams_per_cubic_centimetre(rho)}; }
} // namespace

TEST_CASE("mixed whites have the tabulated density", "[reference]") {
    // gettens-stout-1942, table of physical properties: 25/75 titanium-barium white 4.30 from anatase
    // 3.9 and barytes 4.45; printed to 0.01, so half of that is the tolerance.
    const std::array barium{part(0.25, 3.9), part(0.75, 4.45)};
    CHECK(in_grams_per_cubic_centimetre(mixture_density(barium)) == Approx(4.30).margin(0.005));
    // The same table: 25/75 titanium-calcium white 3.10, from anatase and anhydrite 2.93. Ideal volumes
    // give 3.12: the table's last digit is off by two, so its tolerance is 0.025, and 3.12 is held too.
    const std::array calcium{part(0.25, 3.9), part(0.75, 2.93)};
    CHECK(in_grams_per_cubic_centimetre(mixture_density(calcium)) == Approx(3.10).margin(0.025));
    CHECK(in_grams_per_cubic_centimetre(mixture_density(calcium)) == Approx(3.12).margin(0.005));
}

TEST_CASE("worked lake from alumina, dye, water and salts", "[reference]") {
    // Worked by hand in docs/theory.md; five digits.
    const std::array lake{part(0.69348, 2.42), part(0.12652, 1.5), part(0.15, 1.0), part(0.03, 2.66)};
    const MassDensity rho = mixture_density(lake);
    CHECK(in_grams_per_cubic_centimetre(rho) == near(1.87904, 1e-5));
    CHECK(in_grams_per_cubic_centimetre(bone_dry_density(rho, MassFraction::of(0.15))) == near(2.22404, 1e-5));
    // Its moisture table, printed to 0.001.
    const MassDensity dry = bone_dry_density(rho, MassFraction::of(0.15));
    for (const auto& [w, expected] : {std::pair{0.0, 2.224}, std::pair{0.05, 2.096}, std::pair{0.10, 1.981},
                                      std::pair{0.15, 1.879}, std::pair{0.20, 1.787}, std::pair{0.25, 1.703}})
        CHECK(in_grams_per_cubic_centimetre(moist_density(dry, MassFraction::of(w))) ==
              Approx(expected).margin(6e-4));
    // A lake-grade hydrate of 2.43 at 24 % moisture weighs 1.81 g/cm3 (computed in docs/theory.md).
    CHECK(in_grams_per_cubic_centimetre(moist_density(grams_per_cubic_centimetre(2.43),
                                                      MassFraction::of(0.24))) == Approx(1.81).margin(0.005));
}

TEST_CASE("egg yolk from its composition", "[reference]") {
    // usda-egg-yolk (raw, fresh, per 100 g): water 52.31, protein 15.86, lipid 26.54, carbohydrate 3.59,
    // ash 1.70 by difference; component densities 1.00, 1.35, 0.92, 1.55, 2.5 values from memory.
    const std::array composition{part(0.5231, 1.0), part(0.1586, 1.35), part(0.2654, 0.92), part(0.0359, 1.55),
                                 part(0.0170, 2.5)};
    const MassDensity rho = mixture_density(composition);
    CHECK(in_grams_per_cubic_centimetre(rho) == near(1.04273, 1e-4));
    const MassDensity dry = bone_dry_density(rho, MassFraction::of(0.5231));
    CHECK(in_grams_per_cubic_centimetre(dry) == Approx(1.094).margin(5e-4));
    CHECK(0.4769 * rho.value() / dry.value() == near(0.45455, 1e-4));
}

TEST_CASE("pair rule: the density of a pigment at the moisture it is weighed at", "[unit]") {
    Pigment p = worked::lake();
    CHECK(as_weighed_density(p) == p.density.value());
    p.density = worked::density(2.22404);
    p.density_state = MoistureState::bone_dry;
    CHECK_THROWS_AS(as_weighed_density(p), DomainError);
    p.moisture = worked::exactly(MassFraction::of(0.15));
    CHECK(in_grams_per_cubic_centimetre(as_weighed_density(p)) == near(1.87904, 1e-5));
    CHECK(in_millilitres(powder_volume(grams(3.5), grams_per_cubic_centimetre(0.35))) == near(10.0, 1e-14));
}

TEST_CASE("moisture there and back", "[identity]") {
    for (double rho = 1.1; rho < 8.0; rho *= 1.3)
        for (double w = 0.0; w < 0.95; w += 0.07) {
            const auto moisture = MassFraction::of(w);
            const auto moist = moist_density(grams_per_cubic_centimetre(rho), moisture);
            CHECK(in_grams_per_cubic_centimetre(bone_dry_density(moist, moisture)) == near(rho, 1e-12));
            CHECK(moist.value() <= rho * 1e3 * (1 + 1e-12));
        }
}

TEST_CASE("density refuses what has no meaning", "[errors]") {
    const std::array short_of_one{part(0.5, 2.0), part(0.4, 3.0)};
    CHECK_THROWS_AS(mixture_density(short_of_one), DomainError);
    const std::array weightless{part(1.0, 0.0)};
    CHECK_THROWS_AS(mixture_density(weightless), DomainError);
    CHECK_THROWS_AS(bone_dry_density(grams_per_cubic_centimetre(2), MassFraction::of(1)), DomainError);
    // 60 % water would take 0.6 mL of the 0.5 mL there is.
    CHECK_THROWS_AS(bone_dry_density(grams_per_cubic_centimetre(2), MassFraction::of(0.6)), DomainError);
    CHECK_THROWS_AS(powder_volume(grams(1), MassDensity()), DomainError);
    CHECK_THROWS_AS(powder_volume(grams(-1), grams_per_cubic_centimetre(1)), DomainError);
    // A powder of endless density came out with a density of its own.
    const std::array endless{part(1.0, HUGE_VAL)};
    CHECK_THROWS_AS(mixture_density(endless), DomainError);
}

TEST_CASE("a powder of water alone has no dry density, and a damp one is told what is wrong", "[errors]") {
    CHECK_THROWS_WITH(bone_dry_density(grams_per_cubic_centimetre(0.9), MassFraction::of(1.0)),
                      Catch::Contains("some dry matter must be left"));
    CHECK_THROWS_WITH(bone_dry_density(grams_per_cubic_centimetre(2.0), MassFraction::of(0.5)),
                      Catch::Contains("fill the whole volume"));
    CHECK_NOTHROW(bone_dry_density(grams_per_cubic_centimetre(1.99), MassFraction::of(0.5)));
    CHECK_THROWS_AS(powder_volume(grams(-1), grams_per_cubic_centimetre(1)), DomainError);
    CHECK(in_millilitres(powder_volume(grams(0), grams_per_cubic_centimetre(1))) == Approx(0.0).margin(1e-300));
    CHECK_THROWS_AS(powder_volume(grams(1), grams_per_cubic_centimetre(0)), DomainError);
}
