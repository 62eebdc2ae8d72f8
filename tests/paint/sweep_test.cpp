#include "lakebound/paint/sweep.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "lakebound/paint/blend.hpp"
#include "lakebound/paint/spread.hpp"

using namespace lakebound;

namespace {
struct Table {
    std::array<std::vector<double>, 6> v;
    explicit Table(std::size_t n) {
        for (auto& x : v)
            x.resize(n);
    }
    SweepColumns columns() { return {v[0], v[1], v[2], v[3], v[4], v[5]}; }
};
const auto lake_demand = millilitres_per_gram(0.73957), chalk_demand = millilitres_per_gram(0.19355);
const auto lake_density = grams_per_cubic_centimetre(1.88), chalk_density = grams_per_cubic_centimetre(2.70);
MediumSweep medium_sweep() {
    return {MediumPerPigment::of(0.4),
            MediumPerPigment::of(12),
            millilitres_per_gram(0.26392),
            {},
            lake_demand,
            lake_density,
            0.155};
}
ExtenderSweep extender_sweep() {
    return {MassFraction::of(0), MassFraction::of(1),       lake_demand, chalk_demand, lake_density,
            chalk_density,       millilitres_per_gram(0.6), 0.155};
}
/// The loop is written in blocks of 256, so lengths on both sides of it.
const std::array<std::size_t, 6> lengths{2, 3, 255, 256, 257, 1001};
} // namespace

TEST_CASE("a sweep over medium is the kernel, point by point", "[identity]") {
    for (const std::size_t n : lengths) {
        Table t(n);
        sweep_medium(medium_sweep(), t.columns());
        const auto c = critical_pigment_volume_concentration(lake_demand, lake_density);
        CHECK(t.v[0].front() == Approx(0.4).epsilon(1e-14));
        CHECK(t.v[0].back() == Approx(12).epsilon(1e-14));
        for (std::size_t i = 0; i < n; ++i) {
            const auto k = binder_sufficiency(t.v[0][i] * grams(10) * millilitres_per_gram(0.26392), grams(10),
                                              lake_demand);
            CHECK(t.v[1][i] == Approx(k.value()).epsilon(1e-12));
            CHECK(t.v[2][i] == Approx(pigment_volume_concentration(k, c).value()).epsilon(1e-12));
            CHECK(t.v[3][i] == Approx(c.value()).epsilon(1e-12));
            CHECK(t.v[4][i] == Approx(reduced_pigment_volume_concentration(k, c).value()).epsilon(1e-12));
            CHECK(t.v[5][i] == Approx(chance_below({k, 0.155}).value()).epsilon(1e-10).margin(1e-300));
        }
    }
}

TEST_CASE("a sweep covers what lies between its ends, both included", "[unit]") {
    const auto sweep = medium_sweep(); // 0.4 to 12
    for (const double inside : {0.4, 1.0, 12.0}) CHECK(covers(sweep, MediumPerPigment::of(inside)));
    for (const double outside : {0.399, 12.01}) CHECK_FALSE(covers(sweep, MediumPerPigment::of(outside)));
}

TEST_CASE("a sweep over extender is the blend, point by point", "[identity]") {
    const std::array<BlendPigment, 2> both{BlendPigment{lake_demand, lake_density, {}},
                                           BlendPigment{chalk_demand, chalk_density, {}}};
    for (const std::size_t n : lengths) {
        Table t(n);
        sweep_extender(extender_sweep(), t.columns());
        for (std::size_t i = 0; i < n; ++i) {
            const std::array<MassFraction, 2> shares{MassFraction::of(1 - t.v[0][i]),
                                                     MassFraction::of(t.v[0][i])};
            const auto b = blend(both, std::span<const MassFraction>(shares));
            const auto k = binder_sufficiency(millilitres(6), grams(10), b.demand);
            CHECK(t.v[1][i] == Approx(k.value()).epsilon(1e-12));
            CHECK(t.v[2][i] == Approx(pigment_volume_concentration(k, b.cpvc).value()).epsilon(1e-12));
            CHECK(t.v[3][i] == Approx(b.cpvc.value()).epsilon(1e-12));
            CHECK(t.v[4][i] == Approx(reduced_pigment_volume_concentration(k, b.cpvc).value()).epsilon(1e-12));
            CHECK(t.v[5][i] == Approx(chance_below({k, 0.155}).value()).epsilon(1e-10).margin(1e-300));
        }
    }
}

