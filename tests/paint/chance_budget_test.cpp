// The chance of a batch line by line: what is doubtful in it, how far each input moves the film, how the terms are
// gathered and what is drawn, all held against a film written out here in plain arithmetic.

#include "lakebound/paint/chance.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "support/worked_paints.hpp"

using namespace lakebound;
using namespace worked;

namespace {

Approx nearly(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-14); }

/// An input as it ought to be.
struct Doubtful {
    ChanceInput kind;
    std::string subject, name;
    Shape shape;
    double location, scale;
};
Doubtful factor(ChanceInput kind, const char* subject, const char* name, Shape shape, double spread) {
    return {kind, subject, name, spread > 0.0 ? shape : Shape::exact, 1.0, spread};
}
Provenance measured_here() { return {Origin::measured, "rub-out", false}; }

/// Lake, guessed at and damp, its density that of the bone dry grain, its step to this binder learned; a pigment that is
/// listed and absent; chalk, rubbed out, measured by a tapped volume. Gum as powder besides, by a stock; clove oil that
/// leaves nothing. A scale that carries 5 g, medium measured by the spoon.
BatchRequest all_sorts() {
    BatchRequest r = request(watercolour(), grams(10));
    Pigment a = lake(), none = lake(), c = chalk();
    a.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(68.78), 1.2, from());
    a.test_oil_density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(0.93), grams_per_cubic_centimetre(0.005), from());
    a.density = Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(2.1), 1.1, from());
    a.density_state = MoistureState::bone_dry;
    a.moisture = Estimate<MassFraction>::normal(MassFraction::of(0.15), MassFraction::Difference::of(0.04), from());
    none.id = "none";
    c.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18), 1.05, measured_here());
    c.moisture = a.moisture;
    c.name.clear();
    r.recipe.pigments = {{a, MassFraction::of(0.7), 1.25}, {none, MassFraction::of(0.0)}, {c, MassFraction::of(0.3)}};
    r.recipe.additives = {{gum(), MassFraction::of(0.021), DoseBasis::pigment},
                          {clove_oil(), MassFraction::of(0.001), DoseBasis::medium}};
    r.recipe.family.binder_index =
        Estimate<BinderIndex>::normal(BinderIndex::of(0.85), BinderIndex::Difference::of(0.07), from());
    r.recipe.family.binder_solids_spread = 0.05;
    r.bench.scales[0].capacity = grams(5);
    r.by_volume = {{2, Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(0.6), 1.15, from())}};
    r.medium_spooned = 0.0008;
    return r;
}
std::vector<Doubtful> inputs_of_all_sorts() {
    using enum ChanceInput;
    constexpr Shape n = Shape::normal, l = Shape::lognormal, x = Shape::exact;
    return {
        {oil_absorption, "lake-m", "oil absorption of Lake M", l, 0.6878, std::log(1.2)},
        {test_oil_density, "lake-m", "density of the test oil of Lake M", n, 930, 5},
        {pigment_density, "lake-m", "density of Lake M", l, 2100, std::log(1.1)},
        factor(moisture, "lake-m", "moisture of Lake M", l, 0.04 / 0.85),
        factor(pigment_weighing, "lake-m", "weighing of Lake M", n, 0.041 * std::sqrt(2.0) / 7.0), // 7 g in two portions
        {oil_absorption, "chalk", "oil absorption of chalk", l, 0.18, std::log(1.05)},
        {test_oil_density, "chalk", "density of the test oil of chalk", x, 930, 0},
        {pigment_density, "chalk", "density of chalk", x, 2700, 0},
        factor(moisture, "chalk", "moisture of chalk", l, 0.03), // rubbed out: the drift since then
        {tapped_density, "chalk", "tapped density of chalk", l, 1.0, std::log(1.15)},
        factor(spooning, "chalk", "filling of the spoon of chalk", l, 0.10),
        factor(binder_weighing, "gum-medium", "weighing of gum-medium", n, 0.0), // spooned, not weighed
        factor(binder_weighing, "gum-arabic", "weighing of gum-arabic", n, 0.041 / 2.1), // 2.1 g at 1 in 10
        {binder_index, "", "binder index", n, 0.85, 0.07},
        factor(binder_solids, "", "binder solids", l, 0.05),
        factor(binder_density, "", "binder density", l, 0.04),
        factor(method_transfer, "", "from the oil rub-out to this binder", l, 0.10),
        factor(spooning, "gum-medium", "amount of the medium by the spoon", l, 0.0008),
    };
}
/// k, PVC, CPVC and reduced PVC of 10 g of that paint with so much medium, SI units.
std::array<double, 4> film_of_all_sorts(std::span<const double> x, double medium) {
    const double lake_mass = 0.007 * x[3] * x[4], chalk_mass = 0.003 * x[8] * x[9] * x[10];
    const double lake_density = 1.0 / (0.85 / x[2] + 0.15 / 1000.0);
    const double pigment = lake_mass / lake_density + chalk_mass / x[7];
    const double wanted = (lake_mass * x[0] / x[1] * 1.25 + chalk_mass * x[5] / x[6]) * x[16];
    const double of_medium = medium / 340.0 * (100 * 0.88 / 1420 + 25 / 1261.0 + 15 * 0.82 / 1550) * x[11] * x[17];
    const double of_gum = 0.00021 * 0.88 / 1420 * x[12];
    const double binder = (of_medium + of_gum) * x[14] * x[15];
    const double e = std::min(1.0, std::max(0.1, x[13]));
    const double pvc = pigment / (pigment + binder), cpvc = pigment / (pigment + wanted / e);
    return {binder * e / wanted, pvc, cpvc, pvc / cpvc};
}
double placed(const Doubtful& d, double z) {
    return d.shape == Shape::lognormal ? d.location * std::exp(d.scale * z) : d.location + d.scale * z;
}

} // namespace

