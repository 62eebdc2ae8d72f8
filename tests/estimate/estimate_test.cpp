#include "lakebound/estimate/estimate.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <type_traits>

using namespace lakebound;

namespace {
const Provenance weighed{Origin::measured, "", false};
} // namespace

TEST_CASE("an estimate keeps value, spread and provenance", "[unit]") {
    const auto m = Estimate<Mass>::normal(grams(12.5), grams(0.1), weighed);
    CHECK(in_grams(m.value()) == Approx(12.5).epsilon(1e-14).margin(1e-12));
    CHECK(m.relative_uncertainty() == Approx(0.008).epsilon(1e-12).margin(1e-15));
    CHECK(m.provenance().origin == Origin::measured);
    const auto oa = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.35, weighed);
    CHECK(oa.relative_uncertainty() == Approx(std::log(1.35)).epsilon(1e-14).margin(1e-15));
    CHECK(Estimate<Mass>::normal(grams(1), grams(0), weighed).distribution().shape == Shape::exact);
}

TEST_CASE("an uncertainty is a difference of its value's own kind", "[unit]") {
    // 0.20 beside 1.88 g/cm3 once was 0.20 kg/m3.
    const auto rho = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88),
                                                   grams_per_cubic_centimetre(0.20), weighed);
    CHECK(in_grams_per_cubic_centimetre(rho.standard_uncertainty()) == Approx(0.20).epsilon(1e-14));
    CHECK(rho.relative_uncertainty() == Approx(0.20 / 1.88).epsilon(1e-14));
    const auto water = Estimate<MassFraction>::rectangular(MassFraction::of(0.12),
                                                           MassFraction::Difference::of(0.03), weighed);
    CHECK(water.standard_uncertainty().value() == Approx(0.03 / std::sqrt(3.0)).epsilon(1e-14));
    const auto room = Estimate<Temperature>::normal(degrees_celsius(20), TemperatureDifference::from_value(2.0), weighed);
    CHECK(room.standard_uncertainty().value() == Approx(2.0).epsilon(1e-14));
}

TEST_CASE("what excludes zero has no estimate that nobody made", "[unit]") {
    static_assert(!std::is_default_constructible_v<BinderIndex>);
    static_assert(!std::is_default_constructible_v<Estimate<BinderIndex>>);
    static_assert(!std::is_default_constructible_v<OilAbsorption>);
    static_assert(!std::is_default_constructible_v<Estimate<OilAbsorption>>);
    static_assert(std::is_default_constructible_v<Estimate<Share>>);
    CHECK(Estimate<Share>().value().value() == Approx(0.0).margin(1e-15));
    CHECK(Estimate<Mass>().relative_uncertainty() == Approx(0.0).margin(1e-15));
}

TEST_CASE("an estimate is made of finite numbers, and a factor belongs to a positive median", "[errors]") {
    const double nothing = std::nan(""), endless = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(Estimate<Mass>::exact(kilograms(nothing), weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(kilograms(endless), grams(100), weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(grams(1), grams(-0.1), weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(grams(1), grams(nothing), weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::rectangular(grams(1), grams(endless), weighed), DomainError);
    // These had a standard uncertainty below zero, and of zero.
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(-1), 1.3, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(0), 1.3, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(1), 0.9, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(1), endless, weighed), DomainError);
}

TEST_CASE("the scale of a lognormal is that of its median and standard uncertainty", "[identity]") {
    // Variance of a lognormal of median m: m^2 w (w - 1), w = exp(s^2); any text on it, here backwards.
    for (const double s : {1e-6, 0.05, 0.3, 1.0})
        for (const double median : {0.02, 65.0}) {
            const double w = std::exp(s * s), u = median * std::sqrt(w * std::expm1(s * s));
            CHECK(lognormal_scale(median, u) == Approx(s).epsilon(1e-9));
        }
    CHECK(lognormal_scale(3.0, 0.0) == Approx(0.0).margin(1e-300));
}
