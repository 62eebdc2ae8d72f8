#include "lakebound/particle/breakage.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
struct Case {
    std::vector<double> sizes;
    double a, alpha, phi, gamma, beta, minutes;
    std::vector<double> out;
};
const Case scipy[] = {
#include "particle/population_balance_cases.inc"
};

BreakageModel model(const std::vector<double>& um, double per_min, double alpha, BreakageFunction b) {
    BreakageModel m;
    for (const double d : um)
        m.class_sizes.push_back(micrometres(d));
    m.selection = {per_minute(per_min), alpha};
    m.breakage = b;
    return m;
}
std::vector<double> root_two_sizes(std::size_t n) {
    std::vector<double> um;
    for (std::size_t i = 0; i < n; ++i)
        um.push_back(1000 * std::pow(2.0, -0.5 * static_cast<double>(i)));
    return um;
}
double total(const std::vector<double>& w) { return std::accumulate(w.begin(), w.end(), 0.0); }

/// Reid's analytic solution: an oracle where rates lie well apart, useless where they are equal.
std::vector<double> reid(const PopulationBalance& pb, const std::vector<double>& feed, double t) {
    const std::size_t n = feed.size();
    std::vector<double> a(n * n, 0.0), w(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        double others = 0.0;
        for (std::size_t j = 0; j < i; ++j) {
            double sum = 0.0;
            for (std::size_t k = j; k < i; ++k)
                sum += pb.fragments(i, k) * pb.selection_rate(k) * a[k * n + j];
            a[i * n + j] = sum / (pb.selection_rate(i) - pb.selection_rate(j));
            others += a[i * n + j];
        }
        a[i * n + i] = feed[i] - others;
        for (std::size_t j = 0; j <= i; ++j)
            w[i] += a[i * n + j] * std::exp(-pb.selection_rate(j) * t);
    }
    return w;
}
} // namespace

TEST_CASE("grinding equals SciPy's matrix exponential, equal and stiff rates included", "[reference]") {
    // tests/reference/population_balance.py with SciPy 1.10. Margin 1e-11: what expm itself loses on the
    // stiff cases, where its scaling squares a matrix of norm 1e5.
    for (const auto& c : scipy) {
        const std::size_t n = c.sizes.size();
        std::vector<double> w(n);
        for (std::size_t i = 0; i < n; ++i)
            w[i] = static_cast<double>(n - i) / (0.5 * static_cast<double>(n * (n + 1)));
        PopulationBalance(model(c.sizes, c.a, c.alpha, {c.phi, c.gamma, c.beta})).grind(w, minutes(c.minutes));
        INFO("alpha " << c.alpha << " minutes " << c.minutes);
        for (std::size_t i = 0; i < n; ++i) {
            CHECK(w[i] >= 0.0);
            CHECK(w[i] == Approx(c.out[i]).epsilon(1e-9).margin(1e-11));
        }
        CHECK(total(w) == Approx(1.0).epsilon(1e-12));
    }
}

TEST_CASE("grinding equals Reid's analytic solution where rates lie well apart", "[reference]") {
    // reid-1965 (form from memory); tolerance 1e-10, its own cancellation.
    const std::size_t n = 8;
    const PopulationBalance pb(model(root_two_sizes(n), 0.4, 1.0, {0.55, 1.25, 5.8}));
    for (const double t : {0.5, 5.0, 50.0}) {
        std::vector<double> feed(n, 1.0 / n), w = feed;
        pb.grind(w, minutes(t));
        const auto oracle = reid(pb, feed, t * 60);
        for (std::size_t i = 0; i < n; ++i)
            CHECK(w[i] == Approx(oracle[i]).epsilon(1e-9).margin(1e-12));
    }
    // Worked by hand: S = (1, 0.5, 0), b21 0.6, b31 0.4, b32 1, feed (1, 0, 0), t = 1 (derived, six decimals).
    const PopulationBalance three(model({400, 200, 100}, 1.0, 1.0, {1.0, std::log(0.4) / std::log(0.5), 5.8}));
    CHECK(three.fragments(1, 0) == Approx(0.6).epsilon(1e-12));
    CHECK(three.selection_rate(1) == Approx(0.5 / 60).epsilon(1e-12));
    std::vector<double> w{1, 0, 0};
    three.grind(w, minutes(1));
    CHECK(w[0] == Approx(0.367879).margin(5e-7));
    CHECK(w[1] == Approx(0.286382).margin(5e-7));
    CHECK(w[2] == Approx(0.345739).margin(5e-7));
}

