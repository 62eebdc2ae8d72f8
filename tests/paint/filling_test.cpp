#include "lakebound/paint/filling.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/paint/loss.hpp"
#include "lakebound/paint/verdict.hpp"
#include "support/worked_paints.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace worked;

namespace {
const SlabLoss home{grams(0.6), Share::of(0.03)};
} // namespace

TEST_CASE("what stays on the slab", "[reference]") {
    // docs/theory.md (estimate): of 2, 5, 10, 20, 50 g the slab keeps 33, 15, 9, 6, 4 %.
    for (const auto& [batch, share] : {std::pair{2.0, .33}, std::pair{5.0, .15}, std::pair{10.0, .09},
                                       std::pair{20.0, .06}, std::pair{50.0, .042}})
        CHECK(in_grams(pigment_lost(grams(batch), home)) / batch == Approx(share).margin(0.0005));
    // Half pans of 0.93 g net from jars of 5, 10, 24, 60, 100 g.
    for (const auto& [jar, pans] : {std::pair{5.0, 4}, std::pair{10.0, 9}, std::pair{24.0, 24},
                                    std::pair{60.0, 61}, std::pair{100.0, 103}})
        CHECK(static_cast<int>(in_grams(pigment_kept(grams(jar), home)) / 0.93) == pans);
}

TEST_CASE("pours of the worked batch", "[reference]") {
    // docs/theory.md: r 0.394, filled to 90 %: 4.6 -> 5 brim pours, 6.8 -> 7 of a third.
    const Pours p = pours(Share::of(0.9), VolumeFraction::of(0.394));
    CHECK(p.brim_exact == Approx(4.6).margin(0.05));
    CHECK(p.brim == 5);
    CHECK(p.thirds_exact == Approx(6.8).margin(0.06)); // 6.85, printed as 6.8
    CHECK(p.thirds == 7);
    CHECK_FALSE(pours(Share::of(1.0), VolumeFraction::of(0.4)).brim);
}

TEST_CASE("brim pours simulated one by one", "[identity]") {
    for (double r = 0.1; r < 0.95; r += 0.1)
        for (double f = 0.1; f < 0.99; f += 0.1) {
            const Pours p = pours(Share::of(f), VolumeFraction::of(r));
            double filled = 0.0;
            int n = 0;
            while (filled < f * (1 - 1e-9)) {
                filled += (1.0 - filled) * r;
                ++n;
            }
            CHECK(p.brim == n);
        }
}

TEST_CASE("pans of the worked batch", "[reference]") {
    // docs/theory.md: 10 g at Lambda 0.75, half pans of 2 mL filled to 90 %, a flat 7 % lost: 10.1 -> 10
    // pans at 50 % RH, of 0.93 g pigment: the net 9.3 g over the ten pans, 0.917 in a full one.
    const Recipe r = watercolour();
    const Composition c = compose(r, formulate(r, ReducedPigmentVolumeConcentration::of(0.75)), grams(10));
    const PaintVolumes v = paint_volumes(r, c, RelativeHumidity::of(0.5));
    const Mass kept = pigment_kept(grams(10), {Mass(), Share::of(0.07)});
    const Filling f = fill_vessels(half_pan(), v, {.weighed = grams(10), .kept = kept});
    CHECK(f.vessels_exact == Approx(10.1).margin(0.06));
    CHECK(f.vessels == 10);
    CHECK(in_grams(kept) / f.vessels == Approx(0.93).margin(0.005));
    CHECK(f.pours->brim == 5);
    CHECK(f.pours->thirds == 7);
    CHECK(in_millilitres(f.headspace) == Approx(0.2).margin(1e-9));
}

TEST_CASE("an oil tube", "[reference]") {
    // docs/theory.md: the worked oil paint (15.50 mL of 10 g) with 10 % loss is 0.93 of a 15 mL tube; a
    // full one needs 10.75 g of pigment.
    const Recipe r = oil_paint();
    const double k = 1.35 * (1.0 + 0.02 * 0.93 / 0.96);
    const PaintVolumes v = paint_volumes(r, compose(r, formulate(r, BinderSufficiency::of(k)), grams(10)));
    const SlabLoss tenth{Mass(), Share::of(0.10)};
    const Filling f = fill_vessels(tube_15(), v, {.weighed = grams(10), .kept = pigment_kept(grams(10), tenth)});
    CHECK(f.vessels_exact == Approx(0.93).margin(0.001));
    CHECK(f.vessels == 0);
    CHECK_FALSE(f.pours);
    CHECK(in_grams(pigment_to_keep(f.pigment_per_vessel, tenth)) == Approx(10.75).margin(0.006));
}

TEST_CASE("weighing for the loss gives back what is kept", "[identity]") {
    for (double kept = 0.01; kept < 500; kept *= 3)
        CHECK(in_grams(pigment_kept(pigment_to_keep(grams(kept), home), home)) == Approx(kept).epsilon(1e-12));
    CHECK(in_grams(pigment_kept(grams(0.5), home)) == Approx(0.0).margin(1e-15)); // the slab takes it all
}

TEST_CASE("verdict against the window", "[unit]") {
    const SufficiencyWindow w = watercolour().family.window; // 1.0, 1.2, 1.8, 2.4
    for (const auto& [k, expected] :
         {std::pair{0.99, Verdict::fails_under}, std::pair{1.0, Verdict::amber_under},
          std::pair{1.19, Verdict::amber_under}, std::pair{1.2 - 1e-12, Verdict::green},
          std::pair{1.8 + 1e-12, Verdict::green}, std::pair{1.9, Verdict::amber_over},
          std::pair{2.4, Verdict::amber_over}, std::pair{2.41, Verdict::fails_over}})
        CHECK(verdict(BinderSufficiency::of(k), w) == expected);
    SufficiencyWindow bad = w;
    bad.green_low = BinderSufficiency::of(2.0);
    CHECK_THROWS_AS(verdict(BinderSufficiency::of(1), bad), DomainError);
}

