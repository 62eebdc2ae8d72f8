#include "lakebound/record/learned_demand.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/record/kin_distance.hpp"
#include "record/check_cases.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::test;
using lakebound::test::Bench; // not the bench of a batch

// Tolerances of the check cases: mean and sd 5e-4, next k .003; two ways to reckon them agree to 2e-4.

TEST_CASE("what each check case knows of its jar", "[reference]") {
    for (const auto& c : check_cases()) {
        INFO(c.id);
        const auto belief = c.bench.belief(plain_world());
        const auto critical = belief.critical();
        CHECK(critical.mean() == Approx(c.mean).margin(5e-4).epsilon(0));
        CHECK(critical.standard_deviation() == Approx(c.sd).margin(5e-4).epsilon(0));
        CHECK(belief.flip_spread() == Approx(c.sd_z).margin(5e-4).epsilon(0));
        CHECK(even_bet(belief, swatch_spread).value() == Approx(c.next_k).margin(0.003).epsilon(0));
    }
}

TEST_CASE("best aim and chance of each check case", "[reference]") {
    // Tolerance of the rows: chance .1 point, k .01 (the top is flat). Through the same judgement as every paint.
    for (const auto& c : check_cases()) {
        INFO(c.id);
        const auto belief = c.bench.belief(plain_world());
        const BestMix aim = best_aim(belief);
        CHECK(aim.chance == Approx(c.best_chance).margin(0.1).epsilon(0));
        CHECK(aim.library_k == Approx(c.best_k).margin(0.01).epsilon(0));
        CHECK(window_percent(belief, 1.47) == Approx(c.chance_at_147).margin(0.1).epsilon(0));
    }
}

TEST_CASE("chance of k below 1 at the best aim", "[reference]") {
    struct Row {
        const char* id;
        double chance, tolerance; ///< %
    };
    for (const auto& r : {Row{"K5", 7.295, .05}, Row{"K6", .007, .002}, Row{"K7", .007, .002}, Row{"K8", .003, .002},
                          Row{"K10", .015, .002}, Row{"K13", .31, .03}}) {
        INFO(r.id);
        const auto belief = check_case(r.id).bench.belief(plain_world());
        const auto k = BinderSufficiency::of(best_aim(belief).library_k);
        const auto chances = window_chances(k, belief.doubt(batch_spread), pan_window());
        CHECK(100 * chances.underbound.value() == Approx(r.chance).margin(r.tolerance).epsilon(0));
    }
}

TEST_CASE("the odd maker lowers what can be promised", "[reference]") {
    DemandWorld world = plain_world();
    world.priors.odd_share = 0.10;
    struct Row {
        const char* id;
        double k, chance;
    };
    for (const auto& r : {Row{"K1", 1.470, 46.32}, Row{"K2", 1.728, 78.18}, Row{"K6", 1.816, 96.10},
                          Row{"K7", 1.597, 95.38}, Row{"K8", 1.145, 92.36}}) {
        INFO(r.id);
        const BestMix aim = best_aim(check_case(r.id).bench.belief(world));
        CHECK(aim.chance == Approx(r.chance).margin(0.1).epsilon(0));
        CHECK(aim.library_k == Approx(r.k).margin(0.01).epsilon(0));
    }
}

TEST_CASE("centiles of the critical k come from the skewed belief itself", "[reference]") {
    struct Row {
        const char* id;
        double low, middle, high;
    };
    for (const auto& r : {Row{"K5", .938, 1.241, 1.883}, Row{"K6", 1.055, 1.237, 1.443}, Row{"K7", .921, 1.087, 1.274},
                          Row{"K8", .670, .797, .930}, Row{"K13", .682, .855, 1.076}}) {
        INFO(r.id);
        const auto critical = check_case(r.id).bench.belief(plain_world()).critical();
        CHECK(std::exp(critical.quantile(0.05)) == Approx(r.low).margin(1e-3).epsilon(0));
        CHECK(std::exp(critical.quantile(0.50)) == Approx(r.middle).margin(1e-3).epsilon(0));
        CHECK(std::exp(critical.quantile(0.95)) == Approx(r.high).margin(1e-3).epsilon(0));
    }
}

