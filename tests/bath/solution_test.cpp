#include "lakebound/bath/solution.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"
#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
double density(const Salt& salt, double strength, double celsius = 20) {
    return in_kilograms_per_cubic_metre(*solution_density(salt, MassFraction::of(strength), degrees_celsius(celsius)));
}
double density(Solute solute, double strength) {
    return in_kilograms_per_cubic_metre(solution_density({{solute, MassFraction::of(strength)}}, degrees_celsius(20)));
}
} // namespace

TEST_CASE("densities of solutions", "[reference]") {
    // Domain brief B.2, computed there with the same published coefficients (laliberte-2009) and another water formula:
    // to 0.1 kg/m3 of its rounding.
    CHECK(density(soda_ash(), .01) == Approx(1008.7).margin(.11));
    CHECK(density(soda_ash(), .10) == Approx(1103.6).margin(.11));
    CHECK(density(soda_ash(), .10, 25) == Approx(1101.7).margin(.11));
    CHECK(density(potash(), .05) == Approx(1042.7).margin(.11));
    CHECK(density(potash(), .10) == Approx(1088.3).margin(.11));
    CHECK(density(baking_soda(), .05) == Approx(1034.3).margin(.11));
    CHECK(density(Solute::sodium_sulphate, .10) == Approx(1091.2).margin(.11));
    CHECK(density(Solute::potassium_sulphate, .10) == Approx(1081.1).margin(.11));
    CHECK(density(Solute::aluminium_sulphate, .10) == Approx(1104.3).margin(.11));
    CHECK(density(potash_alum(), .10) == Approx(1050.2).margin(.11));
    CHECK(density(ammonium_alum(), .10) == Approx(1045.4).margin(.11));
    CHECK(density(aluminium_sulphate(18), .10) == Approx(1050.8).margin(.11));
    CHECK(density(aluminium_sulphate(14), .10) == Approx(1057.4).margin(.11));
    CHECK(density(soda_monohydrate(), .10) == Approx(1088.1).margin(.11));
    CHECK(density(soda_crystals(), .10) == Approx(1037.1).margin(.11));
    // Handbook tables (values from memory), 10 % at 20 degC: sodium chloride 1070.7, sodium hydroxide 1108.9.
    CHECK(density(Solute::sodium_chloride, .10) == Approx(1070.7).epsilon(.001));
    CHECK(density(Solute::sodium_hydroxide, .10) == Approx(1108.9).epsilon(.001));
    CHECK(density(Solute::ammonium_sulphate, .10) == Approx(1057.4).epsilon(.002)); // the same, from memory
    CHECK(density(Solute::aluminium_chloride, .10) == Approx(1090.0).epsilon(.005)); // the same, from memory
}

TEST_CASE("ten percent means three things", "[reference]") {
    // Domain brief B.2: 10 % w/w soda holds 11.04 g in 100 mL.
    const auto at = degrees_celsius(20);
    CHECK(in_grams(salt_in(soda_ash(), millilitres(100), {.10, StrengthBasis::by_mass}, at)) == Approx(11.04).margin(.006));
    CHECK(in_grams(salt_in(soda_ash(), millilitres(100), {.10, StrengthBasis::by_volume}, at)) == Approx(10.0).epsilon(1e-9));
    const auto per_water = made_up(soda_ash(), grams(10), {.10, StrengthBasis::per_water}, at);
    CHECK(in_grams(per_water.water) == Approx(99.82).margin(.01)); // 100 mL of water
    CHECK(per_water.by_mass.value() == Approx(10.0 / 109.82).epsilon(1e-4));
    const auto by_volume = made_up(soda_ash(), grams(10), {.10, StrengthBasis::by_volume}, at);
    CHECK(in_millilitres(by_volume.volume) == Approx(100.0).epsilon(1e-9));
    CHECK(in_grams(by_volume.salt + by_volume.water) ==
          Approx(in_grams(by_volume.volume * by_volume.density)).epsilon(1e-12));
}

