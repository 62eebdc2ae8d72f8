#include "lakebound/bath/liquor.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {
constexpr double held = 3.0; // mL/g
double drawn(double ratio, unsigned pulls) {
    return 1.0 - plan_pulls(grams(100), millilitres(100 * ratio), pulls, millilitres_per_gram(held)).back().left.value();
}
} // namespace

TEST_CASE("one pull and two", "[reference]") {
    // Domain brief A.2, own computation from the algebra there: 10, 20, 30 mL of water to a gram, 3 mL held.
    CHECK(drawn(10, 1) == Approx(.700).margin(.0006));
    CHECK(drawn(20, 1) == Approx(.850).margin(.0006));
    CHECK(drawn(30, 1) == Approx(.900).margin(.0006));
    CHECK(drawn(10, 2) == Approx(.775).margin(.0006));
    CHECK(drawn(20, 2) == Approx(.931).margin(.0006));
    CHECK(drawn(30, 2) == Approx(.967).margin(.0006));
}

TEST_CASE("water that goes in comes out or stays in the plant", "[identity]") {
    for (const unsigned pulls : {1u, 2u, 5u}) {
        const auto plan = plan_pulls(grams(80), litres(2), pulls, millilitres_per_gram(held));
        Volume in{}, out{};
        for (const auto& pull : plan) {
            in += pull.water;
            out += pull.liquor;
        }
        CHECK(in_millilitres(in - out) == Approx(240.0).epsilon(1e-12));
        for (std::size_t i = 1; i < plan.size(); ++i) CHECK(plan[i].left < plan[i - 1].left);
    }
}

TEST_CASE("the pot for the plant's bulk", "[reference]") {
    // Domain brief A.3: 100 g and 2.0 L fill 2.07 L of pot, density 1.45.
    CHECK(in_litres(pot_for(litres(2), grams(100), grams_per_cubic_centimetre(1.45), Share::of(0))) == Approx(2.07).margin(.002));
    const auto rho = grams_per_cubic_centimetre(1.45);
    const Volume pot = pot_for(litres(2), grams(100), rho, Share::of(.25));
    CHECK(in_litres(pot) == Approx(2.5862).margin(.0005));
    CHECK(in_litres(water_that_fits(pot, grams(100), rho, Share::of(.25))) == Approx(2.0).epsilon(1e-12));
    CHECK(in_litres(water_that_fits(millilitres(50), grams(100), rho, Share::of(.25))) == Approx(0).margin(1e-15));
}

TEST_CASE("fresh plant weighs a fraction dry", "[reference]") {
    // Published yields of drying (herb-drying-yield): henbane leaf 16 to 18 kg of 100 kg.
    CHECK(in_grams(dry_plant(grams(100), Share::of(.17))) == Approx(17.0));
}

TEST_CASE("too little water for the plant is refused", "[errors]") {
    CHECK_THROWS_AS(plan_pulls(grams(100), millilitres(300), 1, millilitres_per_gram(held)), DomainError);
    // Just as much as the plant holds gives no liquor; a drop more does.
    const Volume stays = grams(100) * millilitres_per_gram(held);
    CHECK_THROWS_AS(plan_pulls(grams(100), stays, 1, millilitres_per_gram(held)), DomainError);
    CHECK(in_millilitres(plan_pulls(grams(100), stays + millilitres(.1), 1, millilitres_per_gram(held)).at(0).liquor) == Approx(.1).epsilon(1e-9));
    CHECK_THROWS_AS(plan_pulls(grams(100), millilitres(500), 2, millilitres_per_gram(held)), DomainError);
    CHECK_THROWS_AS(plan_pulls(grams(100), litres(3), 0, millilitres_per_gram(held)), DomainError);
    CHECK_THROWS_AS(plan_pulls(grams(100), litres(3), 7, millilitres_per_gram(held)), DomainError);
    CHECK_THROWS_AS(plan_pulls(grams(0), litres(3), 1, millilitres_per_gram(held)), DomainError);
    CHECK_THROWS_AS(dry_plant(grams(100), Share::of(0)), DomainError);
    CHECK_THROWS_AS(dry_plant(grams(-1), Share::of(.2)), DomainError);
    CHECK_THROWS_AS(pot_for(litres(1), grams(10), grams_per_cubic_centimetre(0), Share::of(.2)), DomainError);
}
