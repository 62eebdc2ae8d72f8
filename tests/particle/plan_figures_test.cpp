// What a plan of grinding or pouring off rests on, figure by figure, against sums written out here.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/particle/grind_answer.hpp"
#include "lakebound/particle/levigation.hpp"
#include "lakebound/particle/settling.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "lakebound/particle/zone_settling.hpp"
#include "support/grinding_tests.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
Slurry thin_slurry(double solids = 0.0) {
    return {grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)), VolumeFraction::of(solids)};
}
} // namespace

TEST_CASE("what is poured of a class is the mean over its grains", "[reference]") {
    // Simpson's rule with 4 000 steps over ln d, up to the cut, of 1 - (1 - once)^n; the class goes on above the cut.
    const double H = 0.1, h = 0.08;
    for (const double solids : {0.0, 0.02})
        for (const unsigned n : {1u, 4u}) {
            const Slurry slurry = thin_slurry(solids);
            const PourOff how{metres(H), metres(h), settling_time(micrometres(40), metres(h), slurry.grain, slurry.fluid, slurry.solids), n};
            const std::vector<SizeClass> classes{{micrometres(5), micrometres(25), MassFraction::of(0.3)},
                                                 {micrometres(25), micrometres(60), MassFraction::of(0.5)},
                                                 {micrometres(60), micrometres(90), MassFraction::of(0.2)}};
            const auto result = levigate(classes, how, slurry);
            CHECK(in_micrometres(result.cut) == Approx(40).epsilon(1e-9));
            double all = 0.0;
            for (std::size_t c = 0; c < 3; ++c) {
                const double low = in_micrometres(classes[c].lower), high = in_micrometres(classes[c].upper), end = std::min(high, 40.0);
                double sum = 0.0;
                constexpr int steps = 4000;
                for (int i = 0; end > low && i <= steps; ++i) {
                    const double d = low * std::pow(end / low, double(i) / steps);
                    const double v = in_metres_per_second(
                        hindered_velocity(terminal_velocity(micrometres(d), slurry.grain, slurry.fluid), slurry.solids));
                    const double once = std::max(0.0, (h - v * in_seconds(how.wait)) / H);
                    sum += (i == 0 || i == steps ? 1.0 : i % 2 ? 4.0 : 2.0) * (1.0 - std::pow(1.0 - once, n));
                }
                const double mean = end > low ? sum / (3.0 * steps) * std::log(end / low) / std::log(high / low) : 0.0;
                const double share = classes[c].share.value();
                CHECK(result.classes[c].poured == Approx(share * mean).epsilon(2e-4).margin(1e-12)); // 64 slices
                CHECK(result.classes[c].poured + result.classes[c].left == Approx(share).epsilon(1e-12));
                all += result.classes[c].poured;
            }
            CHECK(result.poured == Approx(all).epsilon(1e-12));
            CHECK(result.left == Approx(1.0 - all).epsilon(1e-12));
        }
}

TEST_CASE("the clock of pouring off adds up, from the first second", "[reference]") {
    const Slurry slurry = thin_slurry();
    const auto plan = plan_levigation(micrometres(30), millimetres(100), millimetres(80), 3, slurry, {minutes(3), minutes(1)});
    const double wait = in_minutes(settling_time(micrometres(30), millimetres(80), slurry.grain, slurry.fluid, slurry.solids));
    REQUIRE(plan.steps.size() == 3);
    CHECK(in_minutes(plan.how.wait) == Approx(wait).epsilon(1e-12));
    for (unsigned i = 0; i < 3; ++i) {
        CHECK(plan.steps[i].number == i + 1);
        CHECK(in_minutes(plan.steps[i].stirred) == Approx(3.0 + i * (4.0 + wait)).epsilon(1e-12));
        CHECK(in_minutes(plan.steps[i].pour) == Approx(3.0 + wait + i * (4.0 + wait)).epsilon(1e-12));
    }
    CHECK(in_minutes(plan.elapsed) == Approx(3.0 * (4.0 + wait)).epsilon(1e-12));
    CHECK(in_minutes(plan.hands) == Approx(12.0).epsilon(1e-12));
    CHECK(in_seconds(plan_levigation(micrometres(30), millimetres(100), millimetres(80), 1, slurry, {seconds(0), seconds(0)})
                         .steps[0].stirred) == 0.0);
}

