#include "lakebound/particle/packing.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
PackingClass grain(double beta, double um, double share) {
    return {VolumeFraction::of(beta), micrometres(um), VolumeFraction::of(share)};
}
double blend(double chalk_um, double chalk_share) {
    const PackingClass classes[] = {grain(.41834, 3, 1 - chalk_share), grain(.65675, chalk_um, chalk_share)};
    return linear_packing_fraction(classes).packing.value();
}
} // namespace

TEST_CASE("Furnas limit", "[reference]") {
    // Derived from furnas-1931, f + f(1-f) and 1/(2-f), four figures: .625 -> .8594 at 72.7 %, .64 -> .8704
    // at 73.5 %. mcgeary-1961 measured about .86 for a single-size packing of .625 (value from memory).
    const auto a = furnas_binary_limit(VolumeFraction::of(.625));
    CHECK(a.packing.value() == Approx(.8594).margin(5e-5));
    CHECK(a.packing.value() == Approx(.86).margin(.005));
    CHECK(a.coarse_share.value() == Approx(.727).margin(5e-4));
    const auto b = furnas_binary_limit(VolumeFraction::of(.64));
    CHECK(b.packing.value() == Approx(.8704).margin(5e-5));
    CHECK(b.coarse_share.value() == Approx(.735).margin(5e-4));
}

TEST_CASE("random close packing of one size lies in the published range", "[reference]") {
    // elliott-2002: 0.60 to 0.64; the formula of desmond-weeks-2014 is a value from memory.
    const double phi = random_close_packing(0, 0).value();
    CHECK(phi >= random_close_packing_low);
    CHECK(phi <= random_close_packing_high);
    CHECK(random_close_packing(.2, 0).value() > phi); // abstract: spread raises it
    CHECK(random_close_packing(.2, 1).value() > random_close_packing(.2, 0).value());
    CHECK(densest_packing == Approx(std::acos(-1.0) / (3 * std::sqrt(2.0))).epsilon(1e-15));
}

TEST_CASE("lake and chalk by size", "[reference]") {
    // Domain brief B.2, worked 70/30 (own computation, printed to three or four figures).
    CHECK(blend(3, .3) == Approx(.4695).margin(6e-5));
    CHECK(blend(6, .3) == Approx(.482).margin(6e-4));
    CHECK(blend(15, .3) == Approx(.4956).margin(6e-5));
    CHECK(blend(30, .3) == Approx(.501).margin(6e-4));
    CHECK(blend(60, .3) == Approx(.504).margin(6e-4));
    CHECK(blend(3e9, .3) == Approx(.507).margin(6e-4)); // the Furnas limit of that blend
    // Scan at 15 um, additive / model.
    const double share[] = {.1, .2, .3, .5, .7}, add[] = {.434, .451, .469, .511, .561},
                 model[] = {.441, .467, .496, .565, .657};
    for (int i = 0; i < 5; ++i) {
        CHECK(blend(15, share[i]) == Approx(model[i]).margin(6e-4));
        CHECK(blend(3, share[i]) == Approx(add[i]).margin(6e-4));
    }
    CHECK(blend(15, .8) == Approx(.697).margin(1.5e-3)); // "peak near .8 (.697)"
    CHECK(blend(15, .8) > blend(15, .7));
    CHECK(blend(15, .8) > blend(15, .9));
}

TEST_CASE("equal sizes are exactly the additive rule, an infinite ratio is Furnas", "[identity]") {
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> u(0.05, 0.95);
    for (int trial = 0; trial < 300; ++trial) {
        const double a = u(random), b = u(random), c = u(random), y = u(random), z = u(random) * (1 - y);
        const PackingClass same[] = {grain(a, 7, y), grain(b, 7, z), grain(c, 7, 1 - y - z)};
        const auto equal = linear_packing_fraction(same);
        CHECK(equal.packing.value() == Approx(equal.additive.value()).epsilon(1e-13));
        const PackingClass far[] = {grain(a, 1e12, y), grain(b, 1, 1 - y)};
        // Coarse skeleton with fines in its gaps, or coarse grains swimming in fines: the looser of the two.
        const double limit = std::min(a / y, b / (1 - (1 - b) * y));
        CHECK(linear_packing_fraction(far).packing.value() == Approx(limit).epsilon(1e-5));
    }
    const double f = .62, share = furnas_binary_limit(VolumeFraction::of(f)).coarse_share.value();
    const PackingClass best[] = {grain(f, 1e12, share), grain(f, 1, 1 - share)};
    CHECK(linear_packing_fraction(best).packing.value() ==
          Approx(furnas_binary_limit(VolumeFraction::of(f)).packing.value()).epsilon(1e-5));
}

