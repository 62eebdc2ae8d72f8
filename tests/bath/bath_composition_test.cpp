#include "lakebound/bath/bath_composition.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
const AmountOfSubstance alum_50_grams = moles(50 / 474.372); // of potassium alum
HydroxidesPerAluminium hydroxides_of(double n) { return HydroxidesPerAluminium::of(n); }
const PartDensities usual{grams_per_cubic_centimetre(1.50), grams_per_cubic_centimetre(2.66)};
LakeMakeUp kitchen_lake() {
    return {alum_50_grams, hydroxides_of(3), grams(1.50), MassFraction::of(.15), MassFraction::of(.03), usual};
}
double gcc(const MassDensity& d) { return in_grams_per_cubic_centimetre(d); }
LakeEstimate doubted(Estimate<MassFraction> water) {
    return {Estimate<AmountOfSubstance>::exact(alum_50_grams, {}),
            Estimate<HydroxidesPerAluminium>::rectangular(hydroxides_of(2.75), HydroxidesPerAluminium::Difference::of(.25), {}),
            Estimate<Mass>::lognormal(grams(8.222 * .18), std::exp(.5), {}),
            water,
            Estimate<MassFraction>::lognormal(MassFraction::of(.02), std::exp(.7), {}),
            Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.50), grams_per_cubic_centimetre(.06), {}),
            Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.68), {}),
            Estimate<Share>::normal(Share::of(.90), Share::Difference::of(.05), {})};
}
const auto damp = Estimate<MassFraction>::normal(MassFraction::of(.17), MassFraction::Difference::of(.05), {});
} // namespace

TEST_CASE("worked composition of the kitchen lake", "[reference]") {
    // docs/theory.md, worked by hand: 8.222 g of hydroxide, 1.50 g of dye, 15 % water, 3 % salts: 11.856 g, 1.879 g/cm3,
    // bone dry 2.224. Four figures.
    const auto parts = lake_parts(kitchen_lake());
    CHECK(in_grams(parts.solid) == Approx(8.222).margin(6e-4));
    CHECK(in_grams(parts.whole) == Approx(11.856).margin(1e-3));
    CHECK(in_grams(parts.water) == Approx(.15 * 11.856).margin(1e-3));
    CHECK(in_grams(parts.salts) == Approx(.03 * 11.856).margin(1e-3));
    CHECK(gcc(parts.density) == Approx(1.879).margin(6e-4));
    CHECK(gcc(parts.dry_density) == Approx(2.224).margin(6e-4));
}

TEST_CASE("masses of basic sulphate", "[reference]") {
    // Worked apart from this code: 50 g of potassium alum give 8.222 g of Al(OH)3 or 9.857 g of Al4(OH)10SO4.
    CHECK(in_grams(alum_50_grams * solid_per_aluminium(hydroxides_of(3))) == Approx(8.222).margin(6e-4));
    CHECK(in_grams(alum_50_grams * solid_per_aluminium(hydroxides_of(2.5))) == Approx(9.857).margin(6e-4));
    CHECK(gcc(solid_density(hydroxides_of(3))) == Approx(2.42));
    CHECK(gcc(solid_density(hydroxides_of(2.5))) == Approx(2.12));
}

TEST_CASE("density of an undried kitchen lake, drawn apart", "[reference]") {
    // Monte Carlo apart from this code with these very inputs: median 1.77, sd .10, 90 % 1.63 to 1.95; correlations water
    // -.85, dye -.37, kept sulphate -.34, salts .07, whose squares are the shares of a budget. Two figures, and the other
    // program let sulphate change the density alone.
    const auto found = expected_lake(doubted(damp));
    CHECK(gcc(found.density) == Approx(1.77).margin(.012));
    CHECK(gcc(found.density_standard_uncertainty) == Approx(.10).margin(.01));
    CHECK(found.density_kg_m3.low / 1e3 == Approx(1.63).margin(.02));
    CHECK(found.density_kg_m3.high / 1e3 == Approx(1.95).margin(.02));
    const auto share = [&](const char* name) {
        for (const auto& line : found.density_budget.lines)
            if (line.name == name) return line.share;
        return -1.0;
    };
    CHECK(share("water") == Approx(.85 * .85).margin(.06));
    CHECK(share("dye") == Approx(.37 * .37).margin(.05));
    CHECK(share("hydroxides per aluminium") == Approx(.34 * .34).margin(.05));
    CHECK(share("salts") == Approx(.07 * .07).margin(.01));
}

