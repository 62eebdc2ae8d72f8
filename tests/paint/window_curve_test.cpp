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
