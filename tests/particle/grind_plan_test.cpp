#include "lakebound/particle/grind_plan.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/quantity/error.hpp"
#include "support/told.hpp"

using namespace lakebound;

namespace {
/// T21 of the domain brief: 46 % at 5 min, 23.5 % at 15 min.
FirstOrderLaw law() {
    const ResidueReading r[] = {{minutes(5), MassFraction::of(.46), .01},
                                {minutes(15), MassFraction::of(.235), .01}};
    return fit_first_order(r);
}
GrindLoad mortar(double load_exponent = 0.0) {
    GrindLoad load;
    for (const double um : {425., 250., 150., 106., 75., 45.})
        load.model.class_sizes.push_back(micrometres(um));
    load.model.selection = {per_minute(0.1), 0.8};
    load.feed = {.45, .22, .12, .09, .07, .05};
    load.limit = 4;
    load.load_exponent = load_exponent;
    return load;
}
Share share(double x) { return Share::of(x); }
Separation quick_sieve(const GrindLoad& load) { return sieving(load, ScreeningAdvice::dry_sieving, share(1), minutes(0), minutes(0), share(0)); }
} // namespace

TEST_CASE("worked rounds of five minutes", "[reference]") {
    // Domain brief B.8 (own computation): with rate ~ load^-e, 13 cycles 65 min for e 0; 6 cycles 30 min
    // for .5; 4 cycles 20 min for 1. It starts from R0 .644 with the fines already out.
    const struct {
        double e;
        std::size_t rounds;
    } rows[] = {{0, 13}, {.5, 6}, {1, 4}};
    for (const auto& row : rows) {
        const auto load = one_screen_load(law(), minutes(0), micrometres(75), row.e);
        GrindTarget target;
        target.separate_first = true;
        const auto run = run_rounds(load, quick_sieve(load), minutes(5), target);
        CHECK(run.reached);
        CHECK(run.rounds.size() == row.rounds + 1); // the first round only sieves
        CHECK(in_minutes(run.grinding) == Approx(5.0 * static_cast<double>(row.rounds)).epsilon(1e-12));
        CHECK(run.residue <= 0.01);
    }
}

TEST_CASE("one long grind takes what the law says", "[reference]") {
    // T21: 62.00 min to 1 %.
    const auto load = one_screen_load(law(), minutes(0), micrometres(75));
    const auto run = one_long_grind(load, sieving(load, ScreeningAdvice::dry_sieving, share(1), minutes(4), minutes(0), share(.01)), {});
    CHECK(in_minutes(run.grinding) == Approx(62.00).epsilon(1e-4));
    CHECK(in_minutes(run.hands) == Approx(66.00).epsilon(1e-4));
    CHECK(run.lost == Approx(.01).epsilon(1e-12));
}

TEST_CASE("no pigment is made or vanishes in any plan", "[identity]") {
    RandomEngine random(9);
    for (int trial = 0; trial < 200; ++trial) {
        auto load = mortar(uniform(random) * 1.5);
        double sum = 0;
        for (double& f : load.feed)
            sum += f = uniform(random);
        for (double& f : load.feed)
            f /= sum;
        load.limit = 1 + static_cast<std::size_t>(5 * uniform(random));
        const auto sieve =
            sieving(load, ScreeningAdvice::dry_sieving, share(.3 + .7 * uniform(random)), minutes(3), minutes(0), share(.05 * uniform(random)));
        GrindTarget target;
        target.separate_first = uniform(random) < .5;
        const auto run = run_rounds(load, sieve, minutes(.5 + 20 * uniform(random)), target);
        CHECK(run.through + run.remains + run.lost == Approx(1.0).epsilon(1e-12));
        double product = 0, left = 0, lost = 0, through = 0;
        for (const double m : run.product)
            product += m;
        for (const double m : run.left)
            left += m;
        for (const auto& r : run.rounds)
            lost += r.lost, through += r.through;
        CHECK(product == Approx(run.through).margin(1e-13));
        CHECK(left == Approx(run.remains).margin(1e-13));
        CHECK(lost == Approx(run.lost).margin(1e-13));
        CHECK(through == Approx(run.through).margin(1e-13));
        for (std::size_t i = 0; i < load.limit; ++i)
            CHECK(run.product[i] == 0.0); // nothing coarse goes through
        double residue = 1.0;
        for (const auto& r : run.rounds) {
            CHECK(r.residue <= residue);
            residue = r.residue;
        }
    }
}

