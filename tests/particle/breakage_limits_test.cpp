// The population balance where its figures are small or large: little mass, short times, rare breakage, many classes.

#include "lakebound/particle/breakage.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <vector>

#include "support/told.hpp"

using namespace lakebound;

namespace {

BreakageModel two_classes(double per_second, double cushioning = 0.0) {
    BreakageModel model{{micrometres(150), micrometres(75)}, {BreakageRate::from_value(per_second), 0.8}, {}};
    model.cushioning = cushioning;
    return model;
}

BreakageModel classes_of(std::size_t n, double per_min) {
    BreakageModel model{{}, {per_minute(per_min), 0.7}, {0.6, 0.9, 5.0}};
    for (std::size_t i = 0; i < n; ++i)
        model.class_sizes.push_back(micrometres(1000 * std::pow(2.0, -0.5 * static_cast<double>(i))));
    return model;
}

} // namespace

TEST_CASE("a little powder, a short time and a slow mortar grind as much, a long time and a fast one do", "[reference]") {
    // Two classes: R = exp(-a t), whatever the mass.
    struct Row {
        double mass, per_second, seconds;
    };
    for (const Row& row : {Row{1.0, 0.7, 1.0}, Row{1e-6, 0.7, 1.0}, Row{1.0, 1000.0, 7e-4}, Row{1.0, 1e-4, 7000.0}, Row{1.0, 1e-4, 1.0},
                           Row{1e-5, 1e3, 1e-7}, Row{1e6, 0.02, 30.0}, Row{1.0, 1.0, 130.0},
                           Row{1.0, 1.0, 650.0}}) {
        std::vector<double> w{row.mass, 0.0};
        PopulationBalance(two_classes(row.per_second)).grind(w, seconds(row.seconds));
        const double broken = -std::expm1(-row.per_second * row.seconds);
        CHECK(w[0] == Approx(row.mass * std::exp(-row.per_second * row.seconds)).epsilon(1e-11));
        CHECK(w[1] == Approx(row.mass * broken).epsilon(1e-9));
    }
}

TEST_CASE("cushioned grinding follows its own clock at every scale of mass, rate and time", "[reference]") {
    // Two classes from R = 1: (1 + c F) dR/dt = -a R, F = 1 - R, integrates to (1 + c) ln R - c (R - 1) = -a t.
    struct Row {
        double mass, per_second, seconds, c;
    };
    for (const Row& row : {Row{1.0, 0.5, 1.0, 2.0}, Row{1.0, 0.5, 1.0, -0.4}, Row{1e-6, 0.5, 1.0, 2.0}, Row{1e-6, 0.5, 1.0, -0.3},
                           Row{1.0, 1e4, 5e-5, 2.0}, Row{1.0, 1e4, 3e-4, 5.0}, Row{1.0, 1e-4, 9000.0, 2.0}, Row{1.0, 1e-4, 30000.0, -0.4},
                           Row{3.0, 1.0, 6.0, 1.0}}) {
        std::vector<double> w{row.mass, 0.0};
        const PopulationBalance balance(two_classes(row.per_second, row.c));
        balance.grind(w, seconds(row.seconds));
        const double R = w[0] / row.mass;
        CHECK((1.0 + row.c) * std::log(R) - row.c * (R - 1.0) == Approx(-row.per_second * row.seconds).epsilon(1e-10));
        CHECK(w[0] + w[1] == Approx(row.mass).epsilon(1e-12));
        // The moment at which that is left is the same, and the clock of the whole way too.
        const std::vector<double> feed{row.mass, 0.0};
        CHECK(in_seconds(time_to_residue(balance, feed, 1, R)) == Approx(row.seconds).epsilon(1e-9));
        CHECK(in_seconds(balance.clock_time(feed, w, seconds(-std::log(R) / row.per_second))) == Approx(row.seconds).epsilon(1e-9));
    }
    // No time backward, cushioned or not; the figure is told in minutes.
    for (const double c : {-0.4, 0.0, 2.0}) {
        std::vector<double> w{1.0, 0.0};
        CHECK(told_in_full([&] { PopulationBalance(two_classes(0.5, c)).grind(w, minutes(-2)); }) == "grinding time: -2 min | 0 or more | ");
    }
}