TEST_CASE("a salt without figures keeps to mass", "[errors]") {
    const auto at = degrees_celsius(20);
    CHECK_FALSE(solution_density(chalk_salt(), MassFraction::of(.05), at));
    CHECK_FALSE(solutes_of(basic_aluminium_acetate()));
    CHECK_THROWS_AS(made_up(chalk_salt(), grams(1), {.10, StrengthBasis::by_volume}, at), DomainError);
    CHECK_THROWS_AS(made_up(soda_ash(), grams(1), {0, StrengthBasis::by_mass}, at), DomainError);
    CHECK_THROWS_AS(made_up(soda_ash(), grams(1), {.6, StrengthBasis::by_mass}, at), DomainError);
    CHECK_THROWS_AS(made_up(soda_ash(), grams(-1), {.1, StrengthBasis::by_mass}, at), DomainError);
    CHECK_THROWS_AS(salt_in(soda_ash(), millilitres(-1), {.1, StrengthBasis::by_mass}, at), DomainError);
    CHECK_THROWS_AS(solution_density({{Solute::sodium_sulphate, MassFraction::of(.31)}}, at), DomainError);
    CHECK_THROWS_AS(solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(60)), DomainError);
    CHECK_THROWS_AS(solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(14.9)), DomainError);
    CHECK_THROWS_AS(solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(55.1)), DomainError);
    CHECK_NOTHROW(solution_density(soda_ash(), MassFraction::of(.1), degrees_celsius(15)));
}

TEST_CASE("a salt of mixed ions is reckoned as the solutes it makes", "[unit]") {
    // AlClSO4: a sulphate takes two thirds of an aluminium, the chloride the third: 1/3 mol of each of the two solutes.
    const auto mixed = solutes_of(salt_of("AlClSO4", 0, {{Ion::aluminium, 1}, {Ion::chloride, 1}, {Ion::sulphate, 1}}));
    REQUIRE(mixed);
    REQUIRE(mixed->size() == 2);
    const double whole = 26.982 + 35.45 + 96.06; // g/mol, of the atoms' weights
    for (const auto& each : *mixed)
        CHECK(each.share.value() == Approx((each.solute == Solute::aluminium_sulphate ? 342.15 : 133.34) / 3 / whole).epsilon(1e-4));
    // A salt of one pair is that pair alone, all of what is not water.
    for (const auto& [salt, dry] : {std::pair(soda_ash(), 1.0), std::pair(soda_crystals(), 105.99 / 286.14), std::pair(aluminium_chloride(), 133.34 / 241.43),
                                    std::pair(aluminium_sulphate(18), 342.15 / 666.42), std::pair(baking_soda(), 1.0), std::pair(potash(), 1.0)}) {
        CAPTURE(salt.name);
        const auto one = solutes_of(salt);
        REQUIRE(one);
        REQUIRE(one->size() == 1);
        CHECK(one->front().share.value() == Approx(dry).epsilon(2e-4));
    }
    // Where an ion is left over nothing is known of it.
    CHECK_FALSE(solutes_of(salt_of("Na3SO4", 0, {{Ion::sodium, 3}, {Ion::sulphate, 1}})));
    CHECK_FALSE(solutes_of(salt_of("NaSO4", 0, {{Ion::sodium, 1}, {Ion::sulphate, 1}})));
}

TEST_CASE("whether that much dissolves", "[unit]") {
    Salt soda = baking_soda();
    CHECK_FALSE(dissolves(soda, MassFraction::of(.10), degrees_celsius(20)));
    soda.solubility = {{degrees_celsius(0), .069}, {degrees_celsius(20), .096}, {degrees_celsius(40), .127}};
    CHECK_FALSE(*dissolves(soda, MassFraction::of(.10), degrees_celsius(20))); // 9.6 g to 100 g of water is 8.8 % w/w
    CHECK(*dissolves(soda, MassFraction::of(.087), degrees_celsius(20)));
    CHECK(*dissolves(soda, MassFraction::of(.10), degrees_celsius(40)));
}

TEST_CASE("a solution has so much volume to its salt", "[unit]") {
    MadeUp made;
    made.salt = grams(20), made.volume = millilitres(100);
    CHECK(in_millilitres(grams(3) * made.volume_per_salt()) == Approx(15).epsilon(1e-12));
}
