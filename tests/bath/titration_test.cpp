#include "lakebound/bath/titration.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"
#include "salts.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
Titration fifty_grams() {
    return {potash_alum(), grams(50), litres(1.5), soda_ash(), millilitres_per_gram(0)};
}
} // namespace

TEST_CASE("soda to a pH", "[reference]") {
    // Domain brief B.3, own computation: f for pH 5.5/6/6.5/7/7.5/8 in a stirred bath .995/1.002/1.010/1.030/1.097/1.316.
    const std::vector<std::pair<double, double>> rows{{5.5, .995}, {6, 1.002}, {6.5, 1.010}, {7, 1.030}, {7.5, 1.097}, {8, 1.316}};
    for (const auto& [ph, f] : rows) {
        INFO(ph);
        const auto soda = alkali_to_ph(fifty_grams(), Ph::of(ph), LakeSolid::hydroxide, stirred());
        REQUIRE(soda);
        CHECK(in_grams(*soda) / 16.757 == Approx(f).epsilon(.012));
    }
    // While it fizzes pH 8.5 is not reached with twice the book's soda.
    CHECK_FALSE(alkali_to_ph(fifty_grams(), Ph::of(8.5), LakeSolid::hydroxide, fizzing()));
    CHECK_THROWS_AS(alkali_to_ph(fifty_grams(), Ph::of(3.0), LakeSolid::hydroxide, stirred()), DomainError);
}

TEST_CASE("a fizzing bath reads low", "[reference]") {
    // Domain brief 0.3: 40 mL and 20 mL of 10 %: 7.0 while the gas is at 1 atm, 8.5 stirred, 9.9 in air.
    const Titration practice{potash_alum(), grams(4), millilitres(40), soda_ash(), millilitres_per_gram(10)};
    const auto ph = [&](const CarbonDioxide& gas) { return stated_ph(after_alkali(practice, grams(2), LakeSolid::hydroxide, gas)).value(); };
    CHECK(ph(fizzing()) == Approx(7.0).margin(.06));
    CHECK(ph(stirred()) == Approx(8.5).margin(.06));
    CHECK(ph(open_to_air()) == Approx(9.9).margin(.06));
}

