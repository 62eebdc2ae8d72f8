#include "lakebound/paint/chance.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {
Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }

/// Lake M at reduced PVC 0.85 (k 1.303), with the spreads of docs/theory.md.
BatchRequest uncertain(double oil_absorption_spread, double method_transfer) {
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.additives.clear();
    r.recipe.aim = ReducedPigmentVolumeConcentration::of(0.85);
    Pigment& p = r.recipe.pigments[0].pigment;
    p.oil_absorption =
        Estimate<OilAbsorption>::lognormal(grams_per_100_grams(68.78), std::exp(oil_absorption_spread), from());
    p.density = Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(1.88), std::exp(0.106), from());
    r.recipe.family.method_transfer = method_transfer;
    return r;
}
BatchChance chance_of(const BatchRequest& r, const ChanceOptions& options = {}) {
    return batch_chance(r, *size_batch(r).batch, options);
}
WindowChances chances_of(const BatchRequest& r, const BatchChance& c) {
    return window_chances(size_batch(r).batch->film.k, c.doubt, r.recipe.family.window);
}
double share_of(const Budget& budget, const BatchChance& c, ChanceInput kind) {
    double share = 0.0;
    for (std::size_t i = 0; i < c.kinds.size(); ++i)
        if (c.kinds[i] == kind) share += budget.lines[i].share;
    return share;
}
} // namespace

TEST_CASE("chance of being underbound, from the inputs of a batch", "[reference]") {
    // docs/theory.md, table of chance (computed there in closed form and by Monte Carlo): library oil
    // absorption .206, one rub-out .0442, three .0276, three and own history .0069; 1.5 %, for the
    // weighing here is that of a 0.1 g scale (.0059) and not .006 flat. k needed to two decimals.
    struct Row {
        double oil_absorption, transfer, chance, k5, k10;
    };
    const Row rows[] = {{.30, .10, .206, 1.70, 1.51},
                        {.10, .10, .0442, 1.29, 1.22},
                        {.07, .10, .0276, 1.25, 1.19},
                        {.07, .05, .0069, 1.19, 1.15}};
    for (const Row& row : rows) {
        const BatchRequest r = uncertain(row.oil_absorption, row.transfer);
        const BatchChance c = chance_of(r);
        CHECK(chances_of(r, c).underbound.value() == Approx(row.chance).epsilon(0.015));
        CHECK(c.k_for_5_percent.value() == Approx(row.k5).margin(0.006));
        CHECK(c.k_for_10_percent.value() == Approx(row.k10).margin(0.006));
        CHECK(sufficiency_spread(c.spread) == near(c.sigma, 1e-6));
    }
}

TEST_CASE("which input matters: PVC is not reduced PVC", "[reference]") {
    // docs/theory.md, one rub-out and density unmeasured: ln PVC .080, of which density 73 %, solids and
    // binder density 10 each, moisture 6, oil absorption 0; ln Lambda .092, oil absorption 40, method
    // transfer 40, solids 8, binder density 8, moisture 4, density .5. Printed to 1 %.
    const BatchChance c = chance_of(uncertain(.10, .10));
    CHECK(c.ln_pvc.standard_uncertainty == Approx(.080).margin(6e-4));
    CHECK(c.ln_reduced_pvc.standard_uncertainty == Approx(.092).margin(6e-4));
    CHECK(share_of(c.ln_pvc, c, ChanceInput::pigment_density) == Approx(.73).margin(.006));
    CHECK(share_of(c.ln_pvc, c, ChanceInput::binder_solids) == Approx(.10).margin(.006));
    CHECK(share_of(c.ln_pvc, c, ChanceInput::moisture) == Approx(.06).margin(.006));
    CHECK(share_of(c.ln_pvc, c, ChanceInput::oil_absorption) == Approx(0.0).margin(1e-9));
    CHECK(share_of(c.ln_reduced_pvc, c, ChanceInput::oil_absorption) == Approx(.40).margin(.006));
    CHECK(share_of(c.ln_reduced_pvc, c, ChanceInput::method_transfer) == Approx(.40).margin(.006));
    CHECK(share_of(c.ln_reduced_pvc, c, ChanceInput::binder_density) == Approx(.08).margin(.006));
    CHECK(share_of(c.ln_reduced_pvc, c, ChanceInput::pigment_density) == Approx(.005).margin(.0006));
    // Both fall as density rises less surely known, so they go together.
    CHECK(c.pvc_cpvc_correlation > 0.3);
    // Density alone would move PVC and CPVC as one.
    BatchRequest only_density = uncertain(0.0, 0.0);
    only_density.recipe.family.binder_solids_spread = only_density.recipe.family.binder_density_spread = 0.0;
    only_density.recipe.pigments[0].pigment.moisture = exactly(MassFraction::of(0.15));
    only_density.bench.scales = {scale(1e-9)};
    CHECK(std::abs(chance_of(only_density).pvc_cpvc_correlation) == Approx(1.0).margin(1e-9));
}

