#include "lakebound/paint/quick_check.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "support/told.hpp"

using namespace lakebound;

namespace {
QuickBinder by_mass(double g, double nv, std::optional<double> solids) {
    QuickBinder b{"medium", grams(g), MassFraction::of(nv), {}, {}};
    if (solids) b.solids_density = grams_per_cubic_centimetre(*solids);
    return b;
}
QuickBinder oil(double ml) { return {"linseed oil", millilitres(ml), MassFraction::of(1), {}, {}}; }
SufficiencyWindow window() {
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    return {k(1.0), k(1.15), k(1.7), k(2.2)};
}
bool waits(const QuickCheck& c, QuickAnswer a, QuickNeed n) {
    return std::any_of(c.unanswered.begin(), c.unanswered.end(),
                       [&](const Unanswered& u) { return u.answer == a && u.needs == n; });
}
} // namespace

TEST_CASE("published titanium white paint through the quick check", "[reference]") {
    // beetsma-pvc: TiO2 25.20 g at 4.2, alkyd solids 30.05 g at 1.10: PVC 18.0 %; no oil absorption there,
    // so only the PVC is answered.
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(25.20);
    q.pigment_density = grams_per_cubic_centimetre(4.2);
    q.binders = {by_mass(30.05, 1.0, 1.10)};
    const auto c = quick_check(q);
    REQUIRE(c.pvc);
    CHECK(c.pvc->value() == Approx(.180).margin(5e-4));
    CHECK_FALSE(c.k);
    CHECK(waits(c, QuickAnswer::k, QuickNeed::oil_absorption));
    CHECK(waits(c, QuickAnswer::porosity, QuickNeed::oil_absorption));
    CHECK_FALSE(waits(c, QuickAnswer::pvc, QuickNeed::pigment_density));
}

TEST_CASE("one to one of the worked lake, by mass and by spoon", "[reference]") {
    // docs/theory.md: 10 g of the lake (oil absorption 68.8, density 1.88) with 10 g of gum medium, 36.85 %
    // solids of mean density 1.3964: k .357, reduced PVC 1.60; with 31.9 g: 1.14 and .925.
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(10);
    q.oil_absorption = grams_per_100_grams(68.78);
    q.pigment_density = grams_per_cubic_centimetre(1.88);
    q.window = window();
    q.binders = {by_mass(10, .36853, .36853 / .26392)};
    const auto mass = quick_check(q);
    CHECK(mass.k.value().value() == Approx(.357).margin(5e-4));
    CHECK(mass.reduced_pvc.value().value() == Approx(1.60).margin(5e-3));
    CHECK(mass.verdict == Verdict::fails_under);
    CHECK(in_millilitres(*mass.spare_binder) == Approx(2.639 - 7.396).margin(2e-3));
    q.binders = {by_mass(31.9, .36853, .36853 / .26392)};
    const auto spoon = quick_check(q);
    CHECK(spoon.k.value().value() == Approx(1.14).margin(5e-3));
    CHECK(spoon.reduced_pvc.value().value() == Approx(.925).margin(2e-3));
    CHECK(spoon.porosity.value().value() == 0.0);
    CHECK(spoon.unanswered.empty());
}

TEST_CASE("k and verdict need no density, and no density changes them", "[identity]") {
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(10);
    q.oil_absorption = grams_per_100_grams(68.78);
    q.window = window();
    q.binders = {oil(9.98)};
    const auto without = quick_check(q);
    REQUIRE(without.k);
    CHECK(without.k->value() == Approx(1.35).margin(1e-3));
    CHECK(without.verdict == Verdict::green);
    CHECK_FALSE(without.pvc);
    CHECK(waits(without, QuickAnswer::pvc, QuickNeed::pigment_density));
    CHECK(waits(without, QuickAnswer::cpvc, QuickNeed::pigment_density));
    CHECK(without.unanswered.size() == 4);
    for (double rho = 1.2; rho < 9; rho *= 1.3) {
        q.pigment_density = grams_per_cubic_centimetre(rho);
        CHECK(quick_check(q).k->value() == Approx(without.k->value()).epsilon(1e-12));
    }
    // A volume that all stays is itself; a mass of it needs its density.
    QuickBinder weighed = oil(1);
    weighed.amount = grams(9.2814);
    weighed.density = grams_per_cubic_centimetre(.93);
    CHECK(in_millilitres(dry_binder_volume(weighed)) == Approx(9.98).epsilon(1e-12));
    CHECK(dry_binder_volume(oil(9.98)) == millilitres(9.98));
    // Yolk reaches fewer voids: k falls by the index.
    q.binder_index = BinderIndex::of(.85);
    CHECK(quick_check(q).k->value() == Approx(.85 * without.k->value()).epsilon(1e-12));
}

