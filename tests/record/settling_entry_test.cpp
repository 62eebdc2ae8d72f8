#include "lakebound/record/settling_entry.hpp"

#include <catch2/catch.hpp>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("Timed grains leave their density as they sink, and the water in them", "[reference]") {
    // Stokes by hand, Re 0.03: grains of 49 um fall 100 mm in 150 s in water at 20 degC (998.2 kg/m3, 1.002 mPa s,
    // usual tables, from memory): rho = rho_w + 18 mu v / (g d^2) = 998.2 + 510.8 = 1509; Oseen's correction adds
    // 3/16 Re, 0.6 %, to the difference.
    SettlingRecord record;
    record.grains = TimedGrains{micrometres(49.0), millimetres(100.0), seconds(150.0)};
    const auto seen = settling_entry(record, grams_per_cubic_centimetre(1.88), degrees_celsius(20.0));
    CHECK(in_grams_per_cubic_centimetre(seen.effective) == Approx(1.512).margin(0.002).epsilon(0));
    CHECK(seen.open.value() == Approx((1.88 - 1.512) / (1.88 - 0.998)).margin(0.004).epsilon(0));
    CHECK(in_micrometres(seen.size) == Approx(49.0));

    record.temperature = degrees_celsius(40.0); // thinner water: the same time, a lighter grain
    const auto warm = settling_entry(record, grams_per_cubic_centimetre(1.88), degrees_celsius(20.0));
    CHECK(warm.effective < seen.effective);
    record.temperature.reset(); // the same in a room that is usually so warm
    CHECK(in_grams_per_cubic_centimetre(settling_entry(record, grams_per_cubic_centimetre(1.88), degrees_celsius(40.0)).effective) ==
          Approx(in_grams_per_cubic_centimetre(warm.effective)));
}

TEST_CASE("A settling test of a jar is of timed grains that can be", "[errors]") {
    CHECK_THROWS_AS(settling_entry({}, grams_per_cubic_centimetre(1.88), degrees_celsius(20.0)), DomainError);
    SettlingRecord fast;
    fast.grains = TimedGrains{micrometres(49.0), millimetres(100.0), seconds(20.0)}; // denser than the solid
    CHECK_THROWS_AS(settling_entry(fast, grams_per_cubic_centimetre(1.88), degrees_celsius(20.0)), DomainError);
}