TEST_CASE("closed form and Monte Carlo agree, whatever the number of threads", "[identity]") {
    ChanceOptions options;
    options.draws = 100000;
    const BatchRequest r = uncertain(.10, .10);
    const BatchChance c = chance_of(r, options);
    REQUIRE(c.drawn);
    const auto agrees = [](Probability closed, const EstimatedProbability& drawn) {
        CHECK(drawn.value == Approx(closed.value()).margin(4 * drawn.standard_error + 1e-4));
    };
    const WindowChances closed = chances_of(r, c);
    agrees(closed.underbound, c.drawn->underbound);
    agrees(closed.below_green, c.drawn->below_green);
    agrees(closed.above_green, c.drawn->above_green);
    agrees(closed.above_amber, c.drawn->above_amber);
    CHECK(c.drawn->pvc.standard_deviation == Approx(c.pvc_uncertainty).epsilon(0.02));
    CHECK(c.drawn->reduced_pvc.standard_deviation == Approx(c.reduced_pvc_uncertainty).epsilon(0.02));
    CHECK(c.drawn->pvc_cpvc_correlation == Approx(c.pvc_cpvc_correlation).margin(0.02));
    options.threads = 2;
    const BatchChance again = chance_of(r, options);
    CHECK(again.drawn->k.mean == near(c.drawn->k.mean, 1e-15));
    CHECK(again.drawn->underbound.value == near(c.drawn->underbound.value, 1e-15));
}

TEST_CASE("chances of every kind of paint", "[identity]") {
    for (Recipe recipe : {watercolour(), oil_paint(), tempera(), blend()}) {
        for (PigmentPart& part : recipe.pigments)
            part.pigment.oil_absorption =
                Estimate<OilAbsorption>::lognormal(part.pigment.oil_absorption.value().value(), 1.35, from());
        if (recipe.family.process == Process::egg_tempera)
            recipe.family.binder_index = Estimate<BinderIndex>::normal(BinderIndex::of(0.85), BinderIndex::Difference::of(0.07), from());
        ChanceOptions options;
        options.draws = 2000;
        const BatchRequest r = request(recipe, grams(10));
        const BatchChance c = chance_of(r, options);
        const WindowChances chances = chances_of(r, c);
        for (const Budget* b : {&c.ln_k, &c.ln_pvc, &c.ln_cpvc, &c.ln_reduced_pvc}) {
            double sum = 0.0;
            for (const BudgetLine& line : b->lines)
                sum += line.share;
            CHECK(sum == near(1.0, 1e-9));
        }
        CHECK(c.kinds.size() == c.ln_k.lines.size());
        CHECK(c.subjects.size() == c.kinds.size());
        CHECK(c.drawn->refused == 0);
        CHECK(chances.below_amber <= chances.below_green);
        CHECK(chances.above_amber <= chances.above_green);
        CHECK(chances.below_green.value() + chances.in_window.value() + chances.above_green.value() ==
              near(1.0, 1e-12));
        CHECK(c.sigma > 0.1);
        // Two pigments measured apart are known better together than one is alone.
        if (recipe.pigments.size() > 1) CHECK(c.spread.oil_absorption < 0.30);
    }
}