TEST_CASE("worked grinding of the brief", "[reference]") {
    // Domain brief B.8 (own computation): over 75 um .94/.569/.340/.118, finest class .020/.279/.479/.737.
    // The brief's class sizes are nominal, the finest counted as 25 um, which is how its figures come out.
    const PopulationBalance pb(model({250, 150, 106, 75, 45, 25}, 0.10, 0.8, {1.0, 0.9, 5.8}));
    const double minutes_of[] = {0, 15, 30, 60}, over[] = {.94, .569, .340, .118},
                 finest[] = {.020, .279, .479, .737};
    for (int k = 0; k < 4; ++k) {
        std::vector<double> w{.55, .20, .12, .07, .04, .02};
        pb.grind(w, minutes(minutes_of[k]));
        CHECK(residue_above(w, 4) == Approx(over[k]).margin(6e-4));
        CHECK(w[5] == Approx(finest[k]).margin(6e-4));
        CHECK(w[0] == Approx(.55 * std::exp(-.1 * minutes_of[k])).epsilon(1e-12));
    }
}

TEST_CASE("mass is kept, nothing turns negative, two halves make a whole", "[identity]") {
    RandomEngine random(3);
    for (int trial = 0; trial < 300; ++trial) {
        const auto n = static_cast<std::size_t>(2 + 12 * uniform(random));
        const PopulationBalance pb(
            model(root_two_sizes(n), std::pow(10, 4 * uniform(random) - 3), 3 * uniform(random),
                  {uniform(random), 0.3 + 2 * uniform(random), 2 + 5 * uniform(random)}));
        std::vector<double> feed(n);
        for (double& f : feed)
            f = uniform(random) < 0.3 ? 0.0 : 10 * uniform(random);
        const Time t = minutes(std::pow(10, 5 * uniform(random) - 2));
        auto whole = feed, halves = feed;
        pb.grind(whole, t);
        pb.grind(halves, t * 0.3);
        pb.grind(halves, t * 0.7);
        CHECK(total(whole) == Approx(total(feed)).epsilon(1e-12));
        double residue_before = 0.0, residue_after = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            CHECK(whole[i] >= 0.0);
            CHECK(halves[i] == Approx(whole[i]).epsilon(1e-9).margin(1e-11));
            residue_before += feed[i], residue_after += whole[i];
            CHECK(residue_after <= residue_before * (1 + 1e-12) + 1e-15); // grinding only makes finer
        }
    }
}

TEST_CASE("a finer feed never takes longer", "[identity]") {
    RandomEngine random(4);
    for (int trial = 0; trial < 100; ++trial) {
        // Equal rates: finer by any move. Rates that fall with size: finer by the same mortar, or by grains
        // put below the target (see the note at time_to_residue).
        const bool equal_rates = trial % 2 == 0;
        const PopulationBalance pb(model(root_two_sizes(9), 0.15, equal_rates ? 0.0 : 0.9, {1.0, 0.9, 5.8}));
        std::vector<double> coarse(9);
        for (double& f : coarse)
            f = uniform(random);
        for (const std::size_t limit : {3u, 6u, 8u}) {
            std::vector<double> fine = coarse;
            if (equal_rates) {
                for (std::size_t i = 8; i-- > 0;) {
                    const double moved = 0.4 * uniform(random) * fine[i];
                    fine[i] -= moved;
                    fine[std::min<std::size_t>(8, i + 1 + (uniform(random) < 0.5))] += moved;
                }
            } else {
                pb.grind(fine, minutes(30 * uniform(random)));
                const double moved = 0.5 * uniform(random) * fine[limit - 1];
                fine[limit - 1] -= moved;
                fine[limit] += moved;
            }
            const double slow = in_seconds(time_to_residue(pb, coarse, limit, 0.02));
            CHECK(in_seconds(time_to_residue(pb, fine, limit, 0.02)) <= slow * (1 + 1e-9));
            auto w = coarse;
            pb.grind(w, seconds(slow));
            if (slow > 0) CHECK(residue_above(w, limit) == Approx(0.02 * total(coarse)).epsilon(1e-8));
        }
    }
}