TEST_CASE("without loss or load effect, rounds grind exactly as one long grind", "[identity]") {
    // The balance is linear, so taking the fines out changes nothing for the coarse.
    const auto load = mortar(0.0);
    const auto sieve = quick_sieve(load);
    const double whole = in_seconds(one_long_grind(load, sieve, {}).grinding);
    for (const unsigned rounds : {1u, 2u, 5u, 20u}) {
        const auto run = run_rounds(load, sieve, seconds(whole / rounds), {});
        CHECK(run.rounds.size() == rounds);
        CHECK(run.residue == Approx(0.01).epsilon(1e-6));
        CHECK(in_seconds(run.grinding) == Approx(whole).epsilon(1e-9));
    }
}

TEST_CASE("a finer feed never takes longer hands", "[identity]") {
    RandomEngine random(31);
    for (int trial = 0; trial < 40; ++trial) {
        auto coarse = mortar(0.5), fine = mortar(0.5);
        double sum = 0;
        for (double& f : coarse.feed)
            sum += f = uniform(random);
        for (double& f : coarse.feed)
            f /= sum;
        // Finer by the same mortar, or by grains put below the target. (Finer by one class is not enough:
        // see the note at time_to_residue.)
        fine.feed = coarse.feed;
        PopulationBalance(coarse.model).grind(fine.feed, minutes(20 * uniform(random)));
        const double moved = .5 * uniform(random) * fine.feed[2];
        fine.feed[2] -= moved;
        fine.feed[4] += moved;
        const auto sieve = sieving(coarse, ScreeningAdvice::dry_sieving, share(.95), minutes(4), minutes(0), share(.01));
        CycleSearch search;
        search.points = 60;
        const double slow = in_seconds(best_rounds(coarse, sieve, {}, search).run.hands);
        CHECK(in_seconds(best_rounds(fine, sieve, {}, search).run.hands) <= slow * (1 + 1e-9));
        CHECK(in_seconds(one_long_grind(fine, sieve, {}).hands) <=
              in_seconds(one_long_grind(coarse, sieve, {}).hands) * (1 + 1e-9));
    }
}

TEST_CASE("the best rounds are the best of those tried", "[identity]") {
    const auto load = mortar(0.7);
    const auto sieve = sieving(load, ScreeningAdvice::dry_sieving, share(.95), minutes(4), minutes(0), share(.005));
    CycleSearch search;
    search.points = 200;
    const auto best = best_rounds(load, sieve, {}, search);
    CHECK(best.run.reached);
    for (double t = 1.01; t < 60; t *= 1.07) {
        CycleSearch one;
        one.shortest = one.longest = minutes(t);
        one.points = 1;
        try {
            // Between two cycles tried, one a little longer can save a round: less than one cycle step.
            CHECK(in_seconds(best_rounds(load, sieve, {}, one).run.hands) >= in_seconds(best.run.hands) * 0.97);
        } catch (const DomainError&) {
        }
    }
    // Dear handling asks for fewer rounds.
    const auto dear = best_rounds(load, sieving(load, ScreeningAdvice::dry_sieving, share(.95), minutes(20), minutes(0), share(.005)), {}, search);
    CHECK(dear.run.rounds.size() <= best.run.rounds.size());
    CHECK(dear.cycle >= best.cycle);
}