TEST_CASE("every line of the budgets of a paint is what it should be", "[reference]") {
    const BatchRequest r = all_sorts();
    const Batch batch = batch_of(r, grams(10));
    REQUIRE(batch.sheet.slab.at(4).stock); // the gum
    REQUIRE(in_grams(batch.sheet.slab[4].stock->stock) == nearly(2.1, 1e-12));
    const BatchChance c = batch_chance(r, batch);
    const auto inputs = inputs_of_all_sorts();
    const double medium = batch.medium.value();
    REQUIRE(c.kinds.size() == inputs.size());
    REQUIRE(c.subjects.size() == inputs.size());
    std::vector<double> best;
    for (const Doubtful& d : inputs)
        best.push_back(d.location);
    const auto at_best = film_of_all_sorts(best, medium);
    const Budget* budgets[] = {&c.ln_k, &c.ln_pvc, &c.ln_cpvc, &c.ln_reduced_pvc};
    std::array<std::vector<double>, 4> contribution;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        CAPTURE(i, inputs[i].name);
        CHECK(c.kinds[i] == inputs[i].kind);
        CHECK(c.subjects[i] == inputs[i].subject);
        auto up = best, down = best;
        constexpr double h = 1e-4;
        const bool exact = inputs[i].shape == Shape::exact;
        up[i] = exact ? best[i] * (1 + h) : placed(inputs[i], h);
        down[i] = exact ? best[i] * (1 - h) : placed(inputs[i], -h);
        const auto high = film_of_all_sorts(up, medium), low = film_of_all_sorts(down, medium);
        for (std::size_t o = 0; o < 4; ++o) {
            const BudgetLine& line = budgets[o]->lines.at(i);
            const double slope = std::log(high[o] / low[o]) / (2 * h);
            CHECK(line.name == inputs[i].name);
            CHECK(line.value == nearly(inputs[i].location, 1e-12));
            CHECK(line.contribution == Approx(exact ? 0.0 : slope).epsilon(1e-6).margin(1e-9));
            const double per_unit = exact                                ? slope / best[i]
                                    : inputs[i].shape == Shape::lognormal ? slope / (inputs[i].scale * best[i])
                                                                         : slope / inputs[i].scale;
            CHECK(line.sensitivity * best[i] == Approx(per_unit * best[i]).epsilon(1e-6).margin(1e-8));
            contribution[o].push_back(exact ? 0.0 : slope);
        }
    }
    const auto spread = [&](std::size_t o) {
        double sum = 0.0;
        for (const double each : contribution[o])
            sum += each * each;
        return std::sqrt(sum);
    };
    for (std::size_t o = 0; o < 4; ++o) {
        CHECK(budgets[o]->value == nearly(std::log(at_best[o]), 1e-9));
        CHECK(budgets[o]->standard_uncertainty == nearly(spread(o), 1e-6));
    }
    double both = 0.0;
    for (std::size_t i = 0; i < inputs.size(); ++i)
        both += contribution[1][i] * contribution[2][i];
    CHECK(c.pvc_cpvc_correlation == nearly(both / spread(1) / spread(2), 1e-6));
    CHECK(c.pvc_uncertainty == nearly(at_best[1] * spread(1), 1e-6));
    CHECK(c.cpvc_uncertainty == nearly(at_best[2] * spread(2), 1e-6));
    CHECK(c.reduced_pvc_uncertainty == nearly(at_best[3] * spread(3), 1e-6));
    CHECK(c.k_uncertainty == nearly(at_best[0] * c.doubt.standard_deviation(), 1e-9));
    CHECK(c.sigma == nearly(c.doubt.standard_deviation(), 1e-12));

    // Gathered into terms: roots of sums of squares; the density by what it does to the volume of the pigment.
    const auto term = [&](std::initializer_list<std::size_t> lines, std::size_t o = 0) {
        double sum = 0.0;
        for (const std::size_t i : lines)
            sum += contribution[o][i] * contribution[o][i];
        return std::sqrt(sum);
    };
    CHECK(c.spread.oil_absorption == nearly(term({0, 1, 5, 6}), 1e-6));
    CHECK(c.spread.moisture == nearly(term({3, 8}), 1e-6));
    CHECK(c.spread.weighing == nearly(term({4, 9, 10, 11, 12, 17}), 1e-6));
    CHECK(c.spread.method_transfer == nearly(term({13, 16}), 1e-6));
    CHECK(c.spread.binder_solids == nearly(0.05, 1e-6));
    CHECK(c.spread.binder_density == nearly(0.04, 1e-6));
    CHECK(c.spread.pigment_density == nearly(term({2, 7}, 1) / (1.0 - at_best[1]), 1e-6));
    CHECK(weighing_spread(c) == nearly(term({4, 9, 10, 11, 12, 17}), 1e-6));
    // One in twenty and one in ten of such paints, made at these k, hold air.
    CHECK(c.doubt.below(-std::log(c.k_for_5_percent.value())).value() == Approx(0.05).margin(1e-8));
    CHECK(c.doubt.below(-std::log(c.k_for_10_percent.value())).value() == Approx(0.10).margin(1e-8));
}

