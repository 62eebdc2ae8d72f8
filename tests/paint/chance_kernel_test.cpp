#include "lakebound/paint/chance_kernel.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <vector>

#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/paint/pvc.hpp"

using namespace lakebound;

namespace {
Distribution normal(double m, double s) { return {Shape::normal, m, s}; }
Distribution lognormal(double m, double s) { return {Shape::lognormal, m, s}; }
SufficiencyWindow window() {
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    return {k(1.0), k(1.2), k(1.8), k(2.4)};
}
/// A lake in gum medium, ten uncertain inputs.
PaintInputs watercolour() {
    return {normal(.010, 3e-5),   lognormal(1, .03),     lognormal(.6878, .30), normal(930, 3),
            lognormal(1, .10),    lognormal(1880, .106), normal(.0365, 3e-5),   normal(.3685, .01),
            lognormal(1398, .02), normal(.97, .02)};
}
PaintInputs exact() {
    PaintInputs p = watercolour();
    for (Distribution* d :
         {&p.pigment_mass, &p.moisture_factor, &p.oil_absorption, &p.test_oil_density, &p.method_transfer,
          &p.pigment_density, &p.medium_mass, &p.binder_solids, &p.solids_density, &p.binder_index})
        *d = {Shape::exact, d->location, 0};
    return p;
}
/// Its chunks of draws written out plainly: xoshiro256++ in 64 lanes, each seeded by splitmix64 (blackman-vigna-2021),
/// normals by Box and Muller with the library's cos and sin. No vector, no series, no block sums.
class PlainDraws {
public:
    explicit PlainDraws(std::uint64_t seed) {
        for (auto& word : state_)
            for (auto& lane : word) {
                seed += 0x9e3779b97f4a7c15u;
                std::uint64_t z = seed;
                z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
                z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
                lane = z ^ (z >> 31);
            }
    }
    /// 256 normals of each of ten inputs, input by input.
    std::vector<double> block() {
        constexpr std::size_t words = 2560, half = words / 2;
        std::vector<std::uint64_t> bits(words);
        for (std::size_t i = 0; i < words; ++i)
            bits[i] = next(i % 64);
        std::vector<double> z(words);
        for (std::size_t i = 0; i < half; ++i) {
            const double u = (static_cast<double>(bits[i] >> 12) + 0.5) * 0x1p-52;
            const double v = (static_cast<double>(bits[i + half] >> 12) + 0.5) * 0x1p-52 - 0.5;
            const double radius = std::sqrt(-2.0 * std::log(u)), angle = M_PI / 2 * v + M_PI / 4;
            z[i] = radius * std::cos(angle) * (bits[i + half] & 1u ? -1.0 : 1.0);
            z[i + half] = radius * std::sin(angle) * (bits[i + half] & 2u ? -1.0 : 1.0);
        }
        return z;
    }

private:
    std::uint64_t next(std::size_t l) {
        auto& s = state_;
        const auto turned = [](std::uint64_t x, int by) { return (x << by) | (x >> (64 - by)); };
        const std::uint64_t result = turned(s[0][l] + s[3][l], 23) + s[0][l], t = s[1][l] << 17;
        s[2][l] ^= s[0][l];
        s[3][l] ^= s[1][l];
        s[1][l] ^= s[2][l];
        s[0][l] ^= s[3][l];
        s[2][l] ^= t;
        s[3][l] = turned(s[3][l], 45);
        return result;
    }
    std::uint64_t state_[4][64];
};
/// The kernel of pvc.hpp, one draw.
std::array<double, 4> by_the_kernel(std::span<const double> x) {
    const auto pigment = kilograms(x[0] * x[1]);
    const auto demand =
        effective_demand(binder_demand(OilAbsorption::from_proven(x[2] * x[4]), MassDensity::from_value(x[3])),
                         BinderIndex::from_proven(std::min(1.0, x[9])));
    const auto density = MassDensity::from_value(x[5]);
    const auto binder = Volume::from_value(x[6] * x[7] / x[8]);
    const auto c = critical_pigment_volume_concentration(demand, density);
    const auto pvc = pigment_volume_concentration({.pigment = pigment_volume(pigment, density), .dry_binder = binder});
    return {binder_sufficiency(binder, pigment, demand).value(), pvc.value(), c.value(),
            reduced_pigment_volume_concentration(pvc, c).value()};
}
} // namespace

