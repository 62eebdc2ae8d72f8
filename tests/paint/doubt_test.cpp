// The doubt of ln(true k / k) where a blend or a binder index bends it, against slow and plain integrals.

#include "lakebound/paint/chance.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {

double phi(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Integral of f over a standard normal variable, by 6000 steps of .0025.
template <class F> double over_normal(F f) {
    double sum = 0.0;
    for (int i = -3000; i <= 3000; ++i) {
        const double z = 0.0025 * i;
        sum += std::exp(-0.5 * z * z) * f(z);
    }
    return sum * 0.0025 / std::sqrt(2 * M_PI);
}
BatchRequest two_lakes(double s1, double s2, Origin origin) {
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.additives.clear();
    Pigment a = lake(), b = lake();
    b.id = "other";
    a.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), std::exp(s1), {origin, "", false});
    b.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), std::exp(s2), {origin, "", false});
    r.recipe.pigments = {{a, MassFraction::of(0.4)}, {b, MassFraction::of(0.6)}};
    return r;
}
/// Of all but what `bends`.
double rest_of(const BatchChance& c, ChanceInput bends) {
    double variance = 0.0;
    for (std::size_t i = 0; i < c.kinds.size(); ++i)
        if (c.kinds[i] != bends) variance += std::pow(c.ln_k.lines[i].contribution, 2);
    return std::sqrt(variance);
}
BatchChance chance_of(const BatchRequest& r) { return batch_chance(r, batch_of(r, grams(10))); }

} // namespace

TEST_CASE("a binder index bends the doubt by what it truly reaches", "[reference]") {
    struct Row {
        double e, spread, accuracy;
    };
    // Far from 1 and from .1 nothing is cut off; at 1 and .1 a grid of .3 sd meets a corner.
    for (const Row& row : {Row{0.6, 0.05, 1e-6}, {0.45, 0.02, 1e-6}, {0.9, 0.10, 1.5e-3}, {0.97, 0.05, 1.5e-3}, {0.2, 0.08, 1.5e-3}}) {
        CAPTURE(row.e, row.spread);
        BatchRequest r = request(oil_paint(), grams(10));
        r.recipe.additives.clear();
        r.recipe.family.binder_index =
            Estimate<BinderIndex>::normal(BinderIndex::of(row.e), BinderIndex::Difference::of(row.spread), from());
        const BatchChance c = chance_of(r);
        const double rest = rest_of(c, ChanceInput::binder_index);
        CHECK_FALSE(c.doubt.is_normal());
        const auto moved = [&](double z) {
            return std::log(std::min(1.0, std::max(0.1, row.e + row.spread * z)) / row.e);
        };
        for (const double x : {-0.6, -0.3, -0.15, -0.05, 0.0, 0.04, 0.1, 0.2, 0.4})
            CHECK(c.doubt.below(x).value() ==
                  Approx(over_normal([&](double z) { return phi((x - moved(z)) / rest); })).margin(row.accuracy));
        const double mean = over_normal(moved);
        CHECK(c.doubt.mean() == Approx(mean).margin(row.accuracy));
        CHECK(c.sigma == Approx(std::sqrt(rest * rest + over_normal([&](double z) { return std::pow(moved(z) - mean, 2); })))
                             .margin(row.accuracy));
    }
}

TEST_CASE("two demands that rest on one guess are one lognormal demand", "[reference]") {
    // Complete correlation and one spread: the sum is exactly lognormal, and the doubt exactly normal.
    for (const double s : {0.05, 0.12, 0.18}) {
        const BatchChance c = chance_of(two_lakes(s, s, Origin::estimate));
        const double all = std::hypot(s, rest_of(c, ChanceInput::oil_absorption));
        CHECK(c.sigma == Approx(all).epsilon(1e-5));
        CHECK(c.doubt.mean() == Approx(0.0).margin(1e-6));
        for (const double x : {-0.5, -0.2, -0.1, 0.0, 0.05, 0.15, 0.3, 0.6})
            CHECK(c.doubt.below(x).value() == Approx(phi(x / all)).margin(2e-6));
    }
}

