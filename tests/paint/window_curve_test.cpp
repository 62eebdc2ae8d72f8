#include "lakebound/paint/window_curve.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/paint/batch_subject.hpp"
#include "support/worked_paints.hpp"

using namespace worked;

TEST_CASE("the window curve passes through the batch and spans the window", "[identity]") {
    for (const auto& recipe : {watercolour(), oil_paint(), tempera()})
        for (const double k : {0.5, 1.3, 4.0}) {
            auto asked = request(recipe, grams(10));
            asked.aim = BinderSufficiency::of(k);
            const auto batch = batch_of(asked, grams(10));
            const auto doubt = NormalMixture(0.15);
            const auto curve = window_curve(batch, doubt, recipe.family.window, 201);
            REQUIRE(curve.size() >= 200); // a point without any binder is left out
            CHECK(curve.front().k.value() < recipe.family.window.amber_low.value());
            CHECK(curve.back().k.value() > recipe.family.window.amber_high.value());
            CHECK(curve.front().k.value() < k);
            CHECK(curve.back().k.value() > k);
            // A straight line: what it says at the medium of the batch is the k of the batch.
            const auto& a = curve.front();
            const auto& b = curve.back();
            const double slope = (b.k.value() - a.k.value()) / in_grams(b.medium - a.medium);
            CHECK(a.k.value() + slope * in_grams(batch.medium - a.medium) == Approx(k).epsilon(1e-10));
            for (const auto& point : curve) {
                CHECK(point.likely_low.value() == Approx(point.k.value() * std::exp(-0.15)).epsilon(1e-8));
                CHECK(point.likely_high.value() == Approx(point.k.value() * std::exp(0.15)).epsilon(1e-8));
                CHECK(point.chances.in_window.value() ==
                      Approx(window_chances(point.k, doubt, recipe.family.window).in_window.value()));
            }
        }
}

TEST_CASE("the window curve refuses counts without meaning", "[errors]") {
    const auto asked = request(watercolour(), grams(10));
    const auto batch = batch_of(asked, grams(10));
    const auto& window = asked.recipe.family.window;
    CHECK_THROWS_AS(window_curve(batch, NormalMixture(0.1), window, 1), DomainError);
    CHECK_NOTHROW(window_curve(batch, NormalMixture(0.1), window, 2));
    CHECK_NOTHROW(window_curve(batch, NormalMixture(0.1), window, 1000));
    CHECK_THROWS_AS(window_curve(batch, NormalMixture(0.1), window, 1001), DomainError);
    CHECK_THROWS_AS(equal_chances(BinderSufficiency::of(1.4), NormalMixture(0.1), 0), DomainError);
}

TEST_CASE("equal chances lie where a normal variable has its quantiles", "[reference]") {
    // Quantiles of the standard normal distribution at .125 and .375 by the statistics module of Python 3.11 (NormalDist).
    const auto values = equal_chances(BinderSufficiency::of(1.4), NormalMixture(0.2), 4);
    REQUIRE(values.size() == 4);
    CHECK(values[0].value() == Approx(1.4 * std::exp(-0.2 * 1.1503493803760079)).epsilon(1e-8));
    CHECK(values[1].value() == Approx(1.4 * std::exp(-0.2 * 0.3186393639643752)).epsilon(1e-8));
    CHECK(values[0].value() * values[3].value() == Approx(1.4 * 1.4).epsilon(1e-8));
    CHECK(k_below_which(0.125, BinderSufficiency::of(1.4), NormalMixture(0.2)).value() == Approx(values[0].value()));
    CHECK_THROWS_AS(k_below_which(1.0, BinderSufficiency::of(1.4), NormalMixture(0.2)), DomainError);
    // As many of them lie in the window as the chance says.
    const auto window = watercolour().family.window;
    const auto many = equal_chances(BinderSufficiency::of(1.4), NormalMixture(0.2), 1000);
    int inside = 0;
    for (const auto& k : many)
        inside += k.value() > window.green_low.value() && k.value() < window.green_high.value() ? 1 : 0;
    CHECK(inside / 1000.0 == Approx(window_chances(BinderSufficiency::of(1.4), NormalMixture(0.2), window).in_window.value())
                                 .margin(0.002));
}