TEST_CASE("a grain that falls as its solid does is solid, at any size", "[identity]") {
    const Fluid water = water_at(degrees_celsius(20));
    for (const double density : {1.2, 1.88, 2.4, 4.0})
        for (const double um : {1.0, 5.0, 20.0, 45.0, 100.0}) {
            const auto solid = grams_per_cubic_centimetre(density);
            const Time time = settling_time(micrometres(um), millimetres(80), solid, water, VolumeFraction::of(0));
            MassDensity found;
            CHECK(told([&] { found = effective_density(micrometres(um), millimetres(80), time * (1.0 + 1e-12), water, solid); }) == "taken");
            CHECK(in_grams_per_cubic_centimetre(found) == Approx(density).epsilon(1e-8));
            CHECK(told([&] { (void)effective_density(micrometres(um), millimetres(80), time * 0.98, water, solid); })
                      .find("effective density of the grains: ") == 0);
        }
}

TEST_CASE("just above its size a Schuhmann curve passes all", "[unit]") {
    SizeFit fit;
    fit.model = SizeModel::gates_gaudin_schuhmann;
    fit.size = micrometres(100), fit.slope = 1.0, fit.finest = micrometres(20), fit.coarsest = micrometres(200);
    for (const double um : {100.0, 100.02, 100.09, 150.0})
        CHECK(predicted_passing(fit, micrometres(um)).passing.value() == 1.0);
    CHECK(predicted_passing(fit, micrometres(99.0)).passing.value() == Approx(0.99));
}

TEST_CASE("what heights of a blanket leave open, by drawing them here", "[reference]") {
    // The same law of chance by another stream: 20 000 sets; those that have not begun to slow, or would end below the
    // bottom, end at 0 and are never ready. Margins: three of the 2 000 sets' own deviations of a rank, about.
    for (const auto& [third, u] : {std::pair{55.0, 1.0}, std::pair{52.0, 2.5}, std::pair{50.5, 1.5}}) {
        const InterfaceHeights heights{millimetres(100), millimetres(70), millimetres(third), hours(2)};
        const auto told_interval = zone_interval(heights, millimetres(u), Share::of(0.05), 0.80);
        RandomEngine engine(77);
        std::vector<double> ends, times;
        constexpr int sets = 20000;
        for (int i = 0; i < sets; ++i) {
            const double a = 100 + u * standard_normal(engine), b = 70 + u * standard_normal(engine), c = third + u * standard_normal(engine);
            const double end = (a * c - b * b) / (a + c - 2 * b); // of an exponential through three even readings
            if (!(a - b > b - c && b > c && end > 0.0)) {
                ends.push_back(0.0), times.push_back(1e9);
                continue;
            }
            ends.push_back(end);
            const double tau = 2.0 / std::log((a - b) / (b - c)), ratio = (a - end) / (0.05 * end);
            times.push_back(ratio > 1.0 ? tau * std::log(ratio) : 0.0);
        }
        std::sort(ends.begin(), ends.end()), std::sort(times.begin(), times.end());
        const auto at = [](const std::vector<double>& x, double p) { return x[static_cast<std::size_t>(p * (sets - 1) + 0.5)]; };
        const auto between = [&](double got, const std::vector<double>& x, double p) {
            CHECK(got >= at(x, p - 0.03) - 1e-9);
            CHECK(got <= at(x, p + 0.03) + 1e-9);
        };
        between(1e3 * told_interval.end_height_m.low, ends, 0.1);
        between(1e3 * told_interval.end_height_m.high, ends, 0.9);
        between(in_hours(told_interval.decant_low), times, 0.1);
        between(told_interval.decant_high ? in_hours(*told_interval.decant_high) : 1e9, times, 0.9);
        const auto never = static_cast<double>(std::count(times.begin(), times.end(), 1e9)) / sets;
        CHECK(told_interval.still_falling == Approx(never).margin(0.035));
    }
}

