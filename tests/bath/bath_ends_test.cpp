// Where the laws of the bath end: nothing left to filter, no doubt at all, more salt than lake, the last point of a table.

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "kitchen_bath.hpp"
#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/formula.hpp"
#include "lakebound/bath/salt.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/bath/washing.hpp"
#include "support/told.hpp"
#include "support/weighed_cakes.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

template <class T> Estimate<T> sharp(T value) { return Estimate<T>::exact(value, {}); }

/// A bed of a quarter of the vessel under 500 g of lake, nothing of it in doubt.
WashedLake sharp_lake(double strength) {
    WashedLake lake{};
    lake.water.strength = {kilograms_per_cubic_metre(strength)};
    lake.bed = sharp(litres(.5));
    lake.filled = sharp(litres(2));
    lake.lake = sharp(grams(500));
    lake.stirred_to = sharp(Share::of(0));
    return lake;
}

} // namespace

TEST_CASE("a lake without any doubt is clean at the target itself", "[unit]") {
    // 8 g/L in .5 L of bed under .5 kg: 8 g per kg of lake, .008, and a quarter of it with every wash.
    const double target = 8.0 * (.5e-3 / .5);
    for (const double strength : {8.0, 32.0, 128.0}) {
        CAPTURE(strength);
        const unsigned enough = strength == 8.0 ? 0 : strength == 32.0 ? 1 : 2;
        for (unsigned washes = 0; washes < 5; ++washes)
            CHECK(chance_of_clean(sharp_lake(strength), MassFraction::of(target), washes).value() == (washes >= enough ? 1.0 : 0.0));
        CHECK(chance_of_clean(sharp_lake(strength), MassFraction::of(target * (1 - 1e-9)), enough).value() == 0.0);
    }
}

TEST_CASE("wash water leaves its strength times what the bed holds, at most a whole", "[unit]") {
    // .5 L of bed to .5 kg: a litre per kg.
    for (const double grams_a_litre : {0.0, .3, 20.0, 999.0, 1001.0, 1040.0, 1500.0, 9000.0}) {
        CAPTURE(grams_a_litre);
        const auto out = wash_outlook(sharp_lake(8), MassFraction::of(.01), sharp(kilograms_per_cubic_metre(grams_a_litre)));
        CHECK(out.from_wash_water.value() == Approx(grams_a_litre < 1000 ? grams_a_litre / 1000 : 1.0).epsilon(1e-12));
    }
}

TEST_CASE("nothing left to filter takes no time", "[unit]") {
    const FilterLaw law{seconds(3600) / (litres(1) * litres(1)), seconds(300) / litres(1)};
    for (const double passed : {0.0, .4, 2.0})
        CHECK(time_with_second_filter(law, litres(passed), litres(0)).value() == 0.0);
    CHECK(time_with_second_filter(law, litres(0), litres(1)).value() > 0.0);
}

TEST_CASE("a filter's outlook does not depend on the unit of time", "[identity]") {
    // A clock in doubt by more than the time itself: a draw of a time that is not there must not fall below a share of it.
    const auto outlook = [](double unit) {
        const FilterHabits habits{sharp(Share::of(.02)), sharp(seconds(300 * unit)), sharp(Share::of(.1)), sharp(seconds(120 * unit))};
        const std::vector<FilterReading> readings{
            {seconds(100 * unit), litres(.5)}, {seconds(400 * unit), litres(1)}, {seconds(900 * unit), litres(1.5)}};
        return filter_outlook(readings, litres(2.5), habits);
    };
    const auto once = outlook(1);
    for (const double unit : {1.0 / 1024, 64.0, 4096.0}) {
        CAPTURE(unit);
        const auto other = outlook(unit);
        const auto same = [&](Time a, Time b) { CHECK(a.value() / unit == Approx(b.value()).epsilon(1e-9)); };
        for (const auto band : {&FilterOutlook::finish, &FilterOutlook::finish_with_second}) {
            same((other.*band).middle, (once.*band).middle);
            same((other.*band).low, (once.*band).low);
            same((other.*band).high, (once.*band).high);
        }
        same(other.saved, once.saved);
        CHECK(other.second_pays.value() == once.second_pays.value());
    }
}

TEST_CASE("a solubility is told to the last point and no further", "[unit]") {
    Salt salt{};
    salt.solubility = {{degrees_celsius(0), .1}, {degrees_celsius(20), .3}, {degrees_celsius(50), .9}};
    const auto at = [&](double t) { return solubility_at(salt, degrees_celsius(t)); };
    // Degrees turned into kelvin are good to 6e-14: a billionth beside a point is that point.
    const double hair = 1e-9;
    CHECK(at(-.97 * hair).value() == .1);
    CHECK(at(50 + .97 * hair).value() == .9);
    CHECK_FALSE(at(-1.03 * hair));
    CHECK_FALSE(at(50 + 1.03 * hair));
    CHECK(at(20 + 1e-6).value() == Approx(.3 + .02e-6).epsilon(1e-12));
    CHECK(at(10).value() == Approx(.2).epsilon(1e-12));
    CHECK(at(35).value() == Approx(.6).epsilon(1e-12));
}