TEST_CASE("what is drawn of a paint is its film at the drawn inputs, figure by figure", "[reference]") {
    // The same draws by the estimate room and the film written out above; an index so wide that it meets both its ends.
    BatchRequest r = all_sorts();
    auto doubtful = inputs_of_all_sorts();
    doubtful[13].location = 0.5, doubtful[13].scale = 0.3;
    r.recipe.family.binder_index =
        Estimate<BinderIndex>::normal(BinderIndex::of(0.5), BinderIndex::Difference::of(0.3), from());
    const Batch batch = batch_of(r, grams(10));
    const double medium = batch.medium.value();
    ChanceOptions options;
    options.draws = 800, options.seed = 7, options.drawing = Drawing::stratified, options.coverage = 0.8;
    const BatchChance c = batch_chance(r, batch, options);
    REQUIRE(c.drawn);
    std::vector<UncertainInput> inputs;
    for (const Doubtful& d : doubtful)
        inputs.push_back({d.name, {d.shape, d.location, d.scale}, {}});
    MonteCarloOptions how;
    how.draws = 800, how.seed = 7, how.drawing = Drawing::stratified;
    const auto draws = joint_monte_carlo(
        [&](std::span<const double> x, std::span<double> y) {
            const auto film = film_of_all_sorts(x, medium);
            std::copy(film.begin(), film.end(), y.begin());
        },
        4, inputs, how);
    const SampleSummary* drawn[] = {&c.drawn->k, &c.drawn->pvc, &c.drawn->cpvc, &c.drawn->reduced_pvc};
    for (std::size_t o = 0; o < 4; ++o) {
        CAPTURE(o);
        const SampleSummary own = summarise(draws, 0.8, o);
        CHECK(drawn[o]->count == own.count);
        CHECK(drawn[o]->mean == nearly(own.mean, 1e-10));
        CHECK(drawn[o]->standard_deviation == nearly(own.standard_deviation, 1e-10));
        CHECK(drawn[o]->median == nearly(own.median, 1e-10));
        CHECK(drawn[o]->symmetric.low == nearly(own.symmetric.low, 1e-10));
        CHECK(drawn[o]->symmetric.high == nearly(own.symmetric.high, 1e-10));
        CHECK(drawn[o]->shortest.low == nearly(own.shortest.low, 1e-10));
        CHECK(drawn[o]->shortest.high == nearly(own.shortest.high, 1e-10));
    }
    CHECK(c.drawn->draws == draws.count());
    CHECK(c.drawn->refused == 0);
    const auto& k = draws.outputs[0];
    const auto share = [&](auto&& holds) {
        return static_cast<double>(std::count_if(k.begin(), k.end(), holds)) / static_cast<double>(k.size());
    };
    CHECK(c.drawn->underbound.value == nearly(share([](double each) { return each < 1.0; }), 1e-12));
    CHECK(c.drawn->below_amber.value == nearly(share([](double each) { return each < 1.0; }), 1e-12));
    CHECK(c.drawn->below_green.value == nearly(share([](double each) { return each < 1.2; }), 1e-12));
    CHECK(c.drawn->above_green.value == nearly(share([](double each) { return each > 1.8; }), 1e-12));
    CHECK(c.drawn->above_amber.value == nearly(share([](double each) { return each > 2.4; }), 1e-12));
    CHECK(c.drawn->below_amber.value > 0.02);
    CHECK(c.drawn->above_amber.value > 0.02);
    double both = 0.0;
    for (std::size_t i = 0; i < draws.count(); ++i)
        both += (draws.outputs[1][i] - c.drawn->pvc.mean) * (draws.outputs[2][i] - c.drawn->cpvc.mean);
    both /= static_cast<double>(draws.count() - 1);
    CHECK(c.drawn->pvc_cpvc_correlation ==
          nearly(both / c.drawn->pvc.standard_deviation / c.drawn->cpvc.standard_deviation, 1e-9));
}

