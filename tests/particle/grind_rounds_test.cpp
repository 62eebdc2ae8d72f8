// Every figure of a run of grinding in rounds, kept as two heaps by hand, and the limits and words of a plan.

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

#include "lakebound/particle/grind_plan.hpp"
#include "support/whole_refusal.hpp"

using namespace lakebound;

namespace {

FirstOrderLaw law_of(double residue, double rate_per_minute) {
    FirstOrderLaw law;
    law.log_initial_residue = std::log(residue);
    law.rate = per_minute(rate_per_minute);
    return law;
}
GrindLoad load_of(double residue, double rate_per_minute, double exponent = 0.0) {
    return one_screen_load(law_of(residue, rate_per_minute), minutes(0), micrometres(75), exponent);
}
Separation sieve_of(const GrindLoad& load, double efficiency, double hands_min, double drying_min, double loss) {
    return sieving(load, ScreeningAdvice::dry_sieving, Share::of(efficiency), minutes(hands_min), minutes(drying_min), Share::of(loss));
}

} // namespace

TEST_CASE("a run in rounds is the two heaps over and under the screen, kept by hand", "[reference]") {
    // What is over the screen falls by exp(-k t load^-e) in a round, and lies under it then; of both a share is lost at the
    // sieve, and of what is under it a share goes through.
    const double k = 0.2, start = 0.6, cycle = 4.0, hands = 3.0, drying = 20.0;
    for (const double e : {0.0, 9e-4, 0.5, 2.0})
        for (const double loss : {0.0, 0.02})
            for (const bool first : {false, true})
                for (const double target : {0.05, 1e-5}) {
                    const double through = 0.9;
                    const auto load = load_of(start, k, e);
                    const auto run = run_rounds(load, sieve_of(load, through, hands, drying, loss), minutes(cycle), {target, 60, first});
                    INFO(e << " " << loss << " " << first << " " << target);
                    double over = start, under = 1.0 - start, product = 0.0, lost = 0.0;
                    std::size_t i = 0;
                    unsigned ground = 0;
                    for (bool sieve_only = first; sieve_only || over > target; sieve_only = false, ++i) {
                        const double charge = over + under;
                        if (!sieve_only) {
                            const double left = over * std::exp(-k * cycle * std::pow(charge, -e));
                            under += over - left, over = left, ++ground;
                        }
                        const double gone = loss * (over + under), out = through * (1.0 - loss) * under;
                        over *= 1.0 - loss, under = (1.0 - through) * (1.0 - loss) * under;
                        product += out, lost += gone;
                        REQUIRE(i < run.rounds.size());
                        const auto& round = run.rounds[i];
                        CHECK(round.number == i + 1);
                        CHECK(in_minutes(round.grind) == Approx(sieve_only ? 0.0 : cycle).margin(1e-12));
                        CHECK(round.load == Approx(charge).epsilon(1e-10));
                        CHECK(round.through == Approx(out).epsilon(1e-10));
                        CHECK(round.lost == Approx(gone).epsilon(1e-10).margin(1e-15));
                        CHECK(round.residue == Approx(over).epsilon(1e-10));
                    }
                    CHECK(run.rounds.size() == i);
                    CHECK(run.reached);
                    CHECK(run.product[0] == 0.0);
                    CHECK(run.product[1] == Approx(product).epsilon(1e-10));
                    CHECK(run.left[0] == Approx(over).epsilon(1e-10));
                    CHECK(run.left[1] == Approx(under).epsilon(1e-10));
                    CHECK(run.through == Approx(product).epsilon(1e-10));
                    CHECK(run.lost == Approx(lost).epsilon(1e-10).margin(1e-15));
                    CHECK(run.remains == Approx(over + under).epsilon(1e-10));
                    CHECK(run.residue == Approx(over).epsilon(1e-10));
                    CHECK(in_minutes(run.grinding) == Approx(cycle * ground).epsilon(1e-12));
                    CHECK(in_minutes(run.hands) == Approx(cycle * ground + hands * double(i)).epsilon(1e-12));
                    CHECK(in_minutes(run.elapsed) == Approx(cycle * ground + (hands + drying) * double(i)).epsilon(1e-12));
                }
}

TEST_CASE("rounds that run out have not reached the target", "[unit]") {
    const auto load = load_of(0.6, 0.1);
    const auto run = run_rounds(load, sieve_of(load, 1, 1, 0, 0), minutes(5), {0.01, 2, false});
    CHECK(run.rounds.size() == 2);
    CHECK_FALSE(run.reached);
    CHECK(run.residue == Approx(0.6 * std::exp(-1.0)).epsilon(1e-12));
}

