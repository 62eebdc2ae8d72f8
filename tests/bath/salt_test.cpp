#include "lakebound/bath/salt.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"
#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("a salt's ions make up its formula", "[identity]") {
    for (const Salt& salt : {potash_alum(), ammonium_alum(), aluminium_sulphate(18), aluminium_sulphate(14),
                             aluminium_chloride(), basic_aluminium_acetate(), soda_ash(), soda_crystals(),
                             baking_soda(), potash_hydrate(), chalk_salt(), slaked_lime()}) {
        INFO(salt.formula);
        CHECK(is_consistent(salt));
    }
    Salt wrong = soda_ash();
    wrong.gives[Ion::carbonate] = 2; // a charge is left over
    CHECK_FALSE(is_consistent(wrong));
    wrong = soda_ash();
    wrong.hydrate_water = 1; // water that the formula lacks
    CHECK_FALSE(is_consistent(wrong));
}

TEST_CASE("millimoles of aluminium in a gram of each salt", "[reference]") {
    // Domain brief, table of needs (own computation there), four figures.
    const auto per_gram = [](const Salt& salt) { return ions_of(salt, grams(1))[Ion::aluminium] * 1e3; };
    CHECK(per_gram(potash_alum()) == Approx(2.108).margin(.0006));
    CHECK(per_gram(ammonium_alum()) == Approx(2.206).margin(.0006));
    CHECK(per_gram(aluminium_sulphate(18)) == Approx(3.001).margin(.0006));
    CHECK(per_gram(aluminium_sulphate(14)) == Approx(3.365).margin(.0006));
    CHECK(per_gram(aluminium_chloride()) == Approx(4.142).margin(.0006));
    CHECK(per_gram(basic_aluminium_acetate()) == Approx(6.170).margin(.0006));
}

TEST_CASE("soda crystals hold 37 % of their weight of soda", "[reference]") {
    // Molar masses 105.99 and 286.14 (handbook values from memory).
    CHECK(1.0 - hydrate_share(soda_crystals()).value() == Approx(105.99 / 286.14).epsilon(1e-4));
    CHECK(hydrate_share(soda_ash()).value() == Approx(0.0).margin(1e-15));
}

TEST_CASE("base of the alkalis", "[unit]") {
    CHECK(base_per_mole(soda_crystals()) == Approx(2.0));
    CHECK(base_per_mole(baking_soda()) == Approx(1.0));
    CHECK(base_per_mole(slaked_lime()) == Approx(2.0));
    CHECK(base_per_mole(potash_alum()) == Approx(0.0).margin(1e-15));
    CHECK(is_alkali(chalk_salt()));
    CHECK_FALSE(is_alkali(basic_aluminium_acetate())); // brings base, but is what is laid
    CHECK(is_aluminium_salt(basic_aluminium_acetate()));
    CHECK_FALSE(is_aluminium_salt(potash()));
}

TEST_CASE("mass and amount of a salt are each other's inverse", "[identity]") {
    for (const double g : {0.0, 0.3, 50.0})
        CHECK(in_grams(mass_of(potash_alum(), amount_of(potash_alum(), grams(g)))) == Approx(g).epsilon(1e-12));
    CHECK_THROWS_AS(amount_of(potash_alum(), grams(-1)), DomainError);
}

TEST_CASE("solubility between its points, and none beyond them", "[unit]") {
    Salt alum = potash_alum();
    CHECK_FALSE(solubility_at(alum, degrees_celsius(20)));
    alum.solubility = {{degrees_celsius(20), .14}, {degrees_celsius(50), .368}};
    CHECK(*solubility_at(alum, degrees_celsius(20)) == Approx(.14));
    CHECK(*solubility_at(alum, degrees_celsius(35)) == Approx(.254));
    CHECK(*solubility_at(alum, degrees_celsius(50)) == Approx(.368));
    CHECK_FALSE(solubility_at(alum, degrees_celsius(19)));
    CHECK_FALSE(solubility_at(alum, degrees_celsius(51)));
}
