#include "lakebound/paint/pour_levels.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "support/worked_paints.hpp"

using namespace worked;

TEST_CASE("pours of the worked batch, level by level", "[reference]") {
    // docs/theory.md: r 0.394 to 90 % takes 4.6 brim pours; after n of them 1 - (1 - r)^n is dry:
    // 39.4, 63.3, 77.7, 86.5 %, and the fifth stops at 90 %.
    Filling filling;
    filling.vessel = half_pan();
    filling.paint_per_vessel = filling.vessel.capacity.value() * 0.9;
    filling.wet_per_vessel = filling.paint_per_vessel / 0.394;
    filling.pours = pours(Share::of(0.9), VolumeFraction::of(0.394));
    filling.vessel.fill = Share::of(0.9);
    const auto levels = pour_levels(filling);
    REQUIRE(levels.size() == 5);
    const double dry[] = {0.394, 0.632764, 0.777455, 0.865138, 0.9};
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(levels[i].dry_level.value() == Approx(dry[i]).margin(1e-6));
    CHECK(levels[3].wet_level.value() == Approx(1.0));
    CHECK(levels[4].wet_level.value() == Approx(0.865138 + (0.9 - 0.865138) / 0.394).margin(1e-6));
}

TEST_CASE("pours add up to the wet paint of one vessel, the last dries to the fill", "[identity]") {
    for (double r = 0.1; r < 0.95; r += 0.1)
        for (double f = 0.1; f < 0.99; f += 0.1) {
            Filling filling;
            filling.vessel = half_pan();
            filling.vessel.fill = Share::of(f);
            filling.paint_per_vessel = filling.vessel.capacity.value() * f;
            filling.wet_per_vessel = filling.paint_per_vessel / r;
            filling.pours = pours(Share::of(f), VolumeFraction::of(r));
            Volume all;
            double last = 0.0;
            for (const auto& level : pour_levels(filling)) {
                all += level.poured;
                CHECK(level.wet_level.value() <= 1.0);
                CHECK(level.dry_level.value() >= last);
                last = level.dry_level.value();
            }
            CHECK(last == Approx(f).epsilon(1e-9));
            CHECK(in_millilitres(all) == Approx(in_millilitres(filling.wet_per_vessel)).epsilon(1e-9));
            filling.pours->brim.reset();
            CHECK(pour_levels(filling).empty());
        }
}

TEST_CASE("a filling that is not poured, or never to the brim, has no levels", "[unit]") {
    Filling filling;
    filling.vessel = half_pan();
    CHECK(pour_levels(filling).empty());
    filling.paint_per_vessel = filling.vessel.capacity.value() * 0.9;
    filling.wet_per_vessel = filling.paint_per_vessel / 0.394;
    filling.pours = pours(Share::of(0.9), VolumeFraction::of(0.394));
    CHECK_FALSE(pour_levels(filling).empty());
    filling.pours->brim.reset();
    CHECK(pour_levels(filling).empty());
}
