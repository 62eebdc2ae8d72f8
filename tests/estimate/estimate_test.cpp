#include "lakebound/estimate/estimate.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace lakebound;

namespace {
const Provenance weighed{Origin::measured, "", false};
} // namespace

TEST_CASE("an estimate keeps value, spread and provenance", "[unit]") {
    const auto m = Estimate<Mass>::normal(grams(12.5), 1e-4, weighed);
    CHECK(in_grams(m.value()) == Approx(12.5).epsilon(1e-14).margin(1e-12));
    CHECK(m.relative_uncertainty() == Approx(0.008).epsilon(1e-12).margin(1e-15));
    CHECK(m.provenance().origin == Origin::measured);
    const auto oa = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.35, weighed);
    CHECK(oa.relative_uncertainty() == Approx(std::log(1.35)).epsilon(1e-14).margin(1e-15));
    CHECK(Estimate<Mass>::normal(grams(1), 0.0, weighed).distribution().shape == Shape::exact);
}

TEST_CASE("an estimate is made of finite numbers, and a factor belongs to a positive median", "[errors]") {
    const double nothing = std::nan(""), endless = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(Estimate<Mass>::exact(kilograms(nothing), weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(kilograms(endless), 0.1, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(grams(1), -0.1, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::normal(grams(1), nothing, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::rectangular(grams(1), endless, weighed), DomainError);
    // These had a standard uncertainty below zero, and of zero.
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(-1), 1.3, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(0), 1.3, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(1), 0.9, weighed), DomainError);
    CHECK_THROWS_AS(Estimate<Mass>::lognormal(grams(1), endless, weighed), DomainError);
}