TEST_CASE("one long grind by the law, and one sieving", "[reference]") {
    const auto load = load_of(0.6, 0.1, 1.5); // an emptier mortar is not met: it is emptied once
    const auto run = one_long_grind(load, sieve_of(load, 0.9, 3, 20, 0.02), {0.03, 60, true});
    const double grind = std::log(0.6 / 0.03) / 0.1;
    REQUIRE(run.rounds.size() == 1);
    CHECK(in_minutes(run.rounds[0].grind) == Approx(grind).epsilon(1e-8));
    CHECK(run.rounds[0].load == Approx(1.0).epsilon(1e-12));
    CHECK(run.rounds[0].lost == Approx(0.02).epsilon(1e-12));
    CHECK(run.rounds[0].through == Approx(0.9 * 0.98 * 0.97).epsilon(1e-8));
    CHECK(in_minutes(run.grinding) == Approx(grind).epsilon(1e-8));
    CHECK(in_minutes(run.hands) == Approx(grind + 3).epsilon(1e-8));
    CHECK(in_minutes(run.elapsed) == Approx(grind + 23).epsilon(1e-8));
    CHECK(run.residue == Approx(0.98 * 0.03).epsilon(1e-8));
    CHECK(run.reached);
}

TEST_CASE("of cycles that take the same hands the one of fewer rounds is best, but it may not take more", "[unit]") {
    // A sieve that takes no time; half as much again as one short cycle must be ground. Two short ones or one twice as long.
    for (const double cycle : {3.0, 5.0, 7.0, 10.0, 11.0, 13.0}) {
        const auto load = load_of(0.5, 1.5 / cycle * std::log(0.5 / 0.1) / 2.25);
        const auto sieve = sieve_of(load, 1, 0, 0, 0);
        const auto best = [&](double longest) {
            return in_minutes(best_rounds(load, sieve, {0.1, 60, false}, {minutes(cycle), minutes(longest), 2}).cycle);
        };
        CHECK(best(2.0 * cycle) == Approx(2.0 * cycle).epsilon(1e-12));
        CHECK(best(2.001 * cycle) == Approx(cycle).epsilon(1e-12));
        CHECK(best(1.999 * cycle) == Approx(1.999 * cycle).epsilon(1e-12));
    }
    // Nothing to grind: no cycle takes any hands, and the first will do.
    const auto fine = load_of(0.005, 0.1);
    const auto none = best_rounds(fine, sieve_of(fine, 1, 4, 0, 0), {}, {minutes(5), minutes(20), 4});
    CHECK(in_minutes(none.cycle) == Approx(5.0).epsilon(1e-12));
    CHECK(none.run.rounds.empty());
    const auto tried = [&](std::size_t points) {
        return whole_refusal([&] { (void)best_rounds(fine, sieve_of(fine, 1, 4, 0, 0), {}, {minutes(5), minutes(20), points}); });
    };
    CHECK(tried(100000) == "taken");
    CHECK(tried(100001) == "cycle lengths to try is 100001; valid: 1 to 100 000");
    CHECK(tried(1) == "taken");
    CHECK(tried(0) == "cycle lengths to try is 0; valid: 1 to 100 000");
}

TEST_CASE("the best of a hundred cycles, by trying each", "[reference]") {
    const auto load = load_of(0.7, 0.08, 0.7);
    const auto sieve = sieve_of(load, 0.95, 4, 0, 0.005);
    const auto best = best_rounds(load, sieve, {}, {minutes(2), minutes(45), 100});
    double least = 1e9, of_cycle = 0.0;
    for (int i = 0; i < 100; ++i) {
        const double cycle = 2.0 * std::pow(45.0 / 2.0, i / 99.0);
        const auto run = run_rounds(load, sieve, minutes(cycle), {});
        if (run.reached && in_minutes(run.hands) < least) least = in_minutes(run.hands), of_cycle = cycle;
    }
    CHECK(in_minutes(best.cycle) == Approx(of_cycle).epsilon(1e-9));
    CHECK(in_minutes(best.run.hands) == Approx(least).epsilon(1e-9));
    CHECK(best.by == ScreeningAdvice::dry_sieving);
    CHECK(best.in_rounds);
    // A cycle of half a thousandth of a second is one.
    CHECK(whole_refusal([&] { (void)best_rounds(load, sieve, {0.69, 1000, false}, {seconds(5e-4), minutes(45), 2}); }) == "taken");
}

