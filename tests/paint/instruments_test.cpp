#include "lakebound/paint/instruments.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "support/told.hpp"
#include "support/worked_paints.hpp"
#include "support/bench_practice.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }
} // namespace

TEST_CASE("smallest mass a scale weighs to a tolerance", "[reference]") {
    // usp-41: min = 2 max(s, 0.41 d) / tolerance. Its values for home scales, docs/theory.md: a tenth of
    // a gram 4.1 g at 2 %, 1.6 at 5 %, 0.82 at 10 %; a hundredth 0.41, 0.16, 0.08; two digits.
    const Scale tenth = scale(0.1), hundredth = scale(0.01);
    for (const auto& [tolerance, g] : {std::pair{0.02, 4.1}, std::pair{0.05, 1.64}, std::pair{0.10, 0.82}}) {
        CHECK(in_grams(minimum_mass(tenth, Share::of(tolerance))) == near(g, 1e-12));
        CHECK(in_grams(minimum_mass(hundredth, Share::of(tolerance))) == near(g / 10, 1e-12));
    }
    CHECK(in_grams(minimum_mass(hundredth, Share::of(0.0005))) == near(16.4, 1e-12)); // as fine as anyone asks
    Scale shaky = hundredth;
    shaky.repeatability = grams(0.03); // worse than its step promises
    CHECK(in_grams(minimum_mass(shaky, Share::of(0.05))) == near(1.2, 1e-12));
    // 0.41 is the rounding of sqrt(2/12), two readings each rounded to the step (jcgm-100, 4.3.7).
    CHECK(in_grams(standard_uncertainty(tenth)) == Approx(0.1 * std::sqrt(2.0 / 12.0)).epsilon(0.005));
}

TEST_CASE("the coarsest scale that is good enough, else the finest that carries it", "[unit]") {
    const Bench b = two_scales();
    CHECK(best_scale(b, grams(10)) == 0);   // 10 g is above the kitchen scale's 1.64 g
    CHECK(best_scale(b, grams(1.0)) == 1);  // below it
    CHECK(best_scale(b, grams(0.05)) == 1); // below both: the finest
    CHECK(best_scale(b, grams(500)) == 0);
    CHECK(best_scale(b, grams(5000)) == 0); // none carries it: the strongest, in portions
    CHECK(carries(b.scales[1], grams(200)));
    CHECK_FALSE(carries(b.scales[1], grams(201)));
}

TEST_CASE("how well a scale weighs a mass, and the least that a bench weighs", "[unit]") {
    // By hand: 2 x 0.041 g of 1 g is 8.2 %; of 0.05 g more than all.
    CHECK(weighing_error(scale(0.1), grams(1)).value() == near(0.082, 1e-12));
    CHECK(weighing_error(scale(0.1), grams(0.05)).value() == near(1.0, 1e-12));
    CHECK(in_grams(least_weighable(two_scales())) == near(0.164, 1e-12)); // the pocket scale's, at 5 %
    CHECK(in_grams(least_weighable(bench(0.1))) == near(1.64, 1e-12));
}

TEST_CASE("the syringe for a volume", "[unit]") {
    Bench b = bench();
    b.syringes = {{"20 mL", millilitres(20), millilitres(0.2)},
                  {"30 mL", millilitres(30), millilitres(0.2)},
                  {"25 mL", millilitres(25), millilitres(0.2)}};
    const auto syringe = [&](double ml, double most_fills = 3) {
        return syringe_reading(b, millilitres(ml), most_fills);
    };
    CHECK(syringe(21.1)->syringe == 2); // the smallest that takes it at once
    CHECK(syringe(21.1)->fills == 1);
    CHECK(in_millilitres(syringe(21.11)->rounded) == near(21.2, 1e-9));
    CHECK(syringe(42)->syringe == 1); // none does: the largest, twice
    CHECK(syringe(42)->fills == 2);
    CHECK_FALSE(syringe(42, 1));
    // 2 x 0.2 mL / sqrt(12) is 5 % of 2.31 mL: below that no syringe measures it.
    CHECK(syringe(2.32));
    CHECK_FALSE(syringe(2.30));
    b.syringes[0].capacity = Volume();
    CHECK_THROWS_AS(syringe(10), DomainError);
    b.syringes.clear();
    CHECK_FALSE(syringe(10));
}

TEST_CASE("benches that cannot weigh", "[errors]") {
    Bench none = bench();
    none.scales.clear();
    CHECK_THROWS_AS(best_scale(none, grams(1)), DomainError);
    CHECK_THROWS_AS(standard_uncertainty(scale(0.0)), DomainError);
    CHECK_THROWS_AS(minimum_mass(scale(0.1), Share::of(0.0)), DomainError);
}

TEST_CASE("scales and syringes that are none tell which", "[errors]") {
    CHECK(told([] { (void)rounded_to_step(grams(1), scale(0.0)); }) == "step of the scale: 0 kg");
    CHECK(told([] { (void)standard_uncertainty(scale(-1)); }) == "step of the scale: -0.001 kg");
    CHECK(told([] { (void)rounded_to_step(millilitres(1), Syringe{"s", millilitres(5), {}}); }) == "step of the syringe: 0 m3");
    CHECK(told([] { (void)minimum_mass(scale(0.1), Share::of(0.0)); }) == "weighing tolerance: 0");
    Bench b = bench();
    b.scales.clear();
    CHECK(told([&] { (void)best_scale(b, grams(1)); }) == "number of scales on the bench: 0");
    b = bench(0.01);
    b.syringes = {{"s", millilitres(0), millilitres(0.1)}};
    CHECK(told([&] { (void)syringe_reading(b, millilitres(1), 3); }) == "capacity of a syringe: 0 m3");
    b.syringes = {{"s", millilitres(5), millilitres(0)}};
    CHECK(told([&] { (void)syringe_reading(b, millilitres(1), 3); }) == "step of a syringe: 0 m3");
    // A scale that repeats worse than it shows is as good as it repeats.
    Scale shaky = scale(0.1);
    shaky.repeatability = grams(0.2);
    CHECK(in_grams(standard_uncertainty(shaky)) == Approx(0.2));
    shaky.repeatability = grams(0.02);
    CHECK(in_grams(standard_uncertainty(shaky)) == Approx(0.041));
    // Of scales that do not carry a mass the strongest weighs it in parts.
    Bench two = bench();
    two.scales = {scale(0.01), scale(0.1), scale(0.05)};
    two.scales[0].capacity = grams(50), two.scales[1].capacity = grams(200), two.scales[2].capacity = grams(100);
    CHECK(best_scale(two, grams(500)) == 1);
    two.scales[2].capacity.reset(); // carries all
    CHECK(best_scale(two, grams(500)) == 2);
    CHECK(best_scale(two, grams(150)) == 1); // the coarsest that is good enough
    CHECK(best_scale(two, grams(0.001)) == 0); // none is good enough: the finest
}

TEST_CASE("The finest scale is the surest one, the first of equals", "[unit][errors]") {
    auto bench = lakebound::testing::bare_bench();
    CHECK_THROWS_AS(finest_scale(bench), DomainError);
    bench.scales = {{"kitchen", grams(0.1), {}, {}}, {"pocket", grams(0.01), {}, {}}, {"another", grams(0.01), {}, {}}};
    CHECK(finest_scale(bench) == 1);
    bench.scales[1].repeatability = grams(0.5); // its digits say more than it knows
    CHECK(finest_scale(bench) == 2);
}