TEST_CASE("the spread between jars is learned from rub-outs", "[reference]") {
    DemandWorld world = stated_world();
    world.priors.odd_share = 0.0;
    const auto alike = check_case("K16").bench.belief(world); // K21
    CHECK(alike.critical().mean() == Approx(.1215).margin(5e-4).epsilon(0));
    CHECK(alike.critical().standard_deviation() == Approx(.2009).margin(5e-4).epsilon(0));
    // Nodes .0478 .0872 .15 .258 .470 with weights .0315 .4288 .4803 .0589 .0005; one under .02 is left out.
    const double spread[] = {.0478, .0872, .15, .258}, weight[] = {.0315, .4288, .4803, .0589};
    REQUIRE(alike.parts.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(alike.parts[i].jar_spread == Approx(spread[i]).margin(5e-4).epsilon(0));
        CHECK(alike.parts[i].weight == Approx(weight[i]).margin(6e-4).epsilon(0));
    }

    Bench kin(4); // K22
    kin.rub_out_of(0, {45}).rub_out_of(1, {95}).rub_out_of(2, {60}).rub_out_of(3, {110});
    const auto unlike = kin.belief(world);
    CHECK(unlike.critical().mean() == Approx(.0861).margin(5e-4).epsilon(0));
    CHECK(unlike.critical().standard_deviation() == Approx(.324).margin(2e-3).epsilon(0));
    REQUIRE(unlike.parts.size() == 3);
    CHECK(unlike.parts[0].weight == Approx(.073).margin(1e-3).epsilon(0));
    CHECK(unlike.parts[1].weight == Approx(.860).margin(1e-3).epsilon(0));
    CHECK(unlike.parts[2].weight == Approx(.068).margin(1e-3).epsilon(0));
}

TEST_CASE("a maker whose swatches all fall on one side is believed to be odd", "[reference]") {
    DemandWorld world = plain_world();
    world.priors.odd_share = 0.10;
    struct Row {
        const char* id;
        double weight, mean, sd;
    };
    for (const auto& r : {Row{"K1", .1000, 0, .3292}, Row{"K2", .1000, .1616, .1689}, Row{"K6", .0745, .2127, .0967},
                          Row{"K7", .0805, .0842, .1006}, Row{"K8", .1780, -.2495, .1173}}) {
        INFO(r.id);
        const auto belief = check_case(r.id).bench.belief(world);
        CHECK(belief.odd_weight() == Approx(r.weight).margin(2e-4).epsilon(0));
        CHECK(belief.critical().mean() == Approx(r.mean).margin(5e-4).epsilon(0));
        CHECK(belief.critical().standard_deviation() == Approx(r.sd).margin(5e-4).epsilon(0));
    }
    struct Weight {
        const char* id;
        double weight;
    };
    for (const auto& r : {Weight{"K10", .0872}, Weight{"K11", .0721}, Weight{"K13", .1508}, Weight{"K15", .0797}}) {
        INFO(r.id);
        CHECK(check_case(r.id).bench.belief(world).odd_weight() == Approx(r.weight).margin(3e-4).epsilon(0));
    }
}

TEST_CASE("an entry that cannot well be is told beforehand, and still counts", "[reference]") {
    // K23: 3.0 chalks after a rub-out of 65: chance 5.8e-7; folded in all the same, c moves to .3967, sd .1557.
    Bench bench = Bench().rub_out({65});
    PaintTrial odd;
    odd.library_k = BinderSufficiency::of(3.0);
    odd.weighing_spread = swatch_spread;
    odd.outcome = PaintOutcome::lean;
    const auto before = bench.belief(plain_world());
    CHECK(chance_of_trial(before, odd).value() == Approx(5.8e-7).epsilon(0.02));
    const auto after = bench.chalks({3.0}).belief(plain_world());
    CHECK(after.critical().mean() == Approx(.3967).margin(5e-4).epsilon(0));
    CHECK(after.critical().standard_deviation() == Approx(.1557).margin(5e-4).epsilon(0));
    // K24: 100 hold at 1.30 and 100 at 1.20, no rub-out.
    Bench many;
    for (int i = 0; i < 100; ++i)
        many.does_not({1.30, 1.20});
    const auto held = many.belief(plain_world()).critical();
    CHECK(held.mean() == Approx(-.34209).margin(2e-5).epsilon(0));
    CHECK(held.standard_deviation() == Approx(.18429).margin(2e-5).epsilon(0));
}