TEST_CASE("never below the additive rule, and wider sizes never pack worse", "[identity]") {
    std::mt19937_64 random(6);
    std::uniform_real_distribution<double> u(0.1, 0.9), decade(-0.5, 2.5);
    for (int trial = 0; trial < 2000; ++trial) {
        std::vector<PackingClass> classes;
        double share[4], sum = 0;
        for (double& s : share)
            sum += s = u(random);
        for (double s : share)
            classes.push_back(grain(u(random), std::pow(10, decade(random)), s / sum));
        const auto p = linear_packing_fraction(classes);
        CHECK(p.packing.value() >= p.additive.value());
        CHECK(p.packing.value() < 1.0);
        CHECK(p.additive.value() == Approx(additive_packing_fraction(classes).value()).epsilon(1e-14));
        // The order of the classes does not matter.
        std::vector<PackingClass> turned(classes.rbegin(), classes.rend());
        CHECK(linear_packing_fraction(turned).packing.value() == Approx(p.packing.value()).epsilon(1e-12));
    }
    double last = 0.0;
    for (double um = 3; um < 3000; um *= 1.3) {
        CHECK(blend(um, .3) >= last);
        last = blend(um, .3);
    }
}

TEST_CASE("how far the packing model may be trusted", "[unit]") {
    const PackingClass fine[] = {grain(.4, .3, .5), grain(.6, 10, .5)};
    CHECK(linear_packing_fraction(fine).validity == PackingValidity::colloidal);
    const PackingClass near[] = {grain(.4, 8, .5), grain(.6, 10, .5)};
    CHECK(linear_packing_fraction(near).validity == PackingValidity::near_equal);
    const PackingClass good[] = {grain(.4, 3, .5), grain(.6, 10, .5)};
    CHECK(linear_packing_fraction(good).validity == PackingValidity::holds);
    // One class alone packs as it packs, and an absent class changes nothing.
    const PackingClass one[] = {grain(.4, 3, 1), grain(.6, 10, 0)};
    CHECK(linear_packing_fraction(one).packing.value() == Approx(.4).epsilon(1e-14));
}

TEST_CASE("impossible blends are refused", "[errors]") {
    CHECK_THROWS_AS(linear_packing_fraction({}), DomainError);
    const PackingClass shares[] = {grain(.4, 3, .5), grain(.6, 10, .4)};
    CHECK_THROWS_AS(linear_packing_fraction(shares), DomainError);
    const PackingClass size[] = {grain(.4, 0, 1)};
    CHECK_THROWS_AS(linear_packing_fraction(size), DomainError);
    const PackingClass beta[] = {grain(1, 3, 1)};
    CHECK_THROWS_AS(linear_packing_fraction(beta), DomainError);
    const PackingClass none[] = {grain(0, 3, 1)};
    CHECK_THROWS_AS(linear_packing_fraction(none), DomainError);
    const PackingClass hardly[] = {grain(0.0005, 3, 1)};
    CHECK(linear_packing_fraction(hardly).packing.value() == Approx(0.0005).epsilon(1e-12));
    CHECK_THROWS_AS(furnas_binary_limit(VolumeFraction::of(0)), DomainError);
    CHECK_THROWS_AS(random_close_packing(.9, 0), DomainError);
    CHECK_THROWS_AS(furnas_binary_limit(VolumeFraction::of(1)), DomainError);
    CHECK_THROWS_AS(random_close_packing(-.001, 0), DomainError);
    CHECK_THROWS_AS(random_close_packing(.5001, 0), DomainError);
    CHECK_THROWS_AS(random_close_packing(.1, -1.001), DomainError);
    CHECK_THROWS_AS(random_close_packing(.1, 2.001), DomainError);
    for (const double delta : {0.0, .5})
        for (const double skewness : {-1.0, 2.0})
            CHECK_NOTHROW(random_close_packing(delta, skewness));
}

TEST_CASE("a refused packing tells its figure, and its limits are inside", "[errors]") {
    CHECK(told([] { random_close_packing(-0.1, 0); }) == "relative spread of diameter: -0.1");
    CHECK(told([] { random_close_packing(0.51, 0); }) == "relative spread of diameter: 0.51");
    CHECK(told([] { random_close_packing(0.1, -1.1); }) == "skewness of diameter: -1.1");
    CHECK(told([] { random_close_packing(0.1, 2.1); }) == "skewness of diameter: 2.1");
    // The formula at its corners, by hand: .634 + .0658 d + .0857 s d^2.
    CHECK(random_close_packing(0.5, 2).value() == Approx(0.634 + 0.0329 + 0.0857 * 2 * 0.25).epsilon(1e-12));
    CHECK(random_close_packing(0.5, -1).value() == Approx(0.634 + 0.0329 - 0.0857 * 0.25).epsilon(1e-12));
    CHECK(random_close_packing(0, 0).value() == Approx(0.634).epsilon(1e-12));
    const PackingClass size[] = {grain(.4, -3, 1)};
    CHECK(told([&] { linear_packing_fraction(size); }) == "diameter of a class: -3 um");
    const PackingClass shares[] = {grain(.4, 3, .5), grain(.6, 10, .4)};
    CHECK(told([&] { linear_packing_fraction(shares); }) == "sum of the volume shares: 0.9");
    const PackingClass alone[] = {grain(.4, 3, 1)};
    CHECK(linear_packing_fraction(alone).packing.value() == Approx(.4));
}
