#include "lakebound/bath/formula.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("formulas are read as they stand on the jar", "[unit]") {
    const Atoms alum = atoms_of("KAl(SO4)2.12H2O");
    CHECK(alum[Element::potassium] == Approx(1.0));
    CHECK(alum[Element::aluminium] == Approx(1.0));
    CHECK(alum[Element::sulphur] == Approx(2.0));
    CHECK(alum[Element::oxygen] == Approx(20.0));
    CHECK(alum[Element::hydrogen] == Approx(24.0));
    const Atoms potash = atoms_of("K2CO3.1.5H2O"); // a broken count of water
    CHECK(potash[Element::oxygen] == Approx(4.5));
    CHECK(potash[Element::hydrogen] == Approx(3.0));
    CHECK(atoms_of("CaCl2")[Element::calcium] == Approx(1.0)); // not carbon
    CHECK(atoms_of("Al4(OH)10SO4")[Element::oxygen] == Approx(14.0));
}

TEST_CASE("what is no formula of a bath is refused", "[errors]") {
    for (const char* text : {"", "Fe2O3", "Al(OH", "Al)OH", "K2CO3.", ".5H2O", "K2CO3..5H2O", "h2o", "Al0", "H2O 2", "Al((OH)2)3", "Al1234567", "H."})
        CHECK_THROWS_AS(atoms_of(text), DomainError);
}

TEST_CASE("molar masses of the bath", "[reference]") {
    // Reference B.1 of the domain brief, own computation there from the same abridged weights: to a last digit.
    const auto mass = [](const char* formula) { return in_grams_per_mole(molar_mass(atoms_of(formula))); };
    CHECK(mass("KAl(SO4)2.12H2O") == Approx(474.372).margin(.0015));
    CHECK(mass("NH4Al(SO4)2.12H2O") == Approx(453.313).margin(.0015));
    CHECK(mass("Al2(SO4)3.18H2O") == Approx(666.402).margin(.0015));
    CHECK(mass("Al(C2H3O2)3") == Approx(204.114).margin(.0015));
    CHECK(mass("AlCl3.6H2O") == Approx(241.422).margin(.0015));
    CHECK(mass("Na2CO3") == Approx(105.99).margin(.006));
    CHECK(mass("Na2CO3.10H2O") == Approx(286.14).margin(.006));
    CHECK(mass("Al(OH)3") == Approx(78.00).margin(.006));
}