TEST_CASE("the table of fragments, by hand, down to shares of a millionth", "[reference]") {
    for (const BreakageFunction& b : {BreakageFunction{0.0, 0.9, 5.8}, BreakageFunction{5e-4, 0.5, 3.0}, BreakageFunction{0.4, 1.2, 6.0},
                                      BreakageFunction{0.9995, 0.5, 3.0}, BreakageFunction{}}) {
        const double um[] = {425, 150, 75, 20, 19};
        BreakageModel model{{}, {per_minute(0.3), 0.8}, b};
        for (const double x : um)
            model.class_sizes.push_back(micrometres(x));
        const PopulationBalance balance(model);
        const auto finer = [&](double r) { return b.phi * std::pow(r, b.gamma) + (1.0 - b.phi) * std::pow(r, b.beta); };
        for (std::size_t j = 0; j < 4; ++j) {
            for (std::size_t i = 0; i <= j; ++i)
                CHECK(balance.fragments(i, j) == 0.0); // none are as coarse as the grain
            for (std::size_t i = j + 1; i < 5; ++i)
                CHECK(balance.fragments(i, j) ==
                      Approx(finer(um[i] / um[j + 1]) - (i < 4 ? finer(um[i + 1] / um[j + 1]) : 0.0)).epsilon(1e-9).margin(1e-15));
            CHECK(balance.selection_rate(j) == Approx(0.3 / 60.0 * std::pow(um[j] / 425, 0.8)).epsilon(1e-12));
        }
        for (std::size_t i = 0; i < 5; ++i)
            CHECK(balance.fragments(i, 4) == 0.0); // what is through the finest screen is not told apart
        CHECK(balance.selection_rate(4) == 0.0);
        CHECK(balance.classes() == 5);
    }
}

TEST_CASE("31 to 34 classes are ground as any number is", "[reference]") {
    // The flow by small steps of Runge and Kutta, and the clock by the integral of the fines along them.
    for (const std::size_t n : {31u, 32u, 33u, 34u}) {
        auto model = classes_of(n, 0.5);
        model.cushioning = 0.7;
        const PopulationBalance balance(model);
        std::vector<double> w(n, 1.0 / static_cast<double>(n));
        const auto feed = w;
        const auto moved = [&](const std::vector<double>& at, const std::vector<double>& by, double h) {
            std::vector<double> out(n);
            for (std::size_t i = 0; i < n; ++i)
                out[i] = at[i] + h * by[i];
            return out;
        };
        const auto flow = [&](const std::vector<double>& at) {
            std::vector<double> out(n);
            balance.flow(at, out);
            return out;
        };
        const double h = 2.0;
        double fines = 0.0; // Simpson's rule over each two steps
        for (int step = 0; step < 100; ++step) {
            fines += w.back() * h / 3.0 * (step == 0 ? 1.0 : step % 2 ? 4.0 : 2.0);
            const auto a = flow(w), b = flow(moved(w, a, h / 2)), c = flow(moved(w, b, h / 2)), d = flow(moved(w, c, h));
            for (std::size_t i = 0; i < n; ++i)
                w[i] += h / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
        }
        fines += w.back() * h / 3.0;
        auto ours = feed;
        balance.grind_unhindered(ours, seconds(200));
        for (std::size_t i = 0; i < n; ++i)
            CHECK(ours[i] == Approx(w[i]).epsilon(1e-8));
        CHECK(balance.fines_over_time(feed, ours, seconds(200)) == Approx(fines).epsilon(1e-8));
        CHECK(in_seconds(balance.clock_time(feed, ours, seconds(200))) == Approx(200 + 0.7 * fines).epsilon(1e-8));
    }
}

TEST_CASE("the moment of a residue is met to the last digits, near and far", "[identity]") {
    const PopulationBalance balance(classes_of(9, 0.2));
    const std::vector<double> feed{4, 3, 2, 2, 2, 1, 1, 1, 1};
    for (double target = 0.8; target > 1e-7; target *= 0.83) {
        const Time time = time_to_residue(balance, feed, 6, target);
        auto w = feed;
        balance.grind_unhindered(w, time);
        if (in_seconds(time) > 0.0) CHECK(std::abs(std::log(residue_above(w, 6) / (17.0 * target))) < 1e-11);
    }
    // Next to nothing left, and next to nothing done: R = exp(-a t).
    const std::vector<double> coarse{1.0, 0.0};
    CHECK(in_seconds(time_to_residue(PopulationBalance(two_classes(0.5)), coarse, 1, 1e-250)) == Approx(500.0 * std::log(10.0)).epsilon(1e-9));
    CHECK(in_seconds(time_to_residue(PopulationBalance(two_classes(0.5)), coarse, 1, 5e-4)) == Approx(-2.0 * std::log(5e-4)).epsilon(1e-9));
    CHECK(in_seconds(time_to_residue(PopulationBalance(two_classes(1000)), coarse, 1, 0.7)) == Approx(-1e-3 * std::log(0.7)).epsilon(1e-9));
}