TEST_CASE("outcomes of one trial add up to one, and a rub-out as expected is no surprise", "[identity]") {
    const auto belief = check_case("K13").bench.belief(stated_world());
    for (const double k : {0.5, 0.8, 1.2, 1.6, 2.4})
        for (const bool in_use : {false, true}) {
            PaintTrial t;
            t.library_k = BinderSufficiency::of(k);
            t.in_use = in_use;
            const auto chance = [&](PaintOutcome o) {
                t.outcome = o;
                return chance_of_trial(belief, t).value();
            };
            const double lean = chance(PaintOutcome::lean), rich = chance(PaintOutcome::rich);
            CHECK(lean + rich + chance(PaintOutcome::holds) == Approx(1).epsilon(1e-9));
            CHECK(lean + chance(PaintOutcome::not_lean) == Approx(1).epsilon(1e-9));
        }
    // Predictive sd of a first rub-out, all terms: sqrt(.26^2 + .15^2 + .05^2 + .095^2) = .31879.
    const auto bare = Bench().belief(plain_world());
    const auto rub_out = [&](double log_ratio) {
        return chance_of_rub_out(bare, grams_per_100_grams(reference_oil_absorption * std::exp(log_ratio))).value();
    };
    CHECK(rub_out(0.0) == Approx(1).margin(1e-9));
    CHECK(rub_out(1.959964 * .318787) == Approx(0.05).epsilon(1e-4));
    CHECK(rub_out(-2.575829 * .318787) == Approx(0.01).epsilon(1e-4));
}

TEST_CASE("a jar unlike its kin is noticed, and can be taken out of it", "[reference]") {
    // 115 among 72, 81, 69: z 2.28 at a spread of .15; c by kin 1.585, alone 1.658, unlinked 1.694, sd
    // .153, .156, .157. Expected 73, 90 % from 52 to 101.
    Bench bench = check_case("K17").bench;
    const auto d = kin_distance(plain_world(), bench.record, bench.asked());
    CHECK(d.in_spreads == Approx(2.28).margin(0.01).epsilon(0));
    CHECK(d.times_expected() == Approx(115.0 / 73).margin(0.015));
    CHECK(65 * std::exp(d.expected) == Approx(73).margin(0.5).epsilon(0));
    CHECK(65 * std::exp(d.expected - 1.645 * d.expected_spread) == Approx(52).margin(0.6).epsilon(0));
    CHECK(65 * std::exp(d.expected + 1.645 * d.expected_spread) == Approx(101).margin(1).epsilon(0));
    bench.record.jars.back().unlike_its_kin = true;
    const auto apart = bench.belief(plain_world()).critical();
    CHECK(std::exp(apart.mean()) == Approx(1.694).margin(1e-3).epsilon(0));
    CHECK(apart.standard_deviation() == Approx(.157).margin(5e-4).epsilon(0));
    const auto alone = Bench().rub_out({115}).belief(plain_world()).critical();
    CHECK(std::exp(alone.mean()) == Approx(1.658).margin(1e-3).epsilon(0));
    CHECK(alone.standard_deviation() == Approx(.156).margin(5e-4).epsilon(0));
    CHECK(kin_distance(plain_world(), Bench(2).record, 0).readings == 0);
}

TEST_CASE("repeats teach how much her rub-outs scatter", "[reference]") {
    // K3 .0866, K4 .2155; (4 x .095^2 + S)/(4 + nu) by hand.
    CHECK(learned_repeat_spread(plain_world().priors, check_case("K3").bench.record) == Approx(.0866).margin(5e-5).epsilon(0));
    CHECK(learned_repeat_spread(plain_world().priors, check_case("K4").bench.record) == Approx(.2155).margin(5e-5).epsilon(0));
    CHECK(learned_repeat_spread(plain_world().priors, check_case("K16").bench.record) == Approx(.095).epsilon(1e-12));
    // Readings on either side of a regrind are not repeats of one another.
    DemandRecord record;
    record.jars = {{0, grams_per_100_grams(65), 1, false}};
    record.rub_outs = {{0, grams_per_100_grams(72), 0, 0.0}, {0, grams_per_100_grams(107), 1, 0.0}};
    CHECK(learned_repeat_spread(plain_world().priors, record) == Approx(.095).epsilon(1e-12));
}

