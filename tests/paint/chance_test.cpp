#include "lakebound/paint/chance.hpp"

#include <catch2/catch.hpp>

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
double share_of(const Budget& budget, const BatchChance& c, ChanceInput kind) {
    double share = 0.0;
    for (std::size_t i = 0; i < c.kinds.size(); ++i)
        if (c.kinds[i] == kind) share += budget.lines[i].share;
    return share;
}
} // namespace

TEST_CASE("chance of being underbound, from the inputs of a batch", "[reference]") {
    // docs/theory.md, table of chance (computed there in closed form and by Monte Carlo): library oil
    // absorption .206, one rub-out .0442, three .0235, three and own history .0044; 1 %, for the
    // weighing here is that of a 0.1 g scale (.0059) and not .006 flat. k needed to two decimals.
    struct Row {
        double oil_absorption, transfer, chance, k5, k10;
    };
    const Row rows[] = {{.30, .10, .206, 1.70, 1.51},
                        {.10, .10, .0442, 1.29, 1.22},
                        {.06, .10, .0235, 1.25, 1.19},
                        {.06, .05, .0044, 1.18, 1.14}};
    for (const Row& row : rows) {
        const BatchChance c = chance_of(uncertain(row.oil_absorption, row.transfer));
        CHECK(c.chances.underbound.value() == Approx(row.chance).epsilon(0.015));
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
    agrees(c.chances.underbound, c.drawn->underbound);
    agrees(c.chances.below_green, c.drawn->below_green);
    agrees(c.chances.above_green, c.drawn->above_green);
    agrees(c.chances.above_amber, c.drawn->above_amber);
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
                Estimate<OilAbsorption>::lognormal(part.pigment.oil_absorption.value(), 1.35, from());
        if (recipe.family.process == Process::egg_tempera)
            recipe.family.binder_index = Estimate<BinderIndex>::normal(BinderIndex::of(0.85), 0.07, from());
        ChanceOptions options;
        options.draws = 2000;
        const BatchChance c = chance_of(request(recipe, grams(10)), options);
        for (const Budget* b : {&c.ln_k, &c.ln_pvc, &c.ln_cpvc, &c.ln_reduced_pvc}) {
            double sum = 0.0;
            for (const BudgetLine& line : b->lines)
                sum += line.share;
            CHECK(sum == near(1.0, 1e-9));
        }
        CHECK(c.kinds.size() == c.ln_k.lines.size());
        CHECK(c.subjects.size() == c.kinds.size());
        CHECK(c.drawn->refused == 0);
        CHECK(c.chances.below_amber <= c.chances.below_green);
        CHECK(c.chances.above_amber <= c.chances.above_green);
        CHECK(c.sigma > 0.1);
        // Two pigments measured apart are known better together than one is alone.
        if (recipe.pigments.size() > 1) CHECK(c.spread.oil_absorption < 0.30);
    }
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