TEST_CASE("density lies between its parts'", "[identity]") {
    for (const double n : {2.0, 2.5, 2.6, 3.0})
        for (const double dye : {0.0, .5, 6.0})
            for (const double water : {0.0, .15, .40})
                for (const double salts : {0.0, .03, .3}) {
                    const auto p = lake_parts({alum_50_grams, hydroxides_of(n), grams(dye), MassFraction::of(water), MassFraction::of(salts), usual});
                    CHECK(gcc(p.density) > 1.0 - 1e-12);
                    CHECK(gcc(p.density) < std::max(gcc(solid_density(hydroxides_of(n))), 2.66) + 1e-12);
                    CHECK(gcc(p.dry_density) >= gcc(p.density) - 1e-9);
                    CHECK(in_grams(p.solid + p.dye + p.water + p.salts) == Approx(in_grams(p.whole)).epsilon(1e-12));
                    // Twice the bath is twice the lake, and no denser.
                    const auto two = lake_parts({2.0 * alum_50_grams, hydroxides_of(n), grams(2 * dye), MassFraction::of(water), MassFraction::of(salts), usual});
                    CHECK(in_grams(two.whole) == Approx(2 * in_grams(p.whole)).epsilon(1e-13));
                    CHECK(gcc(two.density) == Approx(gcc(p.density)).epsilon(1e-13));
                }
}

TEST_CASE("expected yield of the jar", "[reference]") {
    // Domain figures, worked by hand: 11.86 g times .90 is 10.7 g from 50 g of alum.
    LakeEstimate sure = doubted(Estimate<MassFraction>::exact(MassFraction::of(.15), {}));
    sure.hydroxides = Estimate<HydroxidesPerAluminium>::exact(hydroxides_of(3), {});
    sure.dye = Estimate<Mass>::exact(grams(1.5), {});
    sure.salts = Estimate<MassFraction>::exact(MassFraction::of(.03), {});
    const auto found = expected_lake(sure);
    CHECK(in_grams(found.mass) == Approx(10.67).margin(.01));
    CHECK(in_grams(found.mass_standard_uncertainty) == Approx(.05 * 11.856).epsilon(.02));
    CHECK(found.mass_kg.low * 1e3 == Approx(10.67 - 1.645 * .593).margin(.03));
    // Kept sulphate makes more lake, with no mistake: 20 % more solid.
    sure.hydroxides = Estimate<HydroxidesPerAluminium>::exact(hydroxides_of(2.5), {});
    CHECK(expected_lake(sure).mass / found.mass == Approx((9.857 + 1.5) / (8.222 + 1.5)).epsilon(2e-3));
}

TEST_CASE("a weighed moisture is worth more than anything else", "[unit]") {
    const auto guessed = expected_lake(doubted(damp));
    const auto weighed = expected_lake(doubted(Estimate<MassFraction>::normal(MassFraction::of(.17), MassFraction::Difference::of(.01), {})));
    CHECK(weighed.density_standard_uncertainty < .62 * guessed.density_standard_uncertainty);
}

TEST_CASE("mass and density of a lake laid with chalk", "[reference]") {
    // Worked by hand in the domain notes: 20 g of alum and 10 g of chalk; 3.67 g of chalk left, gypsum 10.9 g of which
    // 2.4 g dissolve, 3.29 g of alumina: 15.4 g, alumina 21 %, 2.42 g/cm3. Three figures.
    ChalkLake laid{};
    laid.chalk_left = grams(3.67);
    laid.gypsum = grams(10.9);
    laid.gypsum_dissolved = grams(2.4);
    laid.alumina = grams(3.29);
    const auto parts = chalk_lake_parts(laid, grams(0), {}, {}, usual);
    CHECK(in_grams(parts.solid) == Approx(15.46).margin(.02));
    CHECK(gcc(parts.density) == Approx(2.42).margin(.006));
    CHECK_THROWS_AS(chalk_lake_parts({}, grams(1), {}, {}, usual), DomainError);
}

TEST_CASE("lakes that cannot be are refused", "[errors]") {
    auto bad = kitchen_lake();
    bad.water = MassFraction::of(.97);
    CHECK_THROWS_AS(lake_parts(bad), DomainError);
    bad = kitchen_lake();
    bad.aluminium = moles(0);
    CHECK_THROWS_AS(lake_parts(bad), DomainError);
    bad = kitchen_lake();
    bad.dye = grams(-1);
    CHECK_THROWS_AS(lake_parts(bad), DomainError);
    bad = kitchen_lake();
    bad.densities.dye = grams_per_cubic_centimetre(0);
    CHECK_THROWS_AS(lake_parts(bad), DomainError);
    CHECK_THROWS_AS(expected_lake(doubted(Estimate<MassFraction>::normal(MassFraction::of(.9), MassFraction::Difference::of(.3), {}))), DomainError);
}
