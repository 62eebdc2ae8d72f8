#include "lakebound/quantity/difference.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <type_traits>

using namespace lakebound;

TEST_CASE("a difference is of its quantity's own kind", "[unit]") {
    static_assert(std::is_same_v<Difference<Mass>, Mass>);
    static_assert(std::is_same_v<Difference<Temperature>, TemperatureDifference>);
    static_assert(std::is_same_v<Difference<MassFraction>, MassFraction::Difference>);
    static_assert(!std::is_same_v<Difference<MassFraction>, Difference<VolumeFraction>>);
    static_assert(!std::is_convertible_v<double, Difference<Share>>);
    static_assert(!std::is_convertible_v<Share, Difference<Share>>);
    CHECK(canonical(Difference<Share>()) == Approx(0.0).margin(1e-300));
    for (const double x : {-2.5, 0.0, 0.07}) // a difference may leave the range of the ratio itself
        CHECK(canonical(from_canonical<Difference<BinderIndex>>(x)) == Approx(x).epsilon(1e-15).margin(1e-300));
    CHECK(Share::Difference::of(0.1) < Share::Difference::of(0.2));
    CHECK(canonical(from_canonical<Difference<Temperature>>(1.5)) == Approx(1.5).epsilon(1e-15));
}

TEST_CASE("a pH moves along its scale, and not past an end", "[unit]") {
    CHECK(moved(Ph::of(6.5), PhDifference::of(.4)).value() == Approx(6.9));
    CHECK(moved(Ph::of(6.5), PhDifference::of(-.4)).value() == Approx(6.1));
    CHECK(moved(Ph::of(13.8), PhDifference::of(.4)) == Ph::of(14.0));
    CHECK(moved(Ph::of(.3), PhDifference::of(-.4)) == Ph::of(0.0));
    static_assert(std::is_same_v<PhDifference, Ph::Difference>);
}

TEST_CASE("a difference of ratios is finite", "[errors]") {
    const double endless = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(Share::Difference::of(endless), DomainError);
    CHECK_THROWS_AS(Share::Difference::of(-endless), DomainError);
    CHECK_THROWS_AS(Share::Difference::of(std::nan("")), DomainError);
}