TEST_CASE("what a plan says, word for word", "[unit]") {
    // By hand: exp(-0.1 t) from 0.5 to 0.01 takes 39.12 min in one; in rounds of 9.99 min four take 39.96 min and 1 min each.
    const auto load = load_of(0.5, 0.1);
    const std::vector<Separation> ways{sieve_of(load, 1, 1, 0, 0)};
    const auto at = [&](double cycle) { return compare_grinding(load, ways, {}, {minutes(cycle), minutes(cycle), 1}).recommendation; };
    CHECK(at(9.99) == "one grind, then dry sieving: 39 min, 40 min of hands, least of the 2 ways that reach the target");
    const std::vector<Separation> quick{sieve_of(load, 1, 0, 0, 0)};
    const auto emptied = one_screen_load(law_of(0.5, 0.1), minutes(0), micrometres(75), 1.0);
    const auto rounds = compare_grinding(emptied, quick, {}, {minutes(9.96), minutes(9.96), 1});
    // The load falls to what is over the screen: 0.5, then half of that as e = 1, and so on; three rounds by hand below.
    double over = 0.5, charge = 1.0;
    int count = 0;
    for (; over > 0.01; ++count)
        over *= std::exp(-0.1 * 9.96 / charge), charge = over;
    CHECK(rounds.recommendation == "dry sieving in rounds: " + std::to_string(count) + " rounds of 10.0 min, " +
                                       (count == 2 ? "20" : "30") + " min of hands, least of the 2 ways that reach the target");
    CHECK(compare_grinding(load, quick, {}, {minutes(60), minutes(60), 1}).plans.size() == 2);
    CHECK(plan_words(rounds.plans[0]) == "dry sieving in rounds");
    CHECK(plan_words(rounds.plans[1]) == "one grind, then dry sieving");
    CHECK(rounds.plans[1].cycle == rounds.plans[1].run.grinding);
    // Two ways alike stay in the order in which they were named.
    const std::vector<Separation> twins{sieving(load, ScreeningAdvice::wet_screening, Share::of(1), minutes(1), minutes(0), Share::of(0)),
                                        sieve_of(load, 1, 1, 0, 0)};
    const auto alike = compare_grinding(load, twins, {}, {minutes(10), minutes(10), 1});
    REQUIRE(alike.plans.size() == 4);
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(alike.plans[i].by == (i % 2 == 0 ? ScreeningAdvice::wet_screening : ScreeningAdvice::dry_sieving));
    const auto lengths = [&](double shortest, double longest) {
        return whole_refusal([&] { (void)best_rounds(load, ways[0], {}, {minutes(shortest), minutes(longest), 2}); });
    };
    CHECK(lengths(10.4, 10.0) == "cycle lengths to try is 10 min to 10 min; valid: above 0, rising");
    CHECK(lengths(9.94, 9.0) == "cycle lengths to try is 9.9 min to 9.0 min; valid: above 0, rising");
    CHECK(lengths(0.0, 9.0) == "cycle lengths to try is 0.0 min to 9.0 min; valid: above 0, rising");
    CHECK(whole_refusal([&] { (void)best_rounds(load, ways[0], {0.01, 3, false}, {minutes(1), minutes(2), 2}); }) ==
          "residue after 3 rounds is 27.44 % at best; valid: at most 1.00 %; allow more or longer rounds"); // 0.5 exp(-0.6)
}

