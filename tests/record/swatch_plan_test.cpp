#include "lakebound/record/swatch_plan.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;

namespace {

Scale scale_of(double step) { return {"scale", grams(step), std::nullopt, std::nullopt}; }
lakebound::Bench bench_of(std::initializer_list<double> steps) {
    auto bench = lakebound::testing::bare_bench();
    for (const double step : steps)
        bench.scales.push_back(scale_of(step));
    return bench;
}
LearningHabits swatch_habits() {
    LearningHabits h;
    h.swatch_powder = grams(0.2);
    h.swatch_steps = 20;
    return h;
}
/// OA 65 by oil of .93: .6989 mL/g; a medium of .25 mL/g.
const SwatchPaint lake_in_gum{millilitres_per_gram(0.65 / 0.93), millilitres_per_gram(0.25), BinderIndex::of(1.0)};

} // namespace

TEST_CASE("a swatch is weighed on the finest scale, in steps enough", "[unit]") {
    CHECK(in_grams(swatch_powder(swatch_habits(), bench_of({0.1, 0.01}))) == Approx(0.2)); // 20 steps of .01 are .2
    CHECK(in_grams(swatch_powder(swatch_habits(), bench_of({0.1}))) == Approx(2.0));       // 20 of .1
    CHECK(in_grams(swatch_powder(swatch_habits(), bench_of({0.001}))) == Approx(0.2));     // not less than the habit
    CHECK(swatch_of(BinderSufficiency::of(1), lake_in_gum, swatch_habits(), bench_of({0.1, 0.01})).scale == 1);
    CHECK(swatch_of(BinderSufficiency::of(1), lake_in_gum, swatch_habits(), bench_of({0.01, 0.1})).scale == 0);
}

TEST_CASE("the k of a swatch is that of what is weighed", "[reference]") {
    // By hand: .2 g x .6989 mL/g x 1.2 = .16774 mL, .67097 g of medium, weighed .67: k 1.19826.
    const auto s = swatch_of(BinderSufficiency::of(1.2), lake_in_gum, swatch_habits(), bench_of({0.01}));
    CHECK(in_grams(s.powder) == Approx(0.20));
    CHECK(in_grams(s.medium) == Approx(0.67));
    CHECK(s.library_k.value() == Approx(0.67 * 0.25 / (0.2 * 0.65 / 0.93)).epsilon(1e-12));
    // A weighing is two readings or one as the scale has it: the same of both, in quadrature.
    const double u = in_grams(Mass(grams(1) * (weighing_spread(scale_of(0.01), grams(1), grams(0)))));
    CHECK(u > 0.0);
    CHECK(s.spread == Approx(std::hypot(u / 0.20, u / 0.67)).epsilon(1e-9));
    CHECK(weighing_spread(scale_of(0.01), grams(2), grams(0.5)) == Approx(std::hypot(u / 2, u / 0.5)).epsilon(1e-9));
    // Yolk reaches half of the voids: twice the binder.
    auto yolk = lake_in_gum;
    yolk.binder_index = BinderIndex::of(0.5);
    const auto t = swatch_of(BinderSufficiency::of(1.2), yolk, swatch_habits(), bench_of({0.01}));
    CHECK(in_grams(t.medium) == Approx(1.34));
    CHECK(t.library_k.value() == Approx(1.34 * 0.25 * 0.5 / (0.2 * 0.65 / 0.93)).epsilon(1e-12));
    // Never less medium than the scale shows.
    CHECK(in_grams(swatch_of(BinderSufficiency::of(0.001), lake_in_gum, swatch_habits(), bench_of({0.01})).medium) ==
          Approx(0.01));
}

TEST_CASE("a swatch that cannot be weighed is refused", "[errors]") {
    CHECK_THROWS_WITH(swatch_of(BinderSufficiency::of(1), lake_in_gum, swatch_habits(), {}), Catch::Contains("scales of the bench"));
    CHECK_THROWS_WITH(swatch_of(BinderSufficiency::of(0), lake_in_gum, swatch_habits(), bench_of({0.01})),
                      Catch::Contains("k of a swatch"));
    auto water = lake_in_gum;
    water.binder_per_medium = {};
    CHECK_THROWS_WITH(swatch_of(BinderSufficiency::of(1), water, swatch_habits(), bench_of({0.01})),
                      Catch::Contains("dry binder of the medium"));
}