TEST_CASE("the chance kernel and the general Monte Carlo agree", "[identity]") {
    const auto in = watercolour();
    const auto fast = draw_paint(in, window(), 1'000'000, 7);
    std::vector<UncertainInput> inputs;
    for (const Distribution& d :
         {in.pigment_mass, in.moisture_factor, in.oil_absorption, in.test_oil_density, in.method_transfer,
          in.pigment_density, in.medium_mass, in.binder_solids, in.solids_density, in.binder_index})
        inputs.push_back({"", d, {}});
    MonteCarloOptions options;
    options.draws = 400'000;
    const auto slow = joint_monte_carlo(
        [](std::span<const double> x, std::span<double> y) {
            const auto film = by_the_kernel(x);
            std::copy(film.begin(), film.end(), y.begin());
        },
        4, inputs, options);
    // Five standard errors of the difference.
    const double n = 1 / std::sqrt(1 / (1 / 1e6 + 1 / 4e5));
    const DrawnMoments moments[] = {fast.k, fast.pvc, fast.cpvc, fast.reduced_pvc};
    for (std::size_t i = 0; i < 4; ++i) {
        const double sd = sample_standard_deviation(slow.outputs[i]);
        CHECK(moments[i].mean == Approx(sample_mean(slow.outputs[i])).margin(5 * sd * n));
        CHECK(moments[i].standard_deviation == Approx(sd).epsilon(.01));
    }
    const auto agree = [&](double p, const EstimatedProbability& q) {
        CHECK(p == Approx(q.value).margin(5 * std::hypot(fast.standard_error(p), q.standard_error)));
    };
    agree(fast.underbound, probability_below(slow, 1.0));
    agree(fast.below_amber, probability_below(slow, 1.0));
    agree(fast.below_green, probability_below(slow, 1.2));
    agree(fast.above_green, probability_above(slow, 1.8));
    agree(fast.above_amber, probability_above(slow, 2.4));
    double covariance = 0;
    for (std::size_t i = 0; i < slow.count(); ++i)
        covariance += (slow.outputs[1][i] - fast.pvc.mean) * (slow.outputs[2][i] - fast.cpvc.mean);
    covariance /= static_cast<double>(slow.count());
    CHECK(fast.pvc_cpvc_correlation ==
          Approx(covariance / fast.pvc.standard_deviation / fast.cpvc.standard_deviation).margin(.01));
}

TEST_CASE("lognormal inputs have the closed form", "[reference]") {
    // ln k is a sum of normals: sd and chances in closed form (estimate/probability.hpp); one input at a
    // time, which also proves each variate normal with its own sign, and all at once.
    const double s = .4;
    for (int which = 0; which < 7; ++which) {
        PaintInputs p = exact();
        Distribution* const factors[] = {&p.moisture_factor, &p.oil_absorption, &p.method_transfer,
                                         &p.solids_density,  &p.pigment_mass,   &p.medium_mass};
        double sigma = s;
        if (which < 6)
            *factors[which] = lognormal(factors[which]->location, s);
        else {
            for (auto* f : factors)
                *f = lognormal(f->location, s);
            sigma = s * std::sqrt(6.0);
        }
        const double k = p.binder_index.location * p.medium_mass.location * p.binder_solids.location /
                         p.solids_density.location /
                         (p.pigment_mass.location * p.moisture_factor.location * p.oil_absorption.location *
                          p.method_transfer.location / p.test_oil_density.location);
        const std::size_t n = 400'000;
        const auto d = draw_paint(p, window(), n, 100 + static_cast<unsigned>(which));
        CAPTURE(which);
        const double root = std::sqrt(static_cast<double>(n));
        CHECK(d.ln_k.mean == Approx(std::log(k)).margin(5 * sigma / root));
        CHECK(d.ln_k.standard_deviation == Approx(sigma).margin(5 * sigma / root / std::sqrt(2.0)));
        const auto agree = [&](double drawn, double closed) {
            CHECK(drawn == Approx(closed).margin(5 * std::sqrt(closed * (1 - closed)) / root));
        };
        agree(d.underbound, lognormal_probability_below(k, sigma, 1.0));
        agree(d.below_green, lognormal_probability_below(k, sigma, 1.2));
        agree(d.above_green, 1 - lognormal_probability_below(k, sigma, 1.8));
        agree(d.above_amber, 1 - lognormal_probability_below(k, sigma, 2.4));
    }
}

