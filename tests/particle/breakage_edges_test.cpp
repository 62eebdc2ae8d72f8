// The population balance at its edges: an empty mortar, one that grinds nothing, many classes, too little time.

#include "lakebound/particle/breakage.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

#include "support/told.hpp"

using namespace lakebound;

namespace {

BreakageModel three_classes(double per_min) {
    return {{micrometres(425), micrometres(150), micrometres(75)}, {per_minute(per_min), 0.8}, {1.0, 0.9, 5.8}};
}

/// Each a root of two finer than the one before.
BreakageModel forty_classes() {
    BreakageModel model{{}, {per_minute(0.2), 0.7}, {0.6, 0.9, 5.0}};
    for (int i = 0; i < 40; ++i)
        model.class_sizes.push_back(micrometres(1000 * std::pow(2.0, -0.5 * i)));
    return model;
}

} // namespace

TEST_CASE("an empty mortar stays empty, and one that grinds nothing as it was", "[unit]") {
    for (const double c : {0.0, 1.2}) {
        auto grinds = three_classes(0.1), rests = three_classes(0.0);
        grinds.cushioning = rests.cushioning = c;
        std::vector<double> nothing{0, 0, 0}, all{1, 2, 3}, at_once{1, 2, 3};
        PopulationBalance(grinds).grind(nothing, minutes(10));
        CHECK(nothing == std::vector<double>{0, 0, 0});
        PopulationBalance(rests).grind(all, minutes(10));
        CHECK(all[0] == Approx(1.0).epsilon(1e-15));
        CHECK(all[2] == Approx(3.0).epsilon(1e-15));
        PopulationBalance(grinds).grind(at_once, minutes(0));
        CHECK(at_once[0] == Approx(1.0).epsilon(1e-15));
        CHECK(in_seconds(PopulationBalance(grinds).clock_time(nothing, nothing, minutes(3))) == Approx(180.0));
        CHECK(PopulationBalance(rests).fines_over_time(all, all, seconds(10)) == Approx(30.0)); // 3 of fines for 10 s
    }
}

TEST_CASE("a balance of many classes is one of few, finer cut", "[identity]") {
    // Over 32 classes the working memory lies elsewhere; what is above a size that both have is the same but for the width
    // of the classes, and exactly the same is that two halves make a whole.
    for (const double c : {0.0, 0.8}) {
        auto many = forty_classes();
        many.cushioning = c;
        const PopulationBalance balance(many);
        std::vector<double> whole(40, 0.0), halves(40, 0.0);
        whole[0] = halves[0] = 1.0;
        balance.grind(whole, minutes(12));
        balance.grind(halves, minutes(7));
        balance.grind(halves, minutes(5));
        CHECK(std::accumulate(whole.begin(), whole.end(), 0.0) == Approx(1.0).epsilon(1e-12));
        for (std::size_t i = 0; i < 40; ++i)
            CHECK(halves[i] == Approx(whole[i]).epsilon(1e-9).margin(1e-14));
        if (c > 0.0) continue;
        // By hand: the coarsest class only loses.
        CHECK(whole[0] == Approx(std::exp(-0.2 * 12)).epsilon(1e-12));
    }
}

TEST_CASE("the share of the fragments by one power alone", "[reference]") {
    // By hand: phi 0 leaves r^beta, phi 1 r^gamma: 0.5^2 and 0.5^1.
    CHECK(cumulative_breakage({0.0, 1.0, 2.0}, 0.5) == Approx(0.25).epsilon(1e-14));
    CHECK(cumulative_breakage({1.0, 1.0, 2.0}, 0.5) == Approx(0.5).epsilon(1e-14));
    CHECK(cumulative_breakage({0.5, 1.0, 2.0}, 0.5) == Approx(0.375).epsilon(1e-14));
    CHECK(cumulative_breakage({0.5, 1.0, 2.0}, 0.0) == Approx(0.0).margin(0.0));
    CHECK(cumulative_breakage({0.5, 1.0, 2.0}, 1.0) == Approx(1.0));
}

TEST_CASE("a mortar that cushions too much for the time allowed is told", "[errors]") {
    auto slow = three_classes(0.1);
    slow.cushioning = 50.0;
    const std::vector<double> feed{1.0, 0.0, 0.0};
    const PopulationBalance balance(slow);
    const Time needed = time_to_residue(balance, feed, 2, 0.2);
    CHECK(told([&] { (void)time_to_residue(balance, feed, 2, 0.2, needed * 0.9); }).find("time to the target residue: over ") == 0);
    CHECK(in_seconds(time_to_residue(balance, feed, 2, 0.2, needed * 1.1)) == Approx(in_seconds(needed)).epsilon(1e-9));
    auto endless = three_classes(0.1);
    endless.cushioning = std::numeric_limits<double>::infinity();
    CHECK(told([&] { PopulationBalance b(endless); }).find("cushioning: ") == 0);
}