TEST_CASE("sweeps are monotone", "[identity]") {
    Table m(2000), e(2000);
    sweep_medium(medium_sweep(), m.columns());
    sweep_extender(extender_sweep(), e.columns());
    for (std::size_t i = 1; i < 2000; ++i) {
        // More medium: more k, less PVC, less chance of chalking.
        CHECK(m.v[1][i] > m.v[1][i - 1]);
        CHECK(m.v[2][i] < m.v[2][i - 1]);
        CHECK(m.v[4][i] < m.v[4][i - 1]);
        CHECK(m.v[5][i] <= m.v[5][i - 1]);
        // More of an extender that takes less oil at the same binder: more k, less chance.
        CHECK(e.v[1][i] > e.v[1][i - 1]);
        CHECK(e.v[3][i] > e.v[3][i - 1]);
        CHECK(e.v[5][i] <= e.v[5][i - 1]);
    }
}

TEST_CASE("chances of a sweep over the whole range", "[identity]") {
    // From sure to chalk to sure to hold: against the error function of the standard library. At 37
    // standard deviations the last digit of ln k is 1e-11 of the chance.
    for (const double spread : {0.01, 0.1, 0.5, 3.0}) {
        Table t(4001);
        auto s = medium_sweep();
        s.from = MediumPerPigment::of(1e-3);
        s.to = MediumPerPigment::of(60);
        s.spread = spread;
        sweep_medium(s, t.columns());
        for (std::size_t i = 0; i < 4001; ++i) {
            const double exact = 0.5 * std::erfc(std::log(t.v[1][i]) / spread / std::sqrt(2.0));
            CHECK(t.v[5][i] == Approx(exact).epsilon(exact > 1e-290 ? 1e-10 : 1).margin(1e-300));
        }
    }
    // Without spread the chance is a step at k = 1.
    Table t(1001);
    auto s = medium_sweep();
    s.spread = 0;
    sweep_medium(s, t.columns());
    for (std::size_t i = 0; i < 1001; ++i)
        CHECK(t.v[5][i] == Approx(t.v[1][i] < 1 ? 1 : 0).margin(1e-300));
}

TEST_CASE("a sweep has bounds and says so", "[errors]") {
    Table one(1), fair(10), other(9);
    CHECK_THROWS_AS(sweep_medium(medium_sweep(), one.columns()), DomainError);
    std::vector<double> large(greatest_sweep + 1);
    const SweepColumns too_long{large, large, large, large, large, large};
    CHECK_THROWS_WITH(sweep_medium(medium_sweep(), too_long), Catch::Contains("2 to 1000000"));
    auto mixed = fair.columns();
    mixed.k = other.v[1];
    CHECK_THROWS_AS(sweep_medium(medium_sweep(), mixed), DomainError);
    auto m = medium_sweep();
    m.from = MediumPerPigment::of(0);
    CHECK_THROWS_AS(sweep_medium(m, fair.columns()), DomainError);
    m.binder_of_additives = millilitres_per_gram(0.1); // additives alone are a binder
    CHECK_NOTHROW(sweep_medium(m, fair.columns()));
    m.from = MediumPerPigment::of(20);
    CHECK_THROWS_AS(sweep_medium(m, fair.columns()), DomainError);
    m = medium_sweep();
    m.spread = -1;
    CHECK_THROWS_AS(sweep_medium(m, fair.columns()), DomainError);
    m.spread = HUGE_VAL;
    CHECK_THROWS_AS(sweep_medium(m, fair.columns()), DomainError);
    m = medium_sweep();
    m.binder_of_additives = millilitres_per_gram(-0.001);
    CHECK_THROWS_WITH(sweep_medium(m, fair.columns()), Catch::Contains("binder of the additives"));
    m = medium_sweep();
    m.demand = {};
    CHECK_THROWS_AS(sweep_medium(m, fair.columns()), DomainError);
    auto e = extender_sweep();
    e.binder = {};
    CHECK_THROWS_AS(sweep_extender(e, fair.columns()), DomainError);
    e = extender_sweep();
    e.extender_density = {};
    CHECK_THROWS_AS(sweep_extender(e, fair.columns()), DomainError);
}

TEST_CASE("a sweep goes from its start to its end by even steps, a million of them at most", "[identity]") {
    auto extender = extender_sweep();
    extender.from = MassFraction::of(0.2), extender.to = MassFraction::of(0.6);
    auto medium = medium_sweep();
    medium.from = MediumPerPigment::of(1), medium.to = MediumPerPigment::of(3);
    Table a(5), b(5);
    sweep_extender(extender, a.columns());
    sweep_medium(medium, b.columns());
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(a.v[0][i] == Approx(0.2 + 0.1 * static_cast<double>(i)).epsilon(1e-12));
        CHECK(b.v[0][i] == Approx(1.0 + 0.5 * static_cast<double>(i)).epsilon(1e-12));
    }
    Table most(greatest_sweep), more(greatest_sweep + 1);
    CHECK_NOTHROW(sweep_medium(medium, most.columns()));
    CHECK(most.v[0][greatest_sweep / 2] == Approx(2.0).epsilon(1e-5));
    CHECK_THROWS_AS(sweep_medium(medium, more.columns()), DomainError);
}