TEST_CASE("a mortar of one screen grinds its two classes by the law alone", "[unit]") {
    FirstOrderLaw law;
    law.log_initial_residue = std::log(0.8);
    law.rate = per_minute(0.05);
    const auto load = one_screen_load(law, minutes(10), micrometres(75), 0.5);
    REQUIRE(load.model.class_sizes.size() == 2);
    CHECK(in_micrometres(load.model.class_sizes[0]) == Approx(150.0));
    CHECK(in_micrometres(load.model.class_sizes[1]) == Approx(75.0));
    CHECK(load.model.selection.exponent == 0.0);
    CHECK(in_per_minute(load.model.selection.top) == Approx(0.05));
    CHECK(load.feed[0] == Approx(0.8 * std::exp(-0.5)).epsilon(1e-14));
    CHECK(load.feed[0] + load.feed[1] == Approx(1.0).epsilon(1e-15));
    CHECK(load.limit == 1);
    CHECK(load.load_exponent == 0.5);
    CHECK(told([] { (void)LoadExponent::of(2.01); }) == "gain of an emptier mortar: 2.01");
    CHECK(told([] { (void)LoadExponent::of(-0.01); }) == "gain of an emptier mortar: -0.01");
    CHECK(LoadExponent::of(0.0).value() == 0.0);
    CHECK(LoadExponent::of(2.0).value() == 2.0);
    CHECK(told([&] { (void)sieving(load, ScreeningAdvice::dry_sieving, Share::of(1e-4), minutes(1), minutes(0), Share::of(0)); }) == "taken");
    CHECK(told([&] { (void)sieving(load, ScreeningAdvice::dry_sieving, Share::of(0.0), minutes(1), minutes(0), Share::of(0)); }) ==
          "sieving efficiency: 0 %");
    const auto wet = sieving(load, ScreeningAdvice::wet_screening, Share::of(0.95), minutes(10), hours(12), Share::of(0.02));
    CHECK(wet.carried == std::vector<double>{0.0, 0.95});
    CHECK(in_minutes(wet.hands) == Approx(10.0));
    CHECK(in_minutes(wet.elapsed) == Approx(730.0));
    CHECK(wet.loss.value() == 0.02);
}