TEST_CASE("no binder reaches more than all of the voids, however its index is drawn", "[reference]") {
    // Index .97 +- .07, so that a third of the draws lie above 1 and count as 1: with d = .03/.07
    // E min(1, e) = .97 Phi(d) - .07 phi(d) + 1 - Phi(d) = .95455; of an index that is .97 surely, k is k.
    BatchRequest r = request(tempera(), grams(10));
    const auto mean_k = [&](const Estimate<BinderIndex>& index) {
        r.recipe.family.binder_index = index;
        ChanceOptions options;
        options.draws = 200'000;
        const Batch batch = *size_batch(r).batch;
        return batch_chance(r, batch, options).drawn->k.mean / batch.film.k.value();
    };
    const double sure = mean_k(exactly(BinderIndex::of(0.97)));
    const double spread = mean_k(Estimate<BinderIndex>::normal(BinderIndex::of(0.97), BinderIndex::Difference::of(0.07), from()));
    CHECK(spread / sure == Approx(0.95455 / 0.97).margin(1.5e-3));
}

TEST_CASE("a better scale lowers the weighing term alone", "[identity]") {
    BatchRequest coarse = uncertain(.10, .10), fine = coarse;
    coarse.bench.scales = {scale(1.0)};
    fine.bench.scales = {scale(0.001)};
    const BatchChance a = chance_of(coarse), b = chance_of(fine);
    CHECK(a.spread.weighing > 10 * b.spread.weighing);
    CHECK(a.spread.oil_absorption == near(b.spread.oil_absorption, 1e-6));
    CHECK(a.sigma > b.sigma);
}

TEST_CASE("a blend's chances are those of ten to the six draws", "[reference]") {
    // The independent answer: draws of two lognormal demands and the normal rest, by the random engine and
    // nothing of chance.cpp. 1e6 draws leave a standard error of at most .05 points; asked for are .3.
    // The figures of the shelf's alumina lake and cochineal lake, 5 g each with 9 g of linseed oil.
    for (const double second : {std::log(1.4), 0.02, 0.107})
        for (const double shared : {0.0, 0.18}) {
            CAPTURE(second, shared);
            BatchRequest r = request(oil_paint(), grams(10));
            r.recipe.additives.clear();
            r.recipe.aim = MediumPerPigment::of(0.9);
            r.practice.shared_guess = shared;
            Pigment lake = r.recipe.pigments[0].pigment, other = lake;
            const auto guess = [](double spread) {
                return Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65), std::exp(spread), from());
            };
            lake.oil_absorption = guess(std::log(1.35));
            other.id = "other", other.oil_absorption = guess(second);
            r.recipe.pigments = {{lake, MassFraction::of(0.5)}, {other, MassFraction::of(0.5)}};
            const Batch b = *size_batch(r).batch;
            const BatchChance c = batch_chance(r, b);
            const WindowChances said = window_chances(b.film.k, c.doubt, r.recipe.family.window);
            double rest = 0.0;
            for (std::size_t i = 0; i < c.kinds.size(); ++i)
                if (c.kinds[i] != ChanceInput::oil_absorption) rest += std::pow(c.ln_k.lines[i].contribution, 2);
            rest = std::sqrt(rest);
            const double first = std::log(1.35);
            const double covariance = std::min({shared * shared, first * first, second * second});
            const double common = std::sqrt(covariance), own_1 = std::sqrt(first * first - covariance),
                         own_2 = std::sqrt(second * second - covariance);
            RandomEngine engine(20261127);
            constexpr int draws = 1'000'000;
            int under = 0, in = 0, over = 0;
            for (int i = 0; i < draws; ++i) {
                const double guess_of_both = common * standard_normal(engine);
                const double demand = 0.5 * std::exp(guess_of_both + own_1 * standard_normal(engine)) +
                                      0.5 * std::exp(guess_of_both + own_2 * standard_normal(engine));
                const double k = b.film.k.value() / demand * std::exp(rest * standard_normal(engine));
                under += k < 1.0;
                in += k >= 1.15 && k <= 1.7;
                over += k > 1.7;
            }
            CHECK(said.underbound.value() == Approx(double(under) / draws).margin(0.003));
            CHECK(said.in_window.value() == Approx(double(in) / draws).margin(0.003));
            CHECK(said.above_green.value() == Approx(double(over) / draws).margin(0.003));
        }
}