TEST_CASE("a load, a separation and a target just within their limits", "[errors]") {
    const auto load = load_of(0.6, 0.1);
    const auto sieve = sieve_of(load, 1, 1, 0, 0);
    const auto ran = [](const GrindLoad& of, const Separation& by, double target = 0.05) {
        return whole_refusal([&] { (void)run_rounds(of, by, minutes(20), {target, 60, false}); });
    };
    CHECK(ran(load, sieve) == "taken");
    CHECK(ran(load, sieve, 1e-4) == "taken");
    CHECK(ran(load, sieve, 0.0) == "target residue is 0 %; valid: above 0 and below 100 %");
    CHECK(ran(load, sieve, -0.05) == "target residue is -5 %; valid: above 0 and below 100 %");
    CHECK(whole_refusal([&] { (void)run_rounds(load, sieve, seconds(5e-4), {0.5999999, 60, false}); }) == "taken");
    CHECK(whole_refusal([&] { (void)run_rounds(load, sieve, seconds(0), {}); }) == "length of a round is 0 min; valid: above 0");
    auto changed = load;
    changed.feed = {0.6 + 5e-7, 0.4};
    CHECK(ran(changed, sieve) == "taken");
    const auto run = run_rounds(changed, sieve, minutes(20), {0.05, 60, false});
    CHECK(run.through + run.remains + run.lost == Approx(1.0).epsilon(1e-12));
    changed.feed = {0.6 + 5e-6, 0.4};
    CHECK(ran(changed, sieve) != "taken");
    changed.feed = {0.75, 0.5};
    CHECK(ran(changed, sieve) == "sum of the class fractions is 1.25; valid: 1 within 1e-6");
    for (const std::size_t limit : {0u, 2u}) {
        changed = load, changed.limit = limit;
        CHECK(ran(changed, sieve) == "class limit is " + std::to_string(limit) + "; valid: 1 to the number of classes less one");
        CHECK(whole_refusal([&] { (void)sieve_of(changed, 1, 1, 0, 0); }) != "taken");
    }
    changed = load, changed.load_exponent = 2.0;
    CHECK(ran(changed, sieve) == "taken");
    changed.load_exponent = 2.0001;
    CHECK(ran(changed, sieve) == "load exponent is 2.0001; valid: 0 to 2");
    changed.load_exponent = -0.25;
    CHECK(ran(changed, sieve) == "load exponent is -0.25; valid: 0 to 2");
    auto by = sieve;
    by.carried = {0.0, 1.0001};
    CHECK(ran(load, by) == "share carried off is 1.0001; valid: 0 to 1");
    by = sieve, by.loss = Share::of(0.9999);
    CHECK(ran(load, by) == "taken");
    CHECK(whole_refusal([&] { (void)sieve_of(load, 0.0, 1, 0, 0); }) == "sieving efficiency is 0 %; valid: above 0 to 100 %");
    CHECK(whole_refusal([&] { (void)sieve_of(load, 5e-4, 1, 0, 0); }) == "taken");
    const auto begun = [](double log_residue) {
        FirstOrderLaw law = law_of(1.0, 0.1);
        law.log_initial_residue = log_residue;
        return whole_refusal([&] { (void)one_screen_load(law, minutes(0), micrometres(75)); });
    };
    CHECK(begun(std::log(5e-4)) == "taken");
    CHECK(begun(-2000.0) == "residue where the plan begins is 0 %; valid: above 0, at most 100 %");
    CHECK(begun(std::log(1.25)) == "residue where the plan begins is 125 %; valid: above 0, at most 100 %");
}

TEST_CASE("what nobody says of a plan", "[unit]") {
    CHECK(one_screen_load(law_of(0.5, 0.1), minutes(0), micrometres(75)).load_exponent == 0.0);
    CHECK(GrindLoad{}.limit == 1);
    CHECK(GrindRound{}.number == 1);
    CHECK(GrindTarget{}.residue == 0.01);
    CHECK(GrindTarget{}.most_rounds == 60);
    CHECK_FALSE(GrindTarget{}.separate_first);
    CHECK(CycleSearch{}.points == 400);
}

TEST_CASE("pouring off carries each class as grains between its two sizes are carried", "[reference]") {
    GrindLoad load;
    for (const double um : {150.0, 75.0, 40.0, 20.0})
        load.model.class_sizes.push_back(micrometres(um));
    load.model.selection = {per_minute(0.1), 0.8};
    load.feed = {0.4, 0.3, 0.2, 0.1};
    load.limit = 1;
    const Slurry slurry{grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)), VolumeFraction::of(0.01)};
    const auto plan = plan_levigation(micrometres(60), millimetres(120), millimetres(100), 2, slurry, {minutes(2), minutes(1)});
    const auto way = levigating(load, plan, slurry, micrometres(3), hours(12), Share::of(0.02));
    CHECK(way.kind == ScreeningAdvice::levigation);
    REQUIRE(way.carried.size() == 4);
    const double upper[] = {150, 75, 40, 20}, lower[] = {75, 40, 20, 3};
    for (std::size_t i = 0; i < 4; ++i) {
        // The mean over ln d by 2 000 slices.
        double mean = 0.0;
        for (int s = 0; s < 2000; ++s) {
            const double d = lower[i] * std::pow(upper[i] / lower[i], (s + 0.5) / 2000);
            mean += d < 60.0 ? pour_off_recovery(micrometres(d), plan.how, slurry) / 2000 : 0.0;
        }
        CHECK(way.carried[i] == Approx(mean).epsilon(1e-3).margin(1e-12));
    }
    CHECK(way.hands == plan.hands);
    CHECK(in_minutes(way.elapsed) == Approx(in_minutes(plan.elapsed) + 720).epsilon(1e-12));
    CHECK(way.loss.value() == 0.02);
}