TEST_CASE("nothing doubtful is drawn without a spread and without a correlation", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    r.recipe.additives.clear();
    r.recipe.family.method_transfer = r.recipe.family.binder_solids_spread = r.recipe.family.binder_density_spread = 0.0;
    r.practice.moisture_drift = 0.0;
    // Only the oil is weighed with doubt: PVC is drawn, CPVC stands.
    r.bench.scales = {{"rough", grams(0.1), {}, {}}};
    ChanceOptions options;
    options.draws = 16;
    BatchChance c = batch_chance(r, *size_batch(r).batch, options);
    CHECK(c.drawn->cpvc.standard_deviation == Approx(0.0).margin(1e-12));
    CHECK(std::abs(c.drawn->pvc_cpvc_correlation) <= 1.0);
    CHECK_FALSE(batch_chance(r, *size_batch(r).batch).drawn);
    options.draws = 2;
    CHECK(batch_chance(r, *size_batch(r).batch, options).drawn->draws == 2);
}

TEST_CASE("what weighing and spooning leave open is their lines of ln k and no others", "[unit]") {
    BatchChance c;
    double by_hand = 0.0, contribution = 0.01;
    using enum ChanceInput;
    for (const ChanceInput kind : {pigment_weighing, oil_absorption, test_oil_density, pigment_density, moisture, binder_weighing,
                                   binder_index, binder_solids, binder_density, method_transfer, tapped_density, spooning, learned_demand}) {
        const bool weighed = kind == pigment_weighing || kind == binder_weighing || kind == tapped_density || kind == spooning;
        BudgetLine line;
        line.contribution = contribution;
        if (weighed) by_hand += contribution * contribution;
        c.kinds.push_back(kind);
        c.ln_k.lines.push_back(line);
        CHECK(weighing_spread(c) == nearly(std::sqrt(by_hand), 1e-12));
        contribution *= -1.3;
    }
}