TEST_CASE("the curve says nothing before the bath clouds", "[unit]") {
    const auto curve = titration_curve(fifty_grams(), LakeSolid::hydroxide, stirred(), 3.6, 61);
    REQUIRE(curve.size() == 61);
    CHECK_FALSE(curve.front().ph);
    CHECK(curve.back().ph);
    double last = 0.0;
    for (const auto& point : curve) {
        CHECK(point.ph.has_value() == (point.laid.value() > 0.0));
        if (!point.ph) continue;
        CHECK(point.ph->value() >= last);
        last = point.ph->value();
    }
    CHECK(in_grams(curve[50].alkali) == Approx(16.757).margin(.01)); // 3 hydroxides
    CHECK_THROWS_AS(stated_ph(after_alkali(fifty_grams(), grams(0), LakeSolid::hydroxide, stirred())), DomainError);
    CHECK_THROWS_AS(titration_curve(fifty_grams(), LakeSolid::hydroxide, stirred(), 3.6, 1), DomainError);
    CHECK_THROWS_AS(titration_curve(fifty_grams(), LakeSolid::hydroxide, stirred(), 0, 10), DomainError);
    CHECK_THROWS_AS(titration_curve(fifty_grams(), LakeSolid::hydroxide, stirred(), 3.6, 2001), DomainError);
    CHECK_THROWS_AS(titration_curve(fifty_grams(), LakeSolid::hydroxide, stirred(), 1e3, 10), DomainError);
    CHECK_THROWS_AS(after_alkali(fifty_grams(), grams(-.1), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_THROWS_AS(alkali_to_ph(fifty_grams(), Ph::of(10.1), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_THROWS_AS(alkali_to_ph(fifty_grams(), Ph::of(3.99), LakeSolid::hydroxide, stirred()), DomainError);
    CHECK_NOTHROW(alkali_to_ph(fifty_grams(), Ph::of(4.0), LakeSolid::hydroxide, stirred()));
}

TEST_CASE("alkali to a pH ends where the bath begins", "[unit]") {
    // Thin alum lies above pH 4 before anything is poured: a hair below that no alkali brings it, a hair above hardly any does.
    Titration thin = fifty_grams();
    thin.liquor = litres(100);
    Ions ions = ions_of(potash_alum(), grams(50));
    const double begins = equilibrium(ions, litres(100), LakeSolid::hydroxide, closed_jar()).ph.value();
    REQUIRE(begins > 4.01);
    CHECK_FALSE(alkali_to_ph(thin, Ph::of(begins - 2e-4), LakeSolid::hydroxide, closed_jar()));
    const auto little = alkali_to_ph(thin, Ph::of(begins + 2e-4), LakeSolid::hydroxide, closed_jar());
    REQUIRE(little);
    CHECK(in_grams(*little) > 0.0);
    CHECK(in_grams(*little) < .1);
    // What it answers brings the pH asked for.
    for (const double ph : {4.5, 5.0, 6.5, 8.0}) {
        const auto alkali = alkali_to_ph(fifty_grams(), Ph::of(ph), LakeSolid::hydroxide, stirred());
        REQUIRE(alkali);
        Ions bath = ions_of(potash_alum(), grams(50));
        bath += ions_of(soda_ash(), *alkali);
        CHECK(equilibrium(bath, litres(1.5), LakeSolid::hydroxide, stirred()).ph.value() == Approx(ph).margin(1e-4));
    }
}

TEST_CASE("a pH that the soda cannot have brought", "[unit]") {
    const auto short_of = possible_ph(fifty_grams(), grams(8)), right = possible_ph(fifty_grams(), grams(15)),
               over = possible_ph(fifty_grams(), grams(30));
    CHECK(short_of.high < Ph::of(6.5));
    CHECK(short_of.low < Ph::of(4.0));
    CHECK(right.low < Ph::of(5.0));
    CHECK(right.high > Ph::of(8.0));
    CHECK(over.low > Ph::of(5.0));
    CHECK(over.high > Ph::of(9.5));
    CHECK(possible_ph(fifty_grams(), grams(0)).low < Ph::of(3.3)); // 0.2 mol/L alum has 3.3
}

TEST_CASE("a reading at rest says how many hydroxides", "[unit]") {
    const auto at = hydroxides_at_ph(fifty_grams(), Ph::of(6.5), PhDifference::of(.2));
    REQUIRE(at);
    CHECK(at->mean > 2.6);
    CHECK(at->mean < 2.95);
    CHECK(at->standard_uncertainty > .2); // both solids stay open
    const auto rough = hydroxides_at_ph(fifty_grams(), Ph::of(6.5), PhDifference::of(.8));
    CHECK(rough->standard_uncertainty > at->standard_uncertainty);
    CHECK_THROWS_AS(hydroxides_at_ph(fifty_grams(), Ph::of(6.5), PhDifference::of(0)), DomainError);
    constexpr PhReadTo read_to{.strip = PhDifference::of(.5), .pen = PhDifference::of(.2)};
    CHECK(read_to.by(PhMeans::pen).value() == Approx(.2));
    CHECK(read_to.by(PhMeans::strip).value() == Approx(.5));
}

TEST_CASE("a bath without sulphate lays hydroxide alone", "[unit]") {
    auto chloride = fifty_grams();
    chloride.aluminium = aluminium_chloride();
    const auto alkali = alkali_to_ph(chloride, Ph::of(6.5), LakeSolid::hydroxide, stirred());
    REQUIRE(alkali);
    const auto range = possible_ph(chloride, *alkali);
    CHECK(range.low <= Ph::of(6.5));
    CHECK(range.high >= Ph::of(6.5));
    const auto at = hydroxides_at_ph(chloride, Ph::of(6.5), PhDifference::of(.1));
    REQUIRE(at);
    CHECK(at->mean == Approx(hydroxides_poured(chloride.aluminium, chloride.mass, chloride.alkali, *alkali)).epsilon(.02));
}