TEST_CASE("the ways compared, and the least hand time recommended", "[unit]") {
    const auto load = mortar(0.5);
    const Slurry slurry{grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)),
                        VolumeFraction::of(.01)};
    const auto plan = plan_levigation(micrometres(75), millimetres(120), millimetres(100), 3, slurry,
                                      {minutes(2), minutes(1)});
    const Separation ways[] = {sieving(load, ScreeningAdvice::dry_sieving, share(.95), minutes(6), minutes(0), share(.01)),
                               levigating(load, plan, slurry, micrometres(2), hours(12), share(.02))};
    CHECK(ways[0].kind == ScreeningAdvice::dry_sieving);
    for (std::size_t i = 0; i + 1 < 6; ++i)
        CHECK(ways[1].carried[i] <= ways[1].carried[i + 1]); // finer goes sooner
    CHECK(ways[1].carried[0] == 0.0);
    const auto compared = compare_grinding(load, ways, {});
    REQUIRE(compared.plans.size() == 4);
    for (std::size_t i = 1; i < 4; ++i)
        CHECK(compared.plans[i - 1].run.hands <= compared.plans[i].run.hands);
    CHECK(compared.recommendation.find(plan_words(compared.plans[0])) == 0);
    CHECK(compared.recommendation.find("least of the 4 ways") != std::string::npos);
    // A round limit too small puts the rounds out of reach and says why.
    GrindTarget hasty;
    hasty.most_rounds = 1;
    CycleSearch search;
    search.longest = minutes(5);
    const auto few = compare_grinding(load, ways, hasty, search);
    CHECK(few.plans.size() == 2);
    REQUIRE(few.out_of_reach.size() == 2);
    CHECK(few.out_of_reach[0].find("dry sieving in rounds") == 0);
}

TEST_CASE("washing takes hands and a night", "[unit]") {
    const auto washed = sieving(mortar(), ScreeningAdvice::wet_screening, share(1), minutes(10), hours(12), share(0));
    CHECK(in_hours(washed.elapsed) == Approx(12 + 10. / 60).epsilon(1e-12));
    CHECK(in_minutes(washed.hands) == Approx(10).epsilon(1e-12));
    CHECK(one_screen_load(law(), minutes(15), micrometres(45)).feed[0] == Approx(.235).epsilon(1e-9));
}

TEST_CASE("plans that cannot be are refused", "[errors]") {
    auto load = mortar();
    const auto sieve = quick_sieve(load);
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(0), {}), DomainError);
    GrindTarget none;
    none.residue = 0;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), none), DomainError);
    GrindTarget few;
    few.most_rounds = 2;
    CycleSearch brief;
    brief.longest = minutes(2);
    CHECK_THROWS_AS(best_rounds(load, sieve, few, brief), DomainError);
    load.limit = 6;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), {}), DomainError);
    load = mortar();
    load.feed[0] += .1;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), {}), DomainError);
    load = mortar();
    CHECK_THROWS_AS(sieving(load, ScreeningAdvice::dry_sieving, share(0), minutes(1), minutes(0), share(0)), DomainError);
    CHECK_THROWS_AS(sieving(load, ScreeningAdvice::levigation, share(1), minutes(1), minutes(0), share(0)), DomainError);
    CHECK_THROWS_AS(sieving(load, ScreeningAdvice::dry_sieving, share(1), minutes(1), minutes(-1), share(0)), DomainError);
    CHECK_THROWS_AS(compare_grinding(load, {}, {}), DomainError);
    // The limits themselves: 1 000 rounds may be asked for, not 1 001, and not none.
    GrindTarget limits;
    limits.most_rounds = 1000;
    CHECK_NOTHROW(run_rounds(load, sieve, minutes(5), limits));
    limits.most_rounds = 1001;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), limits), DomainError);
    limits.most_rounds = 0;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), limits), DomainError);
    limits.most_rounds = 1;
    CHECK_NOTHROW(run_rounds(load, sieve, minutes(5), limits));
    auto bad = sieve;
    bad.elapsed = minutes(-1);
    CHECK_THROWS_AS(run_rounds(load, bad, minutes(5), {}), DomainError);
    load.load_exponent = 5;
    CHECK_THROWS_AS(run_rounds(load, sieve, minutes(5), {}), DomainError);
}