TEST_CASE("the order of entries does not matter", "[identity]") {
    Bench bench(2);
    bench.rub_out_of(0, {72, 80}).rub_out({66}).chalks({1.05}).does_not({1.3});
    bench.trial_of(0, gum, 1.1, PaintOutcome::lean).trial_of(1, oil, 1.2, PaintOutcome::holds);
    const auto a = bench.belief(stated_world()).critical();
    std::reverse(bench.record.trials.begin(), bench.record.trials.end());
    std::reverse(bench.record.rub_outs.begin(), bench.record.rub_outs.end());
    const auto b = bench.belief(stated_world()).critical();
    CHECK(a.mean() == Approx(b.mean()).margin(1e-5).epsilon(0));
    CHECK(a.standard_deviation() == Approx(b.standard_deviation()).margin(1e-5).epsilon(0));
    CHECK(a.quantile(0.9) == Approx(b.quantile(0.9)).margin(1e-5).epsilon(0));
}

TEST_CASE("what a swatch says, and to whom", "[identity]") {
    const double alone = Bench().rub_out({70}).belief(plain_world()).critical().mean();
    // A swatch that chalks raises the demand, one that does not lowers it; being rich lowers it most.
    const auto mean_after = [](double k, PaintOutcome o) {
        Bench b = Bench().rub_out({70});
        b.trial(k, o);
        return b.belief(plain_world()).critical().mean();
    };
    CHECK(mean_after(1.1, PaintOutcome::lean) > alone + 0.01);
    CHECK(mean_after(1.1, PaintOutcome::not_lean) < alone - 0.01);
    CHECK(mean_after(1.8, PaintOutcome::rich) < mean_after(1.8, PaintOutcome::not_lean) - 0.01);
    CHECK(mean_after(1.8, PaintOutcome::holds) > mean_after(1.8, PaintOutcome::not_lean) + 1e-4);
    // The richer it still chalked, the more binder it wants.
    CHECK(mean_after(1.3, PaintOutcome::lean) > mean_after(1.1, PaintOutcome::lean));
    // A tube of the same kind and lot teaches the pan; a swatch in another lot less; another jar's less still.
    const auto sd_after = [](std::size_t jar, std::optional<std::size_t> lot, std::size_t family) {
        Bench b(1);
        b.rub_out({70}).rub_out_of(0, {70});
        for (const double k : {1.0, 1.1, 1.2})
            b.trial_of(jar, family, k, k < 1.1 ? PaintOutcome::lean : PaintOutcome::not_lean);
        for (auto& t : b.record.trials)
            t.lot = lot;
        return learned_demand(plain_world(), b.record, {1, gum, 7}).critical().standard_deviation();
    };
    const double same = sd_after(1, 7, gum), other_lot = sd_after(1, 8, gum), other_jar = sd_after(0, 8, gum),
                 other_kind = sd_after(0, 8, oil);
    CHECK(same < other_lot - 1e-3);
    CHECK(other_lot < other_jar - 1e-3);
    CHECK(other_jar < other_kind - 1e-4);
    // A rub-out made before the jar was ground again is worth less: variance of d by the rule of precisions.
    Bench ground = Bench().rub_out({78});
    ground.record.jars[0].changes = 1;
    const auto old = ground.belief(plain_world()).critical();
    const double before = check_case("K2").sd;
    CHECK(old.mean() == Approx(check_case("K2").mean).margin(5e-4).epsilon(0));
    CHECK(old.standard_deviation() == Approx(std::hypot(before, 0.08)).margin(5e-4).epsilon(0));
}