TEST_CASE("why finer by one class is not always sooner", "[identity]") {
    // Half of the coarse fragments leave past the target at once; the class next to it only creeps.
    const PopulationBalance pb(model({400, 100, 90}, 1.0, 1.0, {1.0, 1.0, 5.8}));
    const std::vector<double> coarse{1, 0, 0}, next_to_target{0, 1, 0};
    CHECK(time_to_residue(pb, coarse, 2, 0.01) < time_to_residue(pb, next_to_target, 2, 0.01));
}

TEST_CASE("time has no unit of its own", "[identity]") {
    const std::vector<double> feed{.5, .3, .1, .1};
    auto slow = feed, fast = feed;
    PopulationBalance(model({250, 150, 75, 45}, 0.01, 0.8, {})).grind(slow, minutes(100));
    PopulationBalance(model({250, 150, 75, 45}, 1.0, 0.8, {})).grind(fast, minutes(1));
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(slow[i] == Approx(fast[i]).epsilon(1e-12));
    auto none = feed;
    PopulationBalance(model({250, 150, 75, 45}, 0.01, 0.8, {})).grind(none, minutes(0));
    CHECK(none == feed);
    PopulationBalance(model({250, 150, 75, 45}, 0.0, 0.8, {})).grind(none, minutes(100));
    CHECK(none == feed);
}

TEST_CASE("the breakage function runs from 0 to 1", "[unit]") {
    const BreakageFunction b{0.55, 1.25, 5.8};
    CHECK(cumulative_breakage(b, 0) == 0.0);
    CHECK(cumulative_breakage(b, 1) == 1.0);
    CHECK(cumulative_breakage(b, 2) == 1.0);
    CHECK(cumulative_breakage(b, 0.5) ==
          Approx(0.55 * std::pow(.5, 1.25) + 0.45 * std::pow(.5, 5.8)).epsilon(1e-14));
    CHECK(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(75)) == 2);
}