TEST_CASE("drops are counted surer the more they are, and a known repeatability counts in place of the step", "[reference]") {
    BatchRequest r = request(watercolour(), grams(20));
    r.recipe.additives = {{glycerol(), MassFraction::of(0.004), DoseBasis::medium}};
    r.bench.kitchen.drop = millilitres(0.03);
    r.bench.scales[0].repeatability = grams(0.09); // more than .41 of the step
    const Batch b = *size_batch(r).batch;
    REQUIRE(b.sheet.slab.at(2).drops);
    const int drops = b.sheet.slab[2].drops->drops;
    REQUIRE(drops > 3);
    const BatchChance c = batch_chance(r, b);
    const auto line = [&](const std::string& name) {
        for (const BudgetLine& each : c.ln_k.lines)
            if (each.name == name) return each;
        FAIL(name);
        return BudgetLine{};
    };
    CHECK(line("weighing of glycerol").standard_uncertainty == nearly(0.10 / std::sqrt(drops), 1e-9));
    CHECK(line("weighing of Lake M").standard_uncertainty == nearly(0.09 / 20, 1e-9));
    CHECK(line("weighing of gum-medium").standard_uncertainty == nearly(0.09 / in_grams(b.medium), 1e-9));
    for (const BudgetLine& each : c.ln_k.lines) // what the shelf and the scale say is no figure of a source
        if (each.name.rfind("weighing", 0) == 0) CHECK(each.provenance.origin == Origin::estimate);
}

TEST_CASE("a spooned paint has a tapped density that may be sure", "[unit]") {
    BatchRequest r = request(oil_paint(), grams(10));
    r.by_volume = {{0, exactly(grams_per_cubic_centimetre(0.35))}};
    const BatchChance c = batch_chance(r, *size_batch(r).batch);
    for (std::size_t i = 0; i < c.kinds.size(); ++i) {
        if (c.kinds[i] == ChanceInput::tapped_density) CHECK(c.ln_k.lines[i].contribution == nearly(0.0, 1e-15));
        if (c.kinds[i] == ChanceInput::spooning && c.subjects[i] == "lake-m")
            CHECK(c.ln_k.lines[i].contribution == nearly(-0.10, 1e-6));
    }
}