TEST_CASE("a refused plan tells the figure in minutes and percent", "[errors]") {
    const auto load = mortar();
    const auto way = quick_sieve(load);
    CHECK(told([&] { run_rounds(load, way, minutes(-3), {}); }) == "length of a round: -3 min");
    CHECK(told([&] { run_rounds(load, way, minutes(0), {}); }) == "length of a round: 0 min");
    auto slow = way;
    slow.hands = minutes(-2);
    CHECK(told([&] { run_rounds(load, slow, minutes(5), {}); }) == "handling time: -2 min");
    slow.hands = minutes(2);
    slow.elapsed = minutes(1);
    CHECK(told([&] { run_rounds(load, slow, minutes(5), {}); }) == "time of a separation: 1 min");
    slow.elapsed = minutes(2);
    CHECK(told([&] { run_rounds(load, slow, minutes(5), {}); }) == "taken");
    slow.loss = share(1.0);
    CHECK(told([&] { run_rounds(load, slow, minutes(5), {}); }) == "loss at a separation: 100 %");
    auto carried = way;
    carried.carried[0] = 1.5;
    CHECK(told([&] { run_rounds(load, carried, minutes(5), {}); }) == "share carried off: 1.5");
    GrindTarget target;
    target.residue = 1.0;
    CHECK(told([&] { run_rounds(load, way, minutes(5), target); }) == "target residue: 100 %");
    target.residue = 0.999;
    CHECK(told([&] { run_rounds(load, way, minutes(5), target); }) == "taken");
    CHECK(told([&] { one_screen_load(law(), minutes(0), micrometres(-75)); }) == "screen: -75 um");
    CHECK(told([&] { one_screen_load(law(), minutes(0), micrometres(0)); }) == "screen: 0 um");
    CHECK(told([&] { one_screen_load(law(), minutes(-1), micrometres(75)); }) == "grinding time: -1 min");
    auto early = law(); // a line that promises more than everything
    early.log_initial_residue = 0.1;
    CHECK(told([&] { one_screen_load(early, minutes(0), micrometres(75)); }).rfind("residue where the plan begins: 110.5", 0) == 0);
    early.log_initial_residue = 0.0;
    CHECK(told([&] { one_screen_load(early, minutes(0), micrometres(75)); }) == "taken");
    CHECK(told([&] { sieving(load, ScreeningAdvice::dry_sieving, share(0), minutes(1), minutes(0), share(0)); }) ==
          "sieving efficiency: 0 %");
    CHECK(told([&] { sieving(load, ScreeningAdvice::dry_sieving, share(1), minutes(1), minutes(-1), share(0)); }) ==
          "drying time: -1 min");
    CycleSearch search;
    search.points = 0;
    CHECK(told([&] { best_rounds(load, way, {}, search); }) == "cycle lengths to try: 0");
    search.points = 1; // the shortest, alone
    search.shortest = minutes(7);
    search.longest = minutes(7);
    CHECK(in_minutes(best_rounds(load, way, {}, search).cycle) == Approx(7));
    search.shortest = minutes(0);
    CHECK(told([&] { best_rounds(load, way, {}, search); }).rfind("cycle lengths to try: 0", 0) == 0);
    auto bad = load;
    bad.load_exponent = 2.1;
    CHECK(told([&] { run_rounds(bad, way, minutes(5), {}); }) == "load exponent: 2.1");
    bad = load;
    bad.limit = 0;
    CHECK(told([&] { run_rounds(bad, way, minutes(5), {}); }) == "class limit: 0");
    bad = load;
    bad.feed[0] = -bad.feed[0];
    CHECK(told([&] { run_rounds(bad, way, minutes(5), {}); }) == "class fraction: -0.45");
}