TEST_CASE("grinding that cannot be is refused", "[errors]") {
    CHECK_THROWS_AS(PopulationBalance(model({250}, 1, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({150, 250}, 1, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, -1, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 9, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {2, 1, 1})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {1, 0, 1})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 0}, 1, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 250}, 1, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, HUGE_VAL, 1, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, -.001, {})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 5.001, {})), DomainError);
    CHECK_NOTHROW(PopulationBalance(model({250, 150}, 0, 0, {0, 1, 1})));
    CHECK_NOTHROW(PopulationBalance(model({250, 150}, 1, 5, {1, 1, 1})));
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {-.001, 1, 1})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {1.001, 1, 1})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {1, HUGE_VAL, 1})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {.5, 1, 0})), DomainError);
    CHECK_THROWS_AS(PopulationBalance(model({250, 150}, 1, 1, {.5, 1, HUGE_VAL})), DomainError);
    const PopulationBalance pb(model({250, 150, 75}, 1, 1, {}));
    std::vector<double> two{1, 1}, negative{1, -1, 1}, good{1, 1, 1};
    CHECK_THROWS_AS(pb.grind(two, minutes(1)), DomainError);
    CHECK_THROWS_AS(pb.grind(negative, minutes(1)), DomainError);
    CHECK_THROWS_AS(pb.grind(good, minutes(-1)), DomainError);
    std::vector<double> endless_mass{1, HUGE_VAL, 1}, nothing{0, 0, 0}, same{1, 1, 1};
    CHECK_THROWS_AS(pb.grind(endless_mass, minutes(1)), DomainError);
    CHECK_THROWS_AS(pb.grind(good, seconds(HUGE_VAL)), DomainError);
    CHECK_NOTHROW(pb.grind(nothing, minutes(1)));
    CHECK(nothing == std::vector<double>{0, 0, 0});
    pb.grind(same, minutes(0));
    CHECK(same == std::vector<double>{1, 1, 1});
    // A rate that a search may try: more breakages than a double can count ended in no answer at all.
    const PopulationBalance endless(model({250, 150}, 1e308, 1, {1, 1, 1}));
    CHECK_NOTHROW(endless.grind(two, minutes(1)));
    CHECK_THROWS_AS(endless.grind(two, minutes(1e6)), DomainError);
    CHECK_THROWS_AS(endless.grind_unhindered(two, minutes(1e6)), DomainError);
    CHECK_THROWS_AS(residue_above(good, 0), DomainError);
    CHECK_THROWS_AS(residue_above(good, 3), DomainError);
    CHECK_THROWS_AS(time_to_residue(pb, good, 2, 0.0), DomainError);
    CHECK_THROWS_AS(time_to_residue(pb, good, 2, 1.0), DomainError);
    CHECK_THROWS_AS(time_to_residue(pb, good, 2, 1e-9, minutes(2)), DomainError);
    // A target finer than the model can see.
    CHECK_THROWS_AS(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(45)), DomainError);
    CHECK_THROWS_WITH(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(45)), Catch::Contains("150 um, 75 um"));
    CHECK(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(150)) == 1);
    CHECK(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(75)) == 2);
    CHECK_THROWS_AS(class_limit(model({250, 150, 75}, 1, 1, {}), micrometres(250)), DomainError); // all of it lies below
}

TEST_CASE("cushioned grinding solves its own equation", "[identity]") {
    // A Runge-Kutta run of (1 + c F) dw/dt = A w in small steps, apart from the clock that the code bends.
    for (const double c : {-0.3, 0.5, 3.0}) {
        BreakageModel model;
        for (const double um : {425., 250., 150., 106., 75., 45.})
            model.class_sizes.push_back(micrometres(um));
        model.selection = {per_minute(0.1), 0.8};
        model.cushioning = c;
        const PopulationBalance balance(model);
        const std::vector<double> feed{.45, .22, .12, .09, .07, .05};
        auto w = feed;
        const auto rate = [&](const std::vector<double>& at) {
            std::vector<double> out(6);
            balance.flow(at, out);
            for (double& x : out)
                x /= 1 + c * at.back();
            return out;
        };
        const auto moved = [](std::vector<double> from, const std::vector<double>& by, double h) {
            for (std::size_t i = 0; i < from.size(); ++i)
                from[i] += h * by[i];
            return from;
        };
        const double h = 3.0; // seconds
        for (int step = 0; step < 800; ++step) {
            const auto k1 = rate(w), k2 = rate(moved(w, k1, h / 2)), k3 = rate(moved(w, k2, h / 2)),
                       k4 = rate(moved(w, k3, h));
            for (std::size_t i = 0; i < 6; ++i)
                w[i] += h / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
        }
        auto ours = feed;
        balance.grind(ours, minutes(40));
        for (std::size_t i = 0; i < 6; ++i)
            CHECK(ours[i] == Approx(w[i]).margin(1e-8));
        // The time to a residue is the inverse, and twice the mass grinds alike.
        const Time time = time_to_residue(balance, feed, 4, 0.10);
        auto then = feed;
        for (double& x : then)
            x *= 2;
        balance.grind(then, time);
        CHECK(residue_above(then, 4) == Approx(0.20).epsilon(1e-9));
    }
    BreakageModel bad;
    bad.class_sizes = {micrometres(90), micrometres(45)};
    bad.cushioning = -0.5;
    CHECK_THROWS_AS(PopulationBalance(bad), DomainError);
}

