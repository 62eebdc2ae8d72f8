// Where the laws of the bath end: nothing left to filter, no doubt at all, more salt than lake, the last point of a table.

#include <catch2/catch.hpp>

#include <vector>

#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/formula.hpp"
#include "lakebound/bath/salt.hpp"
#include "lakebound/bath/washing.hpp"

using namespace lakebound;

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