TEST_CASE("a blend's demand keeps the mean and the variance of its sum", "[reference]") {
    // E exp(-doubt) is E sum x E rest; by hand e^{s^2/2} of each part, and e^{(s1^2 + s2^2)/2 + covariance} of products.
    for (const Origin origin : {Origin::published, Origin::measured, Origin::estimate})
        for (const auto& [s1, s2] : {std::pair{0.3, 0.2}, {0.1, 0.1}, {0.35, 0.05}, {0.0, 0.25}}) {
            CAPTURE(static_cast<int>(origin), s1, s2);
            const BatchChance c = chance_of(two_lakes(s1, s2, origin));
            const double shared = origin == Origin::measured ? 0.05 : origin == Origin::estimate ? 0.18 : 0.0;
            const double covariance = std::min({shared * shared, s1 * s1, s2 * s2});
            const double rest = rest_of(c, ChanceInput::oil_absorption);
            const double mean = 0.4 * std::exp(s1 * s1 / 2) + 0.6 * std::exp(s2 * s2 / 2);
            const double square = 0.16 * std::exp(2 * s1 * s1) + 0.36 * std::exp(2 * s2 * s2) +
                                  2 * 0.24 * std::exp((s1 * s1 + s2 * s2) / 2 + covariance);
            double first = 0.0, second = 0.0, last = 0.0;
            constexpr double step = 1e-3;
            for (int i = -3000; i <= 3000; ++i) {
                const double x = step * i, share = c.doubt.below(x + step / 2).value();
                first += (share - last) * std::exp(-x);
                second += (share - last) * std::exp(-2 * x);
                last = share;
            }
            CHECK(first == Approx(mean * std::exp(rest * rest / 2)).epsilon(3e-6));
            CHECK(second == Approx(square * std::exp(2 * rest * rest)).epsilon(1e-5));
        }
}

TEST_CASE("a blend in a binder of unsure index is bent by both", "[reference]") {
    // As above with an index besides: the two are laid out across each other.
    BatchRequest r = two_lakes(0.15, 0.15, Origin::estimate);
    r.recipe.family.binder_index =
        Estimate<BinderIndex>::normal(BinderIndex::of(0.6), BinderIndex::Difference::of(0.06), from());
    const BatchChance c = chance_of(r);
    double variance = 0.0;
    for (std::size_t i = 0; i < c.kinds.size(); ++i)
        if (c.kinds[i] != ChanceInput::oil_absorption && c.kinds[i] != ChanceInput::binder_index)
            variance += std::pow(c.ln_k.lines[i].contribution, 2);
    const double all = std::hypot(0.15, std::sqrt(variance));
    for (const double x : {-0.5, -0.2, -0.1, 0.0, 0.05, 0.15, 0.3, 0.6})
        CHECK(c.doubt.below(x).value() ==
              Approx(over_normal([&](double z) { return phi((x - std::log(1 + 0.1 * z)) / all); })).margin(2e-6));
}

TEST_CASE("one pigment in a binder whose index is sure leaves a normal doubt", "[identity]") {
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.pigments[0].pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), 1.3, from());
    const BatchChance c = chance_of(r);
    CHECK(c.doubt.is_normal());
    CHECK(c.sigma == Approx(c.ln_k.standard_uncertainty).epsilon(1e-12));
    // Two that are known exactly add nothing, and bend nothing.
    const BatchChance sure = chance_of(two_lakes(0.0, 0.0, Origin::estimate));
    CHECK(sure.doubt.is_normal());
    CHECK(sure.sigma == Approx(sure.ln_k.standard_uncertainty).epsilon(1e-12));
    // One of the two alone is enough, and however little; of an index as well.
    CHECK_FALSE(chance_of(two_lakes(4e-4, 0.0, Origin::published)).doubt.is_normal());
    r.recipe.family.binder_index = Estimate<BinderIndex>::normal(BinderIndex::of(0.8), BinderIndex::Difference::of(4e-4), from());
    CHECK_FALSE(chance_of(r).doubt.is_normal());
    CHECK_FALSE(chance_of(two_lakes(0.0, 0.1, Origin::estimate)).doubt.is_normal());
}

TEST_CASE("what a record leaves open is widened by the weighing alone", "[unit]") {
    for (const double spread : {0.02, 0.0566, 0.057, 0.09, 0.2}) {
        BatchRequest r = request(oil_paint(), grams(10));
        r.recipe.additives.clear();
        r.learned_doubt = NormalMixture(spread);
        const BatchChance c = chance_of(r);
        CHECK(c.sigma == Approx(std::hypot(spread, weighing_spread(c))).epsilon(1e-9));
        // .04 of solids and .04 of density, which it holds too, keep lines of their own.
        const double left = std::sqrt(std::max(0.0, spread * spread - 2 * 0.04 * 0.04));
        bool seen = false;
        for (std::size_t i = 0; i < c.kinds.size(); ++i)
            if (c.kinds[i] == ChanceInput::learned_demand) {
                seen = true;
                CHECK(c.ln_k.lines[i].name == "what your record leaves open");
                CHECK(c.subjects[i] == "lake-m");
                CHECK(c.ln_k.lines[i].contribution == Approx(-left).epsilon(1e-6).margin(1e-9));
            }
        CHECK(seen);
        for (const ChanceInput learned : {ChanceInput::oil_absorption, ChanceInput::test_oil_density, ChanceInput::moisture,
                                          ChanceInput::binder_index})
            for (std::size_t i = 0; i < c.kinds.size(); ++i)
                if (c.kinds[i] == learned) CHECK(c.ln_k.lines[i].contribution == Approx(0.0).margin(1e-15));
    }
}