TEST_CASE("the window curve goes by even steps of medium a tenth beyond its limits, or beyond the paint", "[reference]") {
    // Binder of the medium alone: k is medium over what just fills, so a tenth more k is a tenth more medium.
    for (const double k : {0.3, 1.4, 5.0})
        for (const std::size_t points : {2u, 3u, 11u}) {
            CAPTURE(k, points);
            auto asked = request(watercolour(), grams(10));
            asked.aim = BinderSufficiency::of(k);
            const auto batch = batch_of(asked, grams(10));
            const auto curve = window_curve(batch, NormalMixture(0.15), asked.recipe.family.window, points);
            REQUIRE(curve.size() == points);
            const double from = std::min(k, 1.0) / 1.1, to = std::max(k, 2.4) * 1.1; // amber from 1 to 2.4
            for (std::size_t i = 0; i < points; ++i) {
                const double at = from + (to - from) * static_cast<double>(i) / static_cast<double>(points - 1);
                CHECK(curve[i].k.value() == Approx(at).epsilon(1e-12));
                CHECK(in_grams(curve[i].medium) == Approx(in_grams(batch.medium) * at / k).epsilon(1e-12));
                // One standard deviation of a normal doubt of .15 on either side.
                CHECK(curve[i].likely_low.value() == Approx(at * std::exp(-0.15)).epsilon(1e-8));
                CHECK(curve[i].likely_high.value() == Approx(at * std::exp(0.15)).epsilon(1e-8));
            }
        }
}

TEST_CASE("a window curve of a paint bound by its additives begins at no medium", "[reference]") {
    // Gum of nine tenths of the pigment: k .754 without medium, more than the lower limit over 1.1 of a film at .7.
    auto recipe = watercolour();
    recipe.additives = {{gum(), MassFraction::of(0.9), DoseBasis::pigment}};
    recipe.family.window.amber_low = BinderSufficiency::of(0.7);
    auto asked = request(recipe, grams(10));
    asked.aim = BinderSufficiency::of(1.4);
    const auto batch = batch_of(asked, grams(10));
    const auto curve = window_curve(batch, NormalMixture(0.1), recipe.family.window, 5);
    REQUIRE(curve.size() == 5);
    CHECK(in_grams(curve.front().medium) == Approx(0.0).margin(1e-15));
    CHECK(curve.front().k.value() == Approx(0.9 * 0.88 / 1.42 / (0.6878 / 0.93)).epsilon(1e-12));
    CHECK(curve.back().k.value() == Approx(2.4 * 1.1).epsilon(1e-12));
    // Neither medium nor such additives: the point without any binder is left out, the others stay.
    asked = request(watercolour(), grams(10));
    asked.recipe.family.window.amber_low = BinderSufficiency::of(1e-12);
    const auto bare = window_curve(batch_of(asked, grams(10)), NormalMixture(0.1), asked.recipe.family.window, 4);
    CHECK(bare.size() == 4); // a trace of binder is some
}

TEST_CASE("equal chances are the middles of equal shares", "[reference]") {
    const NormalMixture doubt(0.3, {-0.2, 0.25}, {0.6, 0.4}); // its own law is below(): the share at each must be the middle's
    for (const std::size_t count : {1u, 2u, 7u, 1000u}) {
        const auto values = equal_chances(BinderSufficiency::of(1.4), doubt, count);
        REQUIRE(values.size() == count);
        for (std::size_t i = 0; i < count; ++i)
            CHECK(doubt.below(std::log(values[i].value() / 1.4)).value() ==
                  Approx((static_cast<double>(i) + 0.5) / static_cast<double>(count)).margin(1e-8));
    }
    CHECK_THROWS_AS(equal_chances(BinderSufficiency::of(1.4), doubt, 1001), DomainError);
}