TEST_CASE("rounds are numbered", "[unit]") {
    const auto load = mortar();
    const auto run = run_rounds(load, quick_sieve(load), minutes(5), {});
    REQUIRE(run.rounds.size() > 2);
    for (std::size_t i = 0; i < run.rounds.size(); ++i)
        CHECK(run.rounds[i].number == i + 1);
    CHECK(in_minutes(CycleSearch{}.longest) == Approx(60));
}

TEST_CASE("a load and a separation have one share for each class", "[errors]") {
    const auto load = mortar();
    const auto way = quick_sieve(load);
    auto fewer = load;
    fewer.feed.pop_back();
    CHECK(told([&] { run_rounds(fewer, way, minutes(5), {}); }) == "class fractions: 5");
    auto below = load;
    below.feed[0] = -0.1;
    CHECK(told([&] { run_rounds(below, way, minutes(5), {}); }) == "class fraction: -0.1");
    auto lacking = way;
    lacking.carried.pop_back();
    CHECK(told([&] { run_rounds(load, lacking, minutes(5), {}); }) == "shares carried off: 5");
    auto negative = way;
    negative.carried[0] = -0.1;
    CHECK(told([&] { run_rounds(load, negative, minutes(5), {}); }) == "share carried off: -0.1");
    CycleSearch search;
    search.shortest = minutes(9), search.longest = minutes(7);
    CHECK(told([&] { best_rounds(load, way, {}, search); }) == "cycle lengths to try: 9.0 min to 7.0 min");
    search.shortest = minutes(5), search.longest = minutes(7);
    search.points = 100001;
    CHECK(told([&] { best_rounds(load, way, {}, search); }) == "cycle lengths to try: 100001");
    const Slurry water{grams_per_cubic_centimetre(1.88), water_at(degrees_celsius(20)), VolumeFraction::of(0.02)};
    const auto plan = plan_levigation(micrometres(40), millimetres(100), millimetres(80), 2, water, {minutes(1), minutes(1)});
    CHECK(told([&] { (void)levigating(load, plan, water, micrometres(1), minutes(-1), share(0)); }) == "drying time: -1 min");
    CHECK(told([&] { (void)levigating(load, plan, water, micrometres(1), minutes(0), share(0)); }) == "taken");
}

TEST_CASE("where no way gets there, the first tells why", "[errors]") {
    auto load = mortar();
    load.model.selection.top = per_minute(1e-9); // a mortar that grinds nothing
    GrindTarget target;
    target.residue = 0.001;
    target.most_rounds = 3;
    const Separation ways[] = {quick_sieve(load)};
    CHECK_THROWS_WITH(compare_grinding(load, ways, target), Catch::StartsWith("grinding plan is none reaches the target") &&
                                                                Catch::Contains("dry sieving in rounds: residue after 3 rounds is "));
    CHECK(told([&] { (void)compare_grinding(load, {}, target); }) == "ways to separate: none");
    // Of lengths that take the same hands the one of fewer rounds is chosen: nothing to grind, one separation is all.
    auto fine = mortar();
    fine.feed = {0, 0, 0, 0, 0, 1};
    const auto best = best_rounds(fine, quick_sieve(fine), {}, {minutes(5), minutes(20), 4});
    CHECK(best.run.rounds.size() <= 1);
}

TEST_CASE("what a run makes of a charge is told in masses", "[unit]") {
    GrindRun run;
    run.through = 0.7, run.lost = 0.1, run.remains = 0.2;
    const auto masses = masses_of(run, grams(20));
    CHECK(in_grams(masses.through) == Approx(14));
    CHECK(in_grams(masses.lost) == Approx(2));
    CHECK(in_grams(masses.remains) == Approx(4));
}