TEST_CASE("a grinding answer of three tests, figure by figure", "[reference]") {
    // A charge that loses a little each time; fine already, so that no rounds are planned.
    auto first = early(), second = late(), third = slow();
    first.test.charge = grams(20.0), second.test.charge = grams(20.0), third.test.charge = grams(19.72); // 1.25, 1.40 and 0 % lost
    auto asked = grind_question({third, first, second}, 75.0, 0.60);
    const auto answer = planned(asked);
    CHECK(answer.model == GrindModel::population_balance);
    CHECK(in_minutes(answer.now) == Approx(30.0));
    CHECK(in_grams(answer.charge) == Approx(19.72));
    CHECK(answer.fine_already);
    CHECK(answer.ways.empty());
    CHECK(answer.residue_now == Approx((1.9 + 3.27 + 2.97 + 2.82) / 19.72).epsilon(1e-12));
    CHECK(answer.loss.by == GivenBy::sieve_tests); // of those that lost anything
    CHECK(answer.loss.value.value() == Approx((0.25 / 20.0 + 0.28 / 20.0) / 2.0).epsilon(1e-9));
    REQUIRE(answer.rows.size() == 3);
    const double over[] = {5.56 + 4.51 + 3.09 + 2.27, 2.26 + 3.27 + 2.97 + 2.82, 1.9 + 3.27 + 2.97 + 2.82}, whole[] = {19.75, 19.72, 19.72};
    for (std::size_t i = 0; i < 3; ++i) {
        const double R = over[i] / whole[i];
        CHECK(answer.rows[i].residue.share.value() == Approx(R).epsilon(1e-12));
        CHECK(answer.rows[i].residue.repeatability == Approx(0.02 * std::sqrt(R * (1 - R))).epsilon(1e-9));
        CHECK(answer.rows[i].d50);
    }
    // The mortar of these tests hardly went on after the second: the third is told, and against what the first two foresaw.
    REQUIRE(answer.fit);
    CHECK(answer.slowing);
    const auto rate = parameter_interval(*answer.fit, BreakageParameter::log_rate, 0.90);
    CHECK(answer.rate_per_minute.value().low == Approx(60.0 * std::exp(rate.low)).epsilon(1e-12));
    CHECK(answer.rate_per_minute.value().high == Approx(60.0 * std::exp(rate.high)).epsilon(1e-12));
    const auto exponent = parameter_interval(*answer.fit, BreakageParameter::log_exponent, 0.90);
    CHECK(answer.selection_exponent.value().low == Approx(std::exp(exponent.low)).epsilon(1e-12));
    const auto gamma = parameter_interval(*answer.fit, BreakageParameter::log_gamma, 0.90);
    CHECK(answer.breakage_exponent.value().high == Approx(std::exp(gamma.high)).epsilon(1e-12));
    REQUIRE(answer.later.size() == 1);
    CHECK(in_minutes(answer.later[0].time) == Approx(30.0));
    CHECK(answer.later[0].observed == Approx(answer.residue_now).epsilon(1e-12));
    CHECK(answer.later[0].predicted < answer.later[0].observed);
    CHECK(answer.later[0].slowing == (answer.later[0].deviations > 2.0));
    // The forecast: the tests' times, then half as long again, twice, thrice and four times the last; each row adds up.
    REQUIRE(answer.screens.size() == 5);
    CHECK(in_micrometres(answer.screens.front()) == Approx(250.0));
    CHECK(in_micrometres(answer.screens.back()) == Approx(45.0));
    CHECK(in_micrometres(answer.fit->model.class_sizes.front()) == Approx(500.0)); // twice the coarsest screen
    for (const auto& row : answer.forecast) {
        const auto fractions = predicted_fractions(*answer.fit, row.time);
        double through = 1.0;
        for (std::size_t i = 0; i < 5; ++i)
            CHECK(row.passing[i] == Approx(through -= fractions[i]).epsilon(1e-12));
        CHECK(row.residue == Approx(1.0 - row.passing[3]).epsilon(1e-12)); // 75 um is the fourth
        CHECK(row.interval.low <= row.residue);
        CHECK(row.interval.high >= row.residue);
    }
    CHECK(in_minutes(answer.forecast[0].time) == Approx(5.0));
    CHECK(in_minutes(answer.forecast[2].time) == Approx(30.0));
    CHECK_FALSE(answer.forecast_far);
}

TEST_CASE("a later test by one screen is off by its own doubt and the forecast's", "[reference]") {
    const auto single = [](double min, double over) { return ground_test(min, {{75, over}}, 20.0 - over); };
    for (const double third : {2.0, 3.2, 9.0}) {
        const auto answer = planned(grind_question({single(5, 14.0), single(15, 8.0), single(30, third)}, 75.0, 0.6));
        REQUIRE(answer.later.size() == 1);
        const auto& later = answer.later[0];
        std::vector<ResidueReading> two;
        for (std::size_t i = 0; i < 2; ++i)
            two.push_back({answer.rows[i].time, answer.rows[i].residue.share,
                           std::hypot(answer.rows[i].residue.standard_uncertainty, answer.rows[i].residue.repeatability)});
        const auto foreseen = predicted_residue(fit_cushioned_law(two, usual_cushioning()), minutes(30), 0.90);
        const double R = third / 20.0, own = std::hypot(answer.rows[2].residue.standard_uncertainty, 0.02 * std::sqrt(R * (1 - R)));
        CHECK(later.predicted == Approx(foreseen.residue).epsilon(1e-12));
        CHECK(later.observed == Approx(R).epsilon(1e-12));
        CHECK(later.deviations == Approx((R - foreseen.residue) / std::hypot(foreseen.standard_deviation, own)).epsilon(1e-9));
        CHECK(later.slowing == (later.deviations > 2.0));
        CHECK(later.faster == (later.deviations < -2.0));
    }
}
