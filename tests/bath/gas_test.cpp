#include "lakebound/bath/gas.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("gas of soda solution", "[reference]") {
    // Domain brief B.4, own computation there: mL CO2 per mL of 10 % w/v soda (0.1/105.99 mol) at 20, 25, 60 degC.
    const AmountOfSubstance one = moles(0.1 / 105.99);
    CHECK(in_millilitres(gas_volume(one, degrees_celsius(20))) == Approx(22.7).margin(.06));
    CHECK(in_millilitres(gas_volume(one, degrees_celsius(25))) == Approx(23.1).margin(.06));
    CHECK(in_millilitres(gas_volume(one, degrees_celsius(60))) == Approx(25.8).margin(.06));
    // The mole of a perfect gas at 0 degC and 1 atm: 22.414 L (codata, value from memory).
    CHECK(in_litres(gas_volume(moles(1), degrees_celsius(0))) == Approx(22.414).margin(.001));
    // 34 mmol/L stay dissolved at 1 atm and 25 degC (domain brief B.4, from phreeqc-dat).
    CHECK(in_moles(dissolved_gas(litres(1), standard_atmospheres(1))) == Approx(.034).margin(.0005));
}

TEST_CASE("how slowly to pour into a headspace", "[reference]") {
    // Domain brief B.9, own computation: 167.6 mL of 10 % soda at 60 degC into 1.5 L: 1.4, 4.1, 8.2 min for a foam
    // that lives 20, 60, 120 s, with 0.7 of the headspace for foam.
    const AmountOfSubstance gas = moles(16.76 / 105.99);
    const auto pouring = [&](double life) {
        return in_minutes(plan_foam(gas, degrees_celsius(60), litres(1.5), seconds(life), Share::of(.7)).pouring);
    };
    CHECK(pouring(20) == Approx(1.4).margin(.06));
    CHECK(pouring(60) == Approx(4.1).margin(.06));
    CHECK(pouring(120) == Approx(8.2).margin(.06));
    // 4.32 L of gas in portions of 1.05 L at most.
    CHECK(plan_foam(gas, degrees_celsius(60), litres(1.5), seconds(60), Share::of(.7)).portions == 5);
}

TEST_CASE("doubling gas and headspace leaves the time", "[identity]") {
    const auto one = plan_foam(moles(.1), degrees_celsius(50), litres(1), seconds(40), Share::of(.7));
    const auto two = plan_foam(moles(.2), degrees_celsius(50), litres(2), seconds(40), Share::of(.7));
    CHECK(in_seconds(two.pouring) == Approx(in_seconds(one.pouring)).epsilon(1e-12));
    CHECK(in_litres(two.gas) == Approx(2 * in_litres(one.gas)).epsilon(1e-12));
    CHECK(two.portions == one.portions);
}

TEST_CASE("no headspace, no foam plan", "[errors]") {
    const auto plan = [](double gas, double head, double life, double fill) {
        return plan_foam(moles(gas), degrees_celsius(50), litres(head), seconds(life), Share::of(fill));
    };
    CHECK_THROWS_AS(plan(.1, 0, 20, .7), DomainError);
    CHECK_THROWS_AS(plan(.1, 1, 0, .7), DomainError);
    CHECK_THROWS_AS(plan(.1, 1, 20, 0), DomainError);
    CHECK_THROWS_AS(plan(-.1, 1, 20, .7), DomainError);
    CHECK_THROWS_AS(gas_volume(moles(1), degrees_celsius(20), pascals(0)), DomainError);
    CHECK_THROWS_AS(dissolved_gas(litres(-1), standard_atmospheres(1)), DomainError);
    CHECK_THROWS_AS(dissolved_gas(litres(1), standard_atmospheres(-.1)), DomainError);
}