TEST_CASE("every atomic weight, and a mole of each atom", "[reference]") {
    // IUPAC, abridged to five figures (from memory of the table that formula.hpp names).
    const double weights[element_count] = {1.0080, 12.011, 14.007, 15.999, 22.990, 26.982, 32.06, 35.45, 39.098, 40.078};
    for (std::size_t i = 0; i < element_count; ++i) {
        CAPTURE(i);
        Atoms one;
        one.count[i] = 1.0;
        CHECK(atomic_weight(static_cast<Element>(i)).value() == Approx(weights[i] * 1e-3).epsilon(1e-12));
        CHECK(molar_mass(one).value() == Approx(weights[i] * 1e-3).epsilon(1e-12));
    }
}

TEST_CASE("two aluminium in a formula share what is poured", "[reference]") {
    // 34.2132 g of Al2(SO4)3 are 0.1 mol: 0.2 mol of aluminium; 31.7964 g of soda are 0.3 mol: 0.6 mol of hydroxide.
    const Salt two = salt_of("Al2(SO4)3", 0, {{Ion::aluminium, 2}, {Ion::sulphate, 3}});
    CHECK(hydroxides_poured(two, grams(34.2132), soda_ash(), grams(31.7964)) == Approx(3.0).epsilon(1e-9));
    const Titration bath{two, grams(34.2132), litres(2), soda_ash(), millilitres_per_gram(0)};
    const auto curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), 3, 4);
    CHECK(curve.back().hydroxides == Approx(3.0).epsilon(1e-9));
    CHECK(in_grams(curve.back().alkali) == Approx(31.7964).epsilon(1e-9));
    const auto to_six = alkali_to_ph(bath, Ph::of(6.0), LakeSolid::hydroxide, stirred());
    REQUIRE(to_six);
    CHECK(hydroxides_poured(two, grams(34.2132), soda_ash(), *to_six) == Approx(3.0).epsilon(0.02)); // all but what carbon dioxide takes
}

TEST_CASE("what chalk leaves widens both ends of a lake in proportion", "[identity]") {
    const auto lake = usual_lake(usual_wash_habits());
    const auto plain = expected_lake(lake);
    const auto laid = expected_chalk_lake(
        chalk_lake(potash_alum(), grams(50), chalk_salt(), grams(25), litres(1.5), kilograms_per_cubic_metre(2.4)), lake);
    const double mass = (laid.mass / plain.mass).value(), density = (laid.density / plain.density).value();
    CHECK(std::abs(mass - 1) > 0.1);
    CHECK(std::abs(density - 1) > 0.05);
    CHECK(laid.mass_kg.low == Approx(mass * plain.mass_kg.low).epsilon(1e-12));
    CHECK(laid.mass_kg.high == Approx(mass * plain.mass_kg.high).epsilon(1e-12));
    CHECK(laid.mass_standard_uncertainty.value() == Approx(mass * plain.mass_standard_uncertainty.value()).epsilon(1e-12));
    CHECK(laid.density_kg_m3.low == Approx(density * plain.density_kg_m3.low).epsilon(1e-12));
    CHECK(laid.density_kg_m3.high == Approx(density * plain.density_kg_m3.high).epsilon(1e-12));
    CHECK(laid.density_standard_uncertainty.value() == Approx(density * plain.density_standard_uncertainty.value()).epsilon(1e-12));
}

TEST_CASE("solutions are made up in a room of 20 degrees", "[unit]") {
    const auto plan = plan_bath(roots_and_alum(), usual_laking(), usual_wash_habits());
    const Strength strength{usual_laking().strength.value().value(), StrengthBasis::by_volume};
    const auto cold = made_up(potash_alum(), plan.aluminium, strength, degrees_celsius(20));
    CHECK(plan.aluminium_solution.volume.value() == Approx(cold.volume.value()).epsilon(1e-13));
    CHECK(plan.aluminium_solution.water.value() == Approx(cold.water.value()).epsilon(1e-13));
}

TEST_CASE("a pen reads a strength, however few the moles that told which salts", "[identity]") {
    auto salts = salts_of_alum_and_soda();
    const auto strength = WeightPerVolume{kilograms_per_cubic_metre(2)};
    const double usual = in_microsiemens_per_centimetre(salts_conductivity(salts, strength, degrees_celsius(25)));
    for (double& count : salts.ions.count)
        count *= 1e-5;
    CHECK(in_microsiemens_per_centimetre(salts_conductivity(salts, strength, degrees_celsius(25))) == Approx(usual).epsilon(1e-12));
}

TEST_CASE("a cake that lost nothing in its first day, and one of half a gram", "[unit]") {
    const Instrument<Mass> fine{grams(.001), grams(.000287)};
    const auto h = usual_wash_habits().drying;
    // Between equal readings the rate does not fall; it falls from the first weighing on, as far as anyone can say.
    CHECK(drying_belief(weighed_daily({50, 50, 40, 34, 30.4}), fine, h).from == 0);
    const auto small = drying_belief(weighed_daily({.386, .249, .179}), fine, h);
    CHECK(in_grams(end_mass_quantile(small, .5)) == Approx(.105).margin(.02));
    CHECK(in_grams(drying_through_three(grams(.386), grams(.249), grams(.179), hours(24)).end) == Approx(.105866).margin(1e-6));
    CHECK(told([&] { (void)drying_belief(weighed_daily({.386, .249, 0}), fine, h); }).rfind("mass of the cake: 0", 0) == 0);
}