TEST_CASE("two guesses are less sure together than two rub-outs", "[identity]") {
    BatchRequest r = request(blend(), grams(10));
    const auto with = [&](Origin origin, PigmentClass second, double sd) {
        for (std::size_t i = 0; i < 2; ++i) {
            Pigment& p = r.recipe.pigments[i].pigment;
            p.oil_absorption = Estimate<OilAbsorption>::lognormal(p.oil_absorption.value().value(), std::exp(sd),
                                                                  {origin, "", false});
        }
        r.recipe.pigments[1].pigment.pigment_class = second;
        return chance_of(r).spread.oil_absorption;
    };
    const double apart = with(Origin::estimate, PigmentClass::extender, 0.2);
    const double of_a_kind = with(Origin::estimate, PigmentClass::lake, 0.2);
    // By hand: the covariance .18^2 on top of independent parts, by the shares of the demand a and 1 - a.
    const double a = .7 * 68.78 / (.7 * 68.78 + .3 * 18), both = 2 * a * (1 - a);
    CHECK(apart == near(0.2 * std::sqrt(1 - both), 1e-6));
    CHECK(of_a_kind == near(std::sqrt(0.04 * (1 - both) + both * 0.18 * 0.18), 1e-6));
    CHECK(with(Origin::measured, PigmentClass::extender, 0.1) ==
          near(std::sqrt(0.01 * (1 - both) + both * 0.05 * 0.05), 1e-6));
    CHECK(with(Origin::published, PigmentClass::lake, 0.1) == near(std::sqrt(0.01 * (1 - both)), 1e-6));
    // Never more than one and the same doubt.
    CHECK(with(Origin::estimate, PigmentClass::lake, 0.1) == near(0.1, 1e-6));
}

TEST_CASE("after a rub-out only the drift of the moisture counts", "[unit]") {
    BatchRequest r = uncertain(.10, .10);
    Pigment& p = r.recipe.pigments[0].pigment;
    CHECK(chance_of(r).spread.moisture == near(0.03, 1e-6)); // not stated: the drift
    p.moisture = Estimate<MassFraction>::normal(MassFraction::of(0.15), MassFraction::Difference::of(0.04), from());
    CHECK(chance_of(r).spread.moisture == near(0.04 / 0.85, 1e-6));
    p.oil_absorption = p.oil_absorption->with_provenance({Origin::measured, "rub-out", false});
    CHECK(chance_of(r).spread.moisture == near(0.03, 1e-6));
}

TEST_CASE("what was spooned is less sure than what was weighed", "[unit]") {
    BatchRequest r = uncertain(.10, .10);
    const double weighed = chance_of(r).spread.weighing;
    r.by_volume = {{0, Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(0.35), 1.35, from())}};
    const BatchChance c = chance_of(r);
    // Tapped density and the filling of the spoon in place of the scale; the oil is still weighed.
    CHECK(c.spread.weighing == Approx(std::hypot(std::log(1.35), 0.10)).margin(0.002));
    CHECK(share_of(c.ln_k, c, ChanceInput::tapped_density) > 0.5);
    CHECK(share_of(c.ln_k, c, ChanceInput::pigment_weighing) == Approx(0.0).margin(1e-12));
    CHECK(weighed < 0.01);
    r.by_volume.clear();
    r.medium_spooned = 0.10;
    CHECK(chance_of(r).spread.weighing == Approx(std::hypot(0.10, 0.0041)).margin(0.002));
}