TEST_CASE("beliefs that cannot be are refused", "[errors]") {
    const Bench b = Bench().rub_out({70});
    const auto refuse = [&](auto change) {
        DemandWorld w = stated_world();
        DemandRecord r = b.record;
        DemandQuestion q{0, gum, {}};
        change(w, r, q);
        CHECK_THROWS_AS(learned_demand(w, r, q), DomainError);
    };
    refuse([](auto& w, auto&, auto&) { w.priors.jar_spread = 0; });
    refuse([](auto& w, auto&, auto&) { w.priors.lean_width = 0; });
    refuse([](auto& w, auto&, auto&) { w.priors.odd_share = 1; });
    refuse([](auto& w, auto&, auto&) { w.priors.odd_factor = .5; });
    refuse([](auto& w, auto&, auto&) { w.kinds[0].step_spread = -1; });
    refuse([](auto& w, auto&, auto&) { w.families[0].kind = 2; });
    refuse([](auto& w, auto&, auto&) { w.families[0].rich = BinderSufficiency::of(0.5); });
    refuse([](auto& w, auto&, auto&) { w.families[0].lean = {}; });
    refuse([](auto&, auto& r, auto&) { r.jars[0].reference = OilAbsorption::from_proven(0.0); });
    refuse([](auto&, auto& r, auto&) { r.rub_outs[0].jar = 1; });
    refuse([](auto&, auto& r, auto&) { r.rub_outs[0].changes = 1; });
    refuse([](auto&, auto& r, auto&) { r.rub_outs[0].oil_absorption = OilAbsorption::from_proven(0.0); });
    refuse([](auto&, auto& r, auto&) { r.trials.resize(1); r.trials[0].library_k = BinderSufficiency::of(1); r.trials[0].family = 5; });
    refuse([](auto&, auto& r, auto&) { r.trials.resize(1); });
    refuse([](auto&, auto&, auto& q) { q.jar = 1; });
    refuse([](auto&, auto&, auto& q) { q.family = 2; });
    CHECK_THROWS_AS(even_bet(b.belief(plain_world()), -1), DomainError);
}

TEST_CASE("a belief that is refused tells the figure", "[errors]") {
    const Bench b = Bench().rub_out({70});
    const auto refused = [&](auto change) {
        DemandWorld w = stated_world();
        DemandRecord r = b.record;
        DemandQuestion q{0, gum, {}};
        change(w, r, q);
        return told([&] { learned_demand(w, r, q); });
    };
    CHECK(refused([](auto&, auto&, auto&) {}) == "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.plant_spread = -0.1; }).find(": -0.1") != std::string::npos);
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.hand_spread = HUGE_VAL; }) != "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.lean_width = 0; }) == "width of chalking: 0");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.use_width = -1; }) == "width of chalking in use: -1");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.rich_width = 0; }) == "width of the rich edge: 0");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.rich_step_spread = 0; }) == "spread of the rich edge: 0");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.damp_spread = 0; }) == "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.lot_spread = 0; }) == "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.odd_share = -0.1; }) == "share of odd makers: -0.1");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.odd_share = 0; }) == "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.odd_factor = 0.99; }) == "factor of odd makers: 0.99");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.odd_factor = 1; }) == "taken");
    CHECK(refused([](auto& w, auto&, auto&) { w.priors.odd_factor = HUGE_VAL; }).rfind("factor of odd makers", 0) == 0);
    CHECK(refused([](auto& w, auto&, auto&) { w.kinds[1].medium_spread = -1; }) == "spread of the medium: -1");
    CHECK(refused([](auto& w, auto&, auto&) { w.families[0].kind = 2; }) == "kind of binder: 2");
    CHECK(refused([](auto& w, auto&, auto&) { w.families[0].lean = {}; }) == "lean edge of a family: 0");
    CHECK(refused([](auto& w, auto&, auto&) { w.families[0].rich = w.families[0].lean; }) == "rich edge of a family: 1");
    CHECK(refused([](auto&, auto& r, auto&) { r.rub_outs[0].jar = 1; }) == "jar of a reading: 1");
    CHECK(refused([](auto&, auto& r, auto&) { r.rub_outs[0].changes = 1; }) == "changes before a reading: 1");
    CHECK(refused([](auto&, auto& r, auto&) { r.rub_outs[0].reading_spread = -0.1; }) == "spread of a reading: -0.1");
    CHECK(refused([](auto&, auto& r, auto&) { r.rub_outs[0].stated_spread = -0.1; }) == "stated spread of a reading: -0.1");
    CHECK(refused([](auto&, auto& r, auto&) {
              r.trials.resize(1);
              r.trials[0].library_k = BinderSufficiency::of(1), r.trials[0].weighing_spread = -1;
          }) == "spread of a trial's weighing: -1");
    CHECK(refused([](auto&, auto& r, auto&) {
              r.trials.resize(1);
              r.trials[0].library_k = BinderSufficiency::of(5e-4); // as lean as powder alone, and a trial
          }) == "taken");
}