TEST_CASE("a window that nobody set judges nothing", "[errors]") {
    // It said of every k that the film holds too much binder.
    CHECK_THROWS_AS(verdict(BinderSufficiency::of(1.4), SufficiencyWindow{}), DomainError);
    CHECK_THROWS_AS(verdict(BinderSufficiency::of(1.4), Family{}.window), DomainError);
    CHECK(Family{}.binder_index.value().value() == Approx(1.0).epsilon(1e-14));
}

TEST_CASE("vessels and pours that cannot be", "[errors]") {
    CHECK_THROWS_AS(pours(Share::of(0.0), VolumeFraction::of(0.4)), DomainError);
    CHECK_THROWS_AS(pours(Share::of(0.9), VolumeFraction::of(1.0)), DomainError);
    // Thousands of millions of pours: tinted water, not paint, and beyond what an int holds.
    CHECK_THROWS_AS(pours(Share::of(0.9), VolumeFraction::of(1e-12)), DomainError);
    const Recipe r = oil_paint();
    const PaintVolumes v = paint_volumes(r, compose(r, formulate(r, aim_of(r)), grams(10)));
    Vessel none = tube_15();
    none.capacity = exactly(Volume());
    CHECK_THROWS_AS(pigment_per_vessel(none, v, grams(10)), DomainError);
    CHECK_THROWS_AS(pigment_to_keep(grams(1), {Mass(), Share::of(1.0)}), DomainError);
    CHECK_THROWS_AS(pigment_lost(grams(-1), home), DomainError);
    CHECK_THROWS_AS(pigment_lost(grams(10), {grams(-1), Share()}), DomainError);
    CHECK_THROWS_AS(pigment_to_keep(grams(10), {grams(-1), Share()}), DomainError);
    CHECK_THROWS_AS(fill_vessels(tube_15(), v, {.weighed = grams(10), .kept = grams(-1)}), DomainError);
}

TEST_CASE("a refused filling tells its figure", "[errors]") {
    CHECK(told([] { pours(Share::of(0.0), VolumeFraction::of(0.4)); }) == "fill of the vessel: 0");
    CHECK(told([] { pours(Share::of(0.9), VolumeFraction::of(1.0)); }) == "dry volume over wet volume: 1");
    CHECK(told([] { pours(Share::of(0.9), VolumeFraction::of(0.0)); }) == "dry volume over wet volume: 0");
    CHECK(pours(Share::of(0.9), VolumeFraction::of(9e-4)).thirds == 3000); // thin, but a paint
    CHECK_FALSE(pours(Share::of(1.0), VolumeFraction::of(0.4)).brim.has_value()); // never quite full, poured to the brim
    CHECK(told([] { pigment_to_keep(grams(-1), home); }) == "pigment to keep: -0.001 kg");
    CHECK(in_grams(pigment_to_keep(grams(0), home)) == Approx(0.0).margin(1e-300));
    CHECK(in_grams(pigment_to_keep(grams(0.5), {grams(0), Share::of(0.0)})) == Approx(0.5));
    CHECK(told([] { pigment_lost(grams(10), {grams(-1), Share()}); }).rfind("pigment that always stays on the slab", 0) == 0);
    CHECK(told([] { pigment_to_keep(grams(1), {Mass(), Share::of(1.0)}); }) == "share lost on the slab: 1");
    CHECK(in_grams(pigment_lost(grams(0.4), {grams(0.6), Share::of(0.03)})) == Approx(0.4)); // no more than there is
    CHECK(told([] { pigment_per_vessel(tube_15(), PaintVolumes{}, grams(10)); }) == "volume of the paint: 0 m3");
    const auto window = [](double a, double b, double c, double d) {
        const auto k = [](double x) { return BinderSufficiency::of(x); };
        return told([&] { verdict(k(1.4), SufficiencyWindow{k(a), k(b), k(c), k(d)}); });
    };
    CHECK(window(1.3, 1.2, 1.8, 2.4) == "window of k: out of order");
    CHECK(window(1.0, 1.9, 1.8, 2.4) == "window of k: out of order");
    CHECK(window(1.0, 1.2, 2.5, 2.4) == "window of k: out of order");
    CHECK(window(1.2, 1.2, 1.2, 1.2) == "taken");
    CHECK(window(5e-4, 1.2, 1.8, 2.4) == "taken");
}

TEST_CASE("a vessel that takes all of its capacity is filled up", "[unit]") {
    Vessel vessel;
    CHECK_FALSE(vessel.is_filled_up()); // nine tenths, where nothing is said
    vessel.fill = Share::of(1.0);
    CHECK(vessel.is_filled_up());
    vessel.fill = Share::of(0.999);
    CHECK_FALSE(vessel.is_filled_up());
}

TEST_CASE("what is less than a drop is not told", "[unit]") {
    Filling filling;
    filling.wet_left_over = millilitres(.0499);
    CHECK_FALSE(filling.leaves_some());
    filling.wet_left_over = drop_of_water;
    CHECK(filling.leaves_some());
    PaintVolumes volumes;
    volumes.held_water = millilitres(.0499);
    CHECK_FALSE(volumes.holds_water());
    volumes.held_water = drop_of_water;
    CHECK(volumes.holds_water());
    volumes.shrinkage = seen_shrinkage;
    CHECK_FALSE(volumes.shrinks());
    volumes.shrinkage = Share::of(.0051);
    CHECK(volumes.shrinks());
}