TEST_CASE("pigments share a doubt where one hand rubbed both, or one guess made both", "[reference]") {
    // Variance of ln of a sum of two demands: s1 f, s2 (1 - f) and twice their covariance f (1 - f); the covariance is
    // .05^2 of rub-outs, .18^2 of guesses of one class, no more than the smaller variance, and else nothing.
    const double f = .7 * 68.78 / (.7 * 68.78 + .3 * 18);
    const Origin origins[] = {Origin::measured, Origin::estimate, Origin::published, Origin::memory};
    for (const Origin first : origins)
        for (const Origin second : origins)
            for (const PigmentClass of : {PigmentClass::lake, PigmentClass::extender})
                for (const auto& [s1, s2] : {std::pair{0.3, 0.25}, {0.3, 0.1}, {0.04, 0.3}, {0.0, 0.3}, {0.02, 0.03}}) {
                    CAPTURE(static_cast<int>(first), static_cast<int>(second), static_cast<int>(of), s1, s2);
                    BatchRequest r = request(blend(), grams(10));
                    Pigment &a = r.recipe.pigments[0].pigment, &b = r.recipe.pigments[1].pigment;
                    a.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(68.78), std::exp(s1), {first, "", false});
                    b.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18), std::exp(s2), {second, "", false});
                    b.pigment_class = of;
                    double shared = 0.0;
                    if (first == Origin::measured && second == Origin::measured) shared = 0.05;
                    if (first == Origin::estimate && second == Origin::estimate && of == PigmentClass::lake) shared = 0.18;
                    const double covariance = std::min({shared * shared, s1 * s1, s2 * s2});
                    const double variance = f * f * s1 * s1 + (1 - f) * (1 - f) * s2 * s2 + 2 * f * (1 - f) * covariance;
                    CHECK(batch_chance(r, batch_of(r, grams(10))).spread.oil_absorption == Approx(std::sqrt(variance)).epsilon(1e-5));
                }
}

TEST_CASE("small batches, small doubts and thin films are reckoned like any other", "[reference]") {
    const auto line = [](const BatchChance& c, ChanceInput kind) {
        for (std::size_t i = 0; i < c.kinds.size(); ++i)
            if (c.kinds[i] == kind) return c.ln_k.lines[i];
        return BudgetLine{};
    };
    // Half a gram on a scale of .1 g: .041 of .5, and so of the oil.
    BatchRequest r = request(oil_paint(), grams(0.5));
    r.recipe.additives.clear();
    const Batch b = batch_of(r, grams(0.5));
    const BatchChance c = batch_chance(r, b);
    CHECK(line(c, ChanceInput::pigment_weighing).contribution == nearly(-0.041 / 0.5, 1e-5));
    CHECK(line(c, ChanceInput::binder_weighing).contribution == nearly(0.041 / in_grams(b.medium), 1e-5));
    // A tapped density known to a two-thousandth is a doubt, if a small one.
    r.by_volume = {{0, Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(0.35), std::exp(4e-4), from())}};
    CHECK(line(batch_chance(r, b), ChanceInput::tapped_density).contribution == nearly(-4e-4, 1e-6));
    // A hand that is sure to a fiftieth is shared all the same.
    BatchRequest two = request(blend(), grams(10));
    two.practice.rub_out.hand_and_oil = 0.02;
    for (PigmentPart& part : two.recipe.pigments)
        part.pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(part.pigment.oil_absorption->value(), std::exp(0.1), measured_here());
    const double f = .7 * 68.78 / (.7 * 68.78 + .3 * 18), both = 2 * f * (1 - f);
    CHECK(batch_chance(two, batch_of(two, grams(10))).spread.oil_absorption ==
          Approx(std::sqrt(0.01 * (1 - both) + both * 4e-4)).epsilon(1e-5));
    // The doubt about the density of the pigment is the same in a film of next to no binder.
    BatchRequest thin = request(oil_paint(), grams(10));
    thin.recipe.additives.clear();
    thin.recipe.pigments[0].pigment.density = Estimate<MassDensity>::lognormal(grams_per_cubic_centimetre(1.88), 1.1, from());
    for (const double k : {4e-4, 0.01, 1.4}) {
        thin.aim = BinderSufficiency::of(k);
        CHECK(batch_chance(thin, batch_of(thin, grams(10))).spread.pigment_density == nearly(std::log(1.1), 1e-5));
    }
}