TEST_CASE("a refused grinding tells the figure as it was meant", "[errors]") {
    const auto of = [](const BreakageModel& m) { return told([&] { PopulationBalance{m}; }); };
    CHECK(of(model({250}, 1, 1, {})) == "size classes: 1");
    CHECK(of(model({250, -150}, 1, 1, {})) == "class size: -150 um");
    CHECK(of(model({250, 0}, 1, 1, {})) == "class size: 0 um");
    CHECK(of(model({0, 150}, 1, 1, {})) == "class size: 0 um");
    CHECK(of(model({250, 250}, 1, 1, {})).rfind("class size 2: 250", 0) == 0);
    CHECK(of(model({250, 150}, -2, 1, {})) == "selection rate: -2 per minute");
    CHECK(of(model({250, 150}, HUGE_VAL, 1, {})).rfind("selection rate", 0) == 0);
    CHECK(of(model({250, 150}, 1, -0.1, {})) == "selection exponent alpha: -0.1");
    CHECK(of(model({250, 150}, 1, 5.1, {})) == "selection exponent alpha: 5.1");
    CHECK(of(model({250, 150}, 1, 5, {1, 1, 1})) == "taken");
    CHECK(of(model({250, 150}, 1, 0, {0, 1, 1})) == "taken");
    CHECK(of(model({250, 150}, 0, 1, {1, 5e-4, 5e-4})) == "taken");
    CHECK(of(model({250, 150}, 1, 1, {1.1, 1, 1})) == "breakage share phi: 1.1");
    CHECK(of(model({250, 150}, 1, 1, {1, 1, 0})) == "breakage exponent beta: 0");
    CHECK(of(model({250, 150}, 1, 1, {1, HUGE_VAL, 1})).rfind("breakage exponent gamma", 0) == 0);
    auto slowing = model({250, 150}, 1, 1, {});
    slowing.cushioning = -0.41;
    CHECK(of(slowing) == "cushioning: -0.41");
    slowing.cushioning = -0.4;
    CHECK(of(slowing) == "taken");
    const PopulationBalance pb(model({250, 150, 75}, 1, 1, {}));
    const std::vector<double> good{1, 1, 1}, two{1, 1}, negative{1, -1, 1};
    CHECK(told([&] { auto w = two; pb.grind(w, minutes(1)); }) == "class masses: 2");
    CHECK(told([&] { auto w = negative; pb.grind(w, minutes(1)); }) == "mass of a class: -1");
    CHECK(told([&] { auto w = good; pb.grind(w, minutes(-2)); }) == "grinding time: -2 min");
    CHECK(told([&] { residue_above(good, 0); }) == "class limit: 0");
    CHECK(told([&] { residue_above(good, 3); }) == "class limit: 3");
    CHECK(told([&] { time_to_residue(pb, good, 2, 1.0); }) == "target residue: 100 %");
    CHECK(told([&] { time_to_residue(pb, good, 2, -0.5); }) == "target residue: -50 %");
    CHECK(told([&] { time_to_residue(pb, good, 2, 1e-30, hours(1)); }) == "time to the target residue: over 1 h");
    // What is fine enough already wants no grinding, at the target itself too.
    CHECK(in_seconds(time_to_residue(pb, std::vector<double>{1, 0, 3}, 2, 0.25)) == Approx(0.0).margin(1e-300));
    CHECK(in_seconds(time_to_residue(pb, std::vector<double>{1, 0, 3}, 2, 0.2499)) > 0.0);
    const auto three = model({250, 150, 75}, 1, 1, {});
    CHECK(class_limit(three, micrometres(150 * (1 + 9e-7))) == 1); // the same screen, in another rounding
    CHECK_THROWS_AS(class_limit(three, micrometres(150 * (1 + 2e-6))), DomainError);
    CHECK(class_limit(three, micrometres(75)) == 2);
}