TEST_CASE("where nobody says what to aim at, the window is met likeliest", "[unit]") {
    BatchRequest r = uncertain(.10, .10);
    r.recipe.aim.reset();
    const double middle = std::sqrt(1.15 * 1.7); // of the logarithms
    CHECK(std::get<BinderSufficiency>(chosen_aim(r, grams(10))).value() == near(middle, 1e-12));
    r.recipe.aim = BinderSufficiency::of(1.3);
    CHECK(std::get<BinderSufficiency>(chosen_aim(r, grams(10))).value() == near(1.3, 1e-12));
    r.aim = BinderSufficiency::of(1.5);
    CHECK(std::get<BinderSufficiency>(chosen_aim(r, grams(10))).value() == near(1.5, 1e-12));
}

TEST_CASE("what a record leaves open takes the place of what it learned", "[unit]") {
    BatchRequest r = uncertain(.30, .10);
    r.learned_doubt = NormalMixture(0.12);
    const BatchChance c = chance_of(r);
    // The mixture, and the scale of this batch: step .1 g, .041 g of 10 g of pigment and of the oil's 9 g or so.
    const double weighing = c.spread.weighing;
    CHECK(weighing == Approx(std::hypot(0.0041, 0.041 / in_grams(size_batch(r).batch->medium))).epsilon(0.02));
    CHECK(c.doubt.standard_deviation() == Approx(std::hypot(0.12, weighing)).epsilon(1e-9));
    // Oil absorption, its oil, moisture and method are all in it; solids and density of the binder beside it.
    for (const ChanceInput learned : {ChanceInput::oil_absorption, ChanceInput::test_oil_density, ChanceInput::moisture,
                                      ChanceInput::binder_index})
        CHECK(share_of(c.ln_k, c, learned) == Approx(0.0).margin(1e-12));
    CHECK(share_of(c.ln_k, c, ChanceInput::learned_demand) ==
          Approx((0.12 * 0.12 - 2 * 0.04 * 0.04) / (0.12 * 0.12 + weighing * weighing)).epsilon(1e-3));
    r.learned_doubt = NormalMixture(0.05); // less than the binder alone: nothing is left for the demand
    CHECK(share_of(chance_of(r).ln_k, chance_of(r), ChanceInput::learned_demand) == Approx(0.0).margin(1e-12));
    r.recipe.pigments = {{lake(), MassFraction::of(0.5)}, {chalk(), MassFraction::of(0.5)}};
    CHECK_THROWS_WITH(chance_of(r), Catch::Contains("pigments of a paint whose demand was learned"));
}

TEST_CASE("a bone dry density and its figure as weighed are one paint", "[identity]") {
    BatchRequest weighed = uncertain(.10, .10);
    Pigment& p = weighed.recipe.pigments[0].pigment;
    p.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.10), from());
    BatchRequest dry = weighed;
    Pigment& d = dry.recipe.pigments[0].pigment;
    // By hand, 1/(.9/rho + .1/1) = 1.88: rho = .9/(1/1.88 - .1).
    const double bone_dry = 0.9 / (1 / 1.88 - 0.1);
    d.density = Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(bone_dry), std::exp(0.106), from());
    d.density_state = MoistureState::bone_dry;
    const BatchChance a = chance_of(weighed), b = chance_of(dry);
    CHECK(b.sigma == Approx(a.sigma).epsilon(1e-9)); // k does not ask for it
    CHECK(size_batch(dry).batch->film.pvc.value() == Approx(size_batch(weighed).batch->film.pvc.value()).epsilon(1e-6));
    // Of the powder .9 x 1.88/rho of the volume is dry grain: so much of the doubt in rho is one in the volume.
    const auto of = [](const BatchChance& c) {
        for (std::size_t i = 0; i < c.kinds.size(); ++i)
            if (c.kinds[i] == ChanceInput::pigment_density) return c.ln_pvc.lines[i].contribution;
        return 0.0;
    };
    CHECK(of(b) / of(a) == Approx(0.9 * 1.88 / bone_dry).epsilon(1e-4));
}
