#include "lakebound/record/sieve_entry.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

namespace {

/// 10 g on 150, 75 and 45 um; kept 1, 5 and 2 g, 1.5 g in the pan.
SieveRecord ten_grams() {
    SieveRecord r;
    r.test.screens = {{micrometres(150), grams(1.0)}, {micrometres(75), grams(5.0)}, {micrometres(45), grams(2.0)}};
    r.test.pan = grams(1.5);
    r.test.charge = grams(10.0);
    r.test.scale_step = grams(0.01);
    return r;
}

} // namespace

TEST_CASE("A sieve test leaves a median size between two screens, and what was lost", "[unit]") {
    const auto seen = sieve_entry(ten_grams());
    // By hand: 89.47 % pass 150 um, 36.84 % pass 75 um; half lies at 75 x 2^((50 - 36.84)/(89.47 - 36.84)) = 89.2 um.
    const double at = 75.0 * std::pow(2.0, (0.5 - 3.5 / 9.5) / (8.5 / 9.5 - 3.5 / 9.5));
    REQUIRE(seen.median_size);
    CHECK(in_micrometres(seen.median_size->value()) == Approx(at).epsilon(1e-9));
    // "Somewhere between 75 and 150": an even chance has the sd ln 2 / sqrt 12.
    CHECK(seen.median_size->distribution().scale == Approx(std::log(2.0) / std::sqrt(12.0)).epsilon(1e-9));
    CHECK(in_grams(seen.used) == Approx(0.5));
    CHECK(in_grams(seen.charge) == Approx(10.0));
    // Five readings of .01 g: sqrt(5) x .01 / sqrt(6).
    CHECK(in_grams(seen.uncertainty) == Approx(std::sqrt(5.0) * 0.01 / std::sqrt(6.0)).epsilon(1e-6));
    CHECK(in_micrometres(seen.finest) == Approx(45));
    CHECK(seen.kept.value() == Approx(8.0 / 9.5));
}

TEST_CASE("No median where half is finer than every screen, or coarser", "[unit]") {
    auto fine = ten_grams();
    fine.test.screens[1].retained = grams(0.5), fine.test.pan = grams(6.0);
    CHECK_FALSE(sieve_entry(fine).median_size);
    CHECK(sieve_entry(fine).kept.value() == Approx(3.5 / 9.5));
    auto coarse = ten_grams();
    coarse.test.screens[0].retained = grams(6.0), coarse.test.screens[1].retained = grams(0.5);
    CHECK_FALSE(sieve_entry(coarse).median_size);
}

TEST_CASE("A wet test uses up its charge; without a charge nothing is known to be lost; a gain is no loss", "[unit]") {
    auto wet = ten_grams();
    wet.method = SieveMethod::wet;
    CHECK(in_grams(sieve_entry(wet).used) == Approx(10.0));
    auto bare = ten_grams();
    bare.test.charge.reset();
    CHECK(sieve_entry(bare).used.value() == 0.0);
    auto gain = ten_grams();
    gain.test.charge = grams(9.49);
    CHECK(sieve_entry(gain).used.value() == 0.0);
    gain.test.charge = grams(5.0);
    CHECK_THROWS_AS(sieve_entry(gain), DomainError);
}

TEST_CASE("Half lies between the screens that enclose it, not between two that let more than half through", "[unit]") {
    auto r = ten_grams(); // of 10 g 70 % pass 150 um, 60 % 75 um, 40 % 45 um
    r.test.screens[0].retained = grams(3.0), r.test.screens[1].retained = grams(1.0), r.test.screens[2].retained = grams(2.0);
    r.test.pan = grams(4.0);
    CHECK(in_micrometres(sieve_entry(r).median_size->value()) == Approx(std::sqrt(75.0 * 45.0)).epsilon(1e-9));
}