TEST_CASE("far tails of the variates are there", "[reference]") {
    // Share of draws beyond 1, 2, 3, 4 standard deviations against Phi: limits of the window put there.
    for (const double side : {-1., 1.}) {
        PaintInputs p = exact();
        p.oil_absorption = lognormal(.6878, .1);
        const auto centre = draw_paint(exact(), window(), 2);
        const auto at = [&](double z) { return BinderSufficiency::of(centre.k.mean * std::exp(.1 * z)); };
        const SufficiencyWindow w = side < 0 ? SufficiencyWindow{at(-3), at(-1), at(10), at(10)}
                                             : SufficiencyWindow{at(-10), at(-10), at(2), at(4)};
        const std::size_t n = 4'000'000;
        const auto d = draw_paint(p, w, n, 3);
        const auto agree = [&](double drawn, double z) {
            const double q = standard_normal_cdf(z);
            CHECK(drawn == Approx(q).margin(5 * std::sqrt(q / static_cast<double>(n))));
        };
        if (side < 0)
            agree(d.below_amber, -3), agree(d.below_green, -1);
        else
            agree(d.above_green, -2), agree(d.above_amber, -4);
    }
}

TEST_CASE("the answer does not depend on threads", "[identity]") {
    for (const std::size_t n : {std::size_t{2}, std::size_t{257}, std::size_t{16385}, std::size_t{100'000}}) {
        const auto one = draw_paint(watercolour(), window(), n, 42, 1);
        for (const unsigned threads : {0u, 2u, 3u, 7u}) {
            const auto many = draw_paint(watercolour(), window(), n, 42, threads);
            // Bit for bit, not nearly: the sums are taken in one order.
            CHECK(std::memcmp(&one, &many, sizeof one) == 0);
        }
        const double count = one.underbound * static_cast<double>(n);
        CHECK(count == Approx(std::round(count)).margin(1e-6));
    }
    CHECK(std::abs(draw_paint(watercolour(), window(), 5000, 1).k.mean -
                   draw_paint(watercolour(), window(), 5000, 2).k.mean) > 1e-9);
}

TEST_CASE("exact inputs give the kernel itself", "[identity]") {
    const auto p = exact();
    const auto d = draw_paint(p, window(), 1000);
    const std::array<double, 10> x{p.pigment_mass.location,    p.moisture_factor.location,
                                   p.oil_absorption.location,  p.test_oil_density.location,
                                   p.method_transfer.location, p.pigment_density.location,
                                   p.medium_mass.location,     p.binder_solids.location,
                                   p.solids_density.location,  p.binder_index.location};
    const auto film = by_the_kernel(x);
    CHECK(d.k.mean == Approx(film[0]).epsilon(1e-12));
    CHECK(d.ln_k.mean == Approx(std::log(film[0])).epsilon(1e-12));
    CHECK(d.pvc.mean == Approx(film[1]).epsilon(1e-12));
    CHECK(d.cpvc.mean == Approx(film[2]).epsilon(1e-12));
    CHECK(d.reduced_pvc.mean == Approx(film[3]).epsilon(1e-12));
    CHECK(d.k.standard_deviation == Approx(0).margin(1e-12));
    CHECK((d.underbound == 0.0 || d.underbound == 1.0));
}

TEST_CASE("the chance kernel refuses what it cannot draw", "[errors]") {
    CHECK_THROWS_AS(draw_paint(watercolour(), window(), 1), DomainError);
    CHECK_THROWS_AS(draw_paint(watercolour(), window(), 100'000'001), DomainError);
    CHECK_THROWS_AS(draw_paint(watercolour(), window(), 100, 1, 65), DomainError);
    CHECK_NOTHROW(draw_paint(watercolour(), window(), 2, 1, 64));
    auto p = watercolour();
    p.oil_absorption = normal(.6878, .2);
    CHECK_THROWS_WITH(draw_paint(p, window(), 100), Catch::Contains("give it as lognormal"));
    p.oil_absorption = {Shape::rectangular, .6878, .01};
    CHECK_THROWS_AS(draw_paint(p, window(), 100), DomainError);
    p.oil_absorption = lognormal(-1, .1);
    CHECK_THROWS_AS(draw_paint(p, window(), 100), DomainError);
    p.oil_absorption = lognormal(.6878, -.1);
    CHECK_THROWS_AS(draw_paint(p, window(), 100), DomainError);
    p.oil_absorption = lognormal(.6878, 3.1);
    CHECK_THROWS_AS(draw_paint(p, window(), 100), DomainError);
}

TEST_CASE("a block that is not full counts as full ones do", "[identity]") {
    // Exact inputs: every draw is the same k, so a share is 0 or 1; 100 draws lie in a part of one block, 512 in
    // two whole ones, 700 in both. A k on a limit lies neither below nor above it.
    const auto in = exact();
    const double k = draw_paint(in, window(), 2).k.mean;
    const auto at = [](double x) { return BinderSufficiency::of(x); };
    for (const std::size_t n : {100u, 512u, 700u}) {
        CAPTURE(n);
        const auto lean = draw_paint(in, {at(k * 1.1), at(k * 1.2), at(k * 1.3), at(k * 1.4)}, n);
        CHECK(lean.below_amber == Approx(1.0));
        CHECK(lean.below_green == Approx(1.0));
        CHECK(lean.above_green == Approx(0.0).margin(1e-15));
        CHECK(lean.above_amber == Approx(0.0).margin(1e-15));
        const auto rich = draw_paint(in, {at(k * 0.6), at(k * 0.7), at(k * 0.8), at(k * 0.9)}, n);
        CHECK(rich.below_amber == Approx(0.0).margin(1e-15));
        CHECK(rich.below_green == Approx(0.0).margin(1e-15));
        CHECK(rich.above_green == Approx(1.0));
        CHECK(rich.above_amber == Approx(1.0));
        const auto on = draw_paint(in, {at(k), at(k), at(k), at(k)}, n);
        for (const double share : {on.below_amber, on.below_green, on.above_green, on.above_amber})
            CHECK(share == Approx(0.0).margin(1e-15));
        CHECK(lean.underbound == Approx(k < 1.0 ? 1.0 : 0.0).margin(1e-15));
    }
}

TEST_CASE("the error of a drawn share is that of a coin", "[unit]") {
    PaintDraws d;
    CHECK(d.standard_error(0.2) == Approx(0.0).margin(1e-15));
    d.draws = 400;
    CHECK(d.standard_error(0.2) == Approx(0.02)); // sqrt(.2 x .8/400)
    CHECK(d.standard_error(1.0) == Approx(0.0).margin(1e-15));
    CHECK(d.standard_error(1.0 + 1e-16) == Approx(0.0).margin(1e-7));
}

TEST_CASE("every draw is that of a plain program", "[reference]") {
    // A chunk of 16384 draws, whole blocks of 256 and a rest; sums taken one by one in long double.
    const auto in = watercolour();
    const Distribution inputs[] = {in.pigment_mass,    in.moisture_factor, in.oil_absorption, in.test_oil_density,
                                   in.method_transfer, in.pigment_density, in.medium_mass,    in.binder_solids,
                                   in.solids_density,  in.binder_index};
    for (const std::size_t n : {std::size_t{2}, std::size_t{300}, std::size_t{16384 + 700}}) {
        CAPTURE(n);
        const std::uint64_t seed = 42;
        std::vector<std::array<double, 5>> films;
        for (std::size_t chunk = 0; films.size() < n; ++chunk) {
            PlainDraws plain(seed * 0xd1342543de82ef95u + chunk * 0x2545f4914f6cdd1du);
            const std::size_t end = std::min(n, (chunk + 1) * 16384);
            while (films.size() < end) {
                const auto z = plain.block();
                for (std::size_t i = 0; i < 256 && films.size() < end; ++i) {
                    std::array<double, 10> x{};
                    for (std::size_t j = 0; j < 10; ++j)
                        x[j] = inputs[j].shape == Shape::lognormal
                                   ? inputs[j].location * std::exp(inputs[j].scale * z[256 * j + i])
                                   : inputs[j].location + inputs[j].scale * z[256 * j + i];
                    const auto f = by_the_kernel(x);
                    films.push_back({f[0], std::log(f[0]), f[1], f[2], f[3]});
                }
            }
        }
        const auto d = draw_paint(in, window(), n, seed);
        const DrawnMoments moments[] = {d.k, d.ln_k, d.pvc, d.cpvc, d.reduced_pvc};
        const auto count = static_cast<long double>(n);
        long double mean[5] = {}, square[5] = {}, both = 0;
        for (const auto& f : films)
            for (std::size_t i = 0; i < 5; ++i)
                mean[i] += f[i] / count;
        for (const auto& f : films) {
            for (std::size_t i = 0; i < 5; ++i)
                square[i] += (f[i] - mean[i]) * (f[i] - mean[i]) / (count - 1);
            both += (f[2] - mean[2]) * (f[3] - mean[3]) / (count - 1);
        }
        for (std::size_t i = 0; i < 5; ++i) {
            CAPTURE(i);
            CHECK(moments[i].mean == Approx(static_cast<double>(mean[i])).epsilon(1e-11).margin(1e-12));
            CHECK(moments[i].standard_deviation == Approx(std::sqrt(static_cast<double>(square[i]))).epsilon(1e-9));
        }
        CHECK(d.pvc_cpvc_correlation ==
              Approx(static_cast<double>(both / std::sqrt(square[2] * square[3]))).epsilon(1e-8));
        const auto share = [&](auto&& holds) {
            return static_cast<double>(std::count_if(films.begin(), films.end(), holds)) / static_cast<double>(n);
        };
        CHECK(d.underbound == Approx(share([](const auto& f) { return f[0] < 1.0; })).epsilon(1e-12));
        CHECK(d.below_amber == Approx(share([](const auto& f) { return f[0] < 1.0; })).epsilon(1e-12));
        CHECK(d.below_green == Approx(share([](const auto& f) { return f[0] < 1.2; })).epsilon(1e-12));
        CHECK(d.above_green == Approx(share([](const auto& f) { return f[0] > 1.8; })).epsilon(1e-12));
        CHECK(d.above_amber == Approx(share([](const auto& f) { return f[0] > 2.4; })).epsilon(1e-12));
        CHECK(d.draws == n);
    }
    // Without a seed it is the first.
    const auto unsaid = draw_paint(in, window(), 300), first = draw_paint(in, window(), 300, 1);
    CHECK(unsaid.k.mean == Approx(first.k.mean).epsilon(1e-15));
}

TEST_CASE("wide and small inputs are drawn as they are", "[unit]") {
    auto p = exact();
    p.pigment_mass = lognormal(5e-4, 3.0); // half a gram, and as wide as may be
    p.medium_mass.location = 4e-4;
    const auto d = draw_paint(p, window(), 4096);
    CHECK(d.ln_k.standard_deviation == Approx(3.0).epsilon(0.05));
    p.pigment_mass = normal(5e-4, 5e-5);
    CHECK(draw_paint(p, window(), 4096).ln_k.standard_deviation == Approx(0.1).epsilon(0.05));
    p.pigment_mass = normal(5e-4, 5.1e-5);
    CHECK_THROWS_AS(draw_paint(p, window(), 100), DomainError);
    p.pigment_mass = normal(HUGE_VAL, 1);
    CHECK_THROWS_WITH(draw_paint(p, window(), 100), Catch::Contains("pigment mass"));
    p.pigment_mass = normal(5e-4, HUGE_VAL);
    CHECK_THROWS_WITH(draw_paint(p, window(), 100), Catch::Contains("spread of pigment mass"));
}

TEST_CASE("a film that just holds its binder is not underbound, in whole blocks and in a rest", "[unit]") {
    PaintInputs p = exact();
    for (Distribution* d :
         {&p.pigment_mass, &p.moisture_factor, &p.oil_absorption, &p.test_oil_density, &p.method_transfer,
          &p.pigment_density, &p.medium_mass, &p.binder_solids, &p.solids_density, &p.binder_index})
        d->location = 1.0; // k = 1 to the last digit
    for (const std::size_t n : {2u, 100u, 256u, 700u}) {
        CAPTURE(n);
        p.medium_mass.location = 1.0;
        CHECK(draw_paint(p, window(), n).underbound == Approx(0.0).margin(1e-15));
        p.medium_mass.location = 1.0 - 1e-15;
        CHECK(draw_paint(p, window(), n).underbound == Approx(1.0));
    }
}