TEST_CASE("a residue is reached within the longest time allowed or not at all", "[errors]") {
    const std::vector<double> coarse{1.0, 0.0};
    for (const double per_second : {0.5, 0.02, 0.001}) // a few seconds, minutes, or an hour
        for (const double c : {-0.4, -0.2, 0.0, 1e-4, 3.0}) {
            const PopulationBalance balance(two_classes(per_second, c));
            const double R = 0.02, needed = (c * (R - 1.0) - (1.0 + c) * std::log(R)) / per_second;
            CHECK(in_seconds(time_to_residue(balance, coarse, 1, R, seconds(needed * (1.0 + 1e-6)))) == Approx(needed).epsilon(1e-9));
            CHECK(told([&] { (void)time_to_residue(balance, coarse, 1, R, seconds(needed * (1.0 - 1e-6))); }) ==
                  "time to the target residue: over " + std::to_string(std::lround(needed / 3600.0)) + " h");
        }
    // Fines so few that they hardly hinder: the time allowed is nearly that of first order.
    BreakageModel rare{{micrometres(150), micrometres(75), micrometres(1)}, {per_minute(1), 0.8}, {}};
    rare.cushioning = 0.01;
    const std::vector<double> feed{1.0, 0.0, 0.0};
    const PopulationBalance balance(rare);
    const Time needed = time_to_residue(balance, feed, 1, 0.9);
    CHECK(in_seconds(needed) == Approx(-60.0 * std::log(0.9)).epsilon(1e-4));
    CHECK(in_seconds(time_to_residue(balance, feed, 1, 0.9, needed * (1.0 + 1e-6))) == Approx(in_seconds(needed)).epsilon(1e-9));
    CHECK(told_in_full([&] { (void)time_to_residue(balance, feed, 1, 0.9, needed * 0.999); }) ==
          "time to the target residue: over 0 h | a target that this grinding reaches | use a finer mortar, or levigate");
}

TEST_CASE("a balance is refused in whole sentences", "[errors]") {
    const auto of = [](BreakageModel model) { return told_in_full([&] { PopulationBalance balance(model); }); };
    const auto model = [](std::vector<double> um) {
        BreakageModel out;
        for (const double x : um)
            out.class_sizes.push_back(micrometres(x));
        return out;
    };
    CHECK(of(model({250})) == "size classes: 1 | two at least: above and below one screen | ");
    CHECK(of(model({250, 150, 150.0001})) == "class size 3: 150 um | finer than the class before it, 150 um | ");
    CHECK(of(model({4000, 2000})) == "taken"); // millimetres
    CHECK(of(model({0.002, 0.001})) == "taken");
    const PopulationBalance balance(model({250, 150, 75}));
    std::vector<double> two{1, 1};
    CHECK(told_in_full([&] { balance.grind(two, minutes(1)); }) == "class masses: 2 | 3, one per class | ");
    CHECK(told_in_full([&] { (void)residue_above(two, 2); }) == "class limit: 2 | 1 to the number of classes less one | ");
    CHECK(told_in_full([&] { (void)class_limit(model({250, 150, 75}), micrometres(45)); }) ==
          "target screen: 45 um | a screen of the sieve tests: 150 um, 75 um | sieve both tests over the target screen too");
    CHECK(class_limit(model({250, 150, 75}), micrometres(75 * (1 - 9e-7))) == 2);
    CHECK(told([&] { (void)class_limit(model({250, 150, 75}), micrometres(75 * (1 - 2e-6))); }) != "taken");
}

TEST_CASE("a mortar of which nothing is said", "[unit]") {
    // austin-1984 (values from memory), as the header has them.
    CHECK(BreakageFunction{}.phi == 1.0);
    CHECK(BreakageFunction{}.gamma == 0.9);
    CHECK(BreakageFunction{}.beta == 5.8);
    CHECK(SelectionFunction{}.exponent == 1.0);
    CHECK(BreakageModel{}.cushioning == 0.0);
    CHECK(per_minute(3.0).value() == Approx(0.05).epsilon(1e-15));
    CHECK(in_per_minute(BreakageRate::from_value(0.05)) == Approx(3.0).epsilon(1e-15));
    // A thousand hours are allowed unless told otherwise: by hand 1 % is reached in -ln(0.01) / a.
    const std::vector<double> coarse{1.0, 0.0};
    const auto to_a_hundredth = [&](double hours_needed) {
        return told([&] { (void)time_to_residue(PopulationBalance(two_classes(std::log(100.0) / 3600.0 / hours_needed)), coarse, 1, 0.01); });
    };
    CHECK(to_a_hundredth(999.9) == "taken");
    CHECK(to_a_hundredth(1000.1) == "time to the target residue: over 1000 h");
}