TEST_CASE("a film at its CPVC holds no air from a rounding error", "[identity]") {
    for (int oa = 20; oa < 120; oa += 3)
        for (double rho = 1.2; rho < 4.5; rho += 0.1) {
            QuickQuestion q;
            q.test_oil = grams_per_cubic_centimetre(0.93);
            q.pigment = grams(10);
            q.oil_absorption = grams_per_100_grams(oa);
            q.pigment_density = grams_per_cubic_centimetre(rho);
            const Volume fills = q.pigment * binder_demand(*q.oil_absorption, q.test_oil);
            q.binders = {{"oil", fills, MassFraction::of(1), {}, {}}};
            CHECK(quick_check(q).porosity.value().value() == 0.0);
            // A thousandth part less binder does leave air.
            q.binders = {{"oil", fills * 0.999, MassFraction::of(1), {}, {}}};
            CHECK(quick_check(q).porosity.value().value() > 1e-4);
        }
}

TEST_CASE("k rises with binder and falls with oil absorption and pigment", "[identity]") {
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(10);
    q.oil_absorption = grams_per_100_grams(60);
    double last = 0;
    for (double ml = 1; ml < 30; ml += 1.7) {
        q.binders = {oil(ml)};
        const double now = quick_check(q).k->value();
        CHECK(now > last);
        last = now;
    }
    for (double oa = 10; oa < 390; oa += 23) {
        q.oil_absorption = grams_per_100_grams(oa);
        const double now = quick_check(q).k->value();
        if (oa > 10) CHECK(now < last);
        last = now;
    }
}

TEST_CASE("a quick check says what is wrong", "[errors]") {
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(10);
    CHECK_THROWS_WITH(quick_check(q), Catch::Contains("binder is none"));
    q.binders = {oil(0)};
    CHECK_THROWS_AS(quick_check(q), DomainError);
    q.binders = {oil(-2)};
    CHECK_THROWS_AS(quick_check(q), DomainError);
    q.binders = {by_mass(10, .4, {})};
    CHECK_THROWS_WITH(quick_check(q), Catch::Contains("density of the solids of medium is not given"));
    q.binders = {by_mass(10, 0, 1.4)};
    CHECK_THROWS_AS(quick_check(q), DomainError);
    q.binders = {by_mass(10, .4, 0.)};
    CHECK_THROWS_AS(quick_check(q), DomainError);
    QuickBinder half = oil(3);
    half.non_volatile = MassFraction::of(.5);
    q.binders = {half};
    CHECK_THROWS_WITH(quick_check(q), Catch::Contains("density of linseed oil"));
    q.binders = {oil(3)};
    q.pigment = grams(0);
    CHECK_THROWS_AS(quick_check(q), DomainError);
    CHECK_THROWS_AS(grams_per_100_grams(1.9), DomainError);
    CHECK_THROWS_AS(grams_per_100_grams(401), DomainError);
}

TEST_CASE("a quick check tells the figure in the unit it was asked in", "[errors]") {
    QuickQuestion q;
    q.test_oil = grams_per_cubic_centimetre(0.93);
    q.pigment = grams(10);
    q.binders = {by_mass(-3, .4, 1.4)};
    CHECK(told([&] { quick_check(q); }) == "amount of binder: -3 g");
    q.binders = {oil(-2)};
    CHECK(told([&] { quick_check(q); }) == "amount of binder: -2 mL");
    q.binders = {by_mass(10, .4, -1.4)};
    CHECK(told([&] { quick_check(q); }) == "density of the solids: -1.4 g/cm3");
    q.binders = {oil(3)};
    q.pigment = grams(-1);
    CHECK(told([&] { quick_check(q); }) == "pigment mass: -1 g");
    q.pigment = grams(5e-4);
    q.binders = {oil(5e-4)};
    CHECK(told([&] { quick_check(q); }) == "taken");
}
