// What the paint room says where a sum has hardly anything in it, and what it takes where nothing is said.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "lakebound/paint/batch_subject.hpp"
#include "lakebound/paint/chance.hpp"
#include "lakebound/paint/chance_kernel.hpp"
#include "lakebound/paint/jar_remains.hpp"
#include "lakebound/paint/sweep_answer.hpp"
#include "lakebound/paint/working.hpp"
#include "support/example_paint.hpp"
#include "support/told.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("the maker's aim stands, or the recipe's; where neither is said it is chosen", "[unit]") {
    const auto aimed = [](std::optional<BinderSufficiency> maker, std::optional<BinderSufficiency> recipe) {
        auto request = example_request(Process::oil);
        request.aim.reset(), request.recipe.aim.reset();
        if (maker) request.aim = *maker;
        if (recipe) request.recipe.aim = *recipe;
        return batch_subject(request, example_tests()).answer.batch->film.k.value();
    };
    const auto one = BinderSufficiency::of(1.22), other = BinderSufficiency::of(1.61);
    CHECK(aimed(one, {}) == Approx(1.22));
    CHECK(aimed({}, other) == Approx(1.61));
    CHECK(aimed(one, other) == Approx(1.22));
    const double chosen = aimed({}, {});
    CHECK(std::abs(chosen - 1.22) > 0.01);
    CHECK(std::abs(chosen - 1.61) > 0.01);
    CHECK(chosen > 1.15);
    CHECK(chosen < 1.7);
}

TEST_CASE("a line is named by its part where the medium is of one part, by the medium where it is of two", "[unit]") {
    auto request = example_request(Process::oil);
    request.recipe.medium.id = "oil-for-tubes", request.recipe.medium.name = "Oil for tubes";
    const auto named = [&] {
        const auto batch = *size_batch(request).batch;
        const auto line = std::find_if(batch.sheet.slab.begin(), batch.sheet.slab.end(), [](const Weighing& w) { return w.part == SheetPart::medium; });
        return line->id + ": " + line->name;
    };
    CHECK(named() == "linseed-oil: Linseed oil, refined");
    request.recipe.medium.parts.push_back({example_ingredient("walnut-oil", "Walnut oil", Role::drying_oil, 0.925, 1.0, 0.925), 1.0});
    CHECK(named() == "oil-for-tubes: Oil for tubes");
}

TEST_CASE("a twentieth of a hundredth of a preservative is in the paint, none of it is not", "[unit]") {
    auto request = example_request(Process::watercolour);
    request.recipe.additives.front().ingredient.works_as = PreservativeAcid::benzoic;
    const auto preservatives = [&](double dose) {
        request.recipe.additives.front().dose = MassFraction::of(dose);
        return paint_of_lake(request.recipe, MassFraction::of(1.0), nullptr, {}).preservatives.size();
    };
    CHECK(preservatives(0.0005) == 1);
    CHECK(preservatives(0.0) == 0);
}

TEST_CASE("the working of a blend puts its pigments together", "[reference]") {
    auto request = example_request(Process::oil);
    auto chalk = example_lake();
    chalk.id = "chalk", chalk.name = "Chalk, ground";
    chalk.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.70), {});
    chalk.oil_absorption = Estimate<OilAbsorption>::exact(grams_per_100_grams(20.0), {});
    request.recipe.pigments = {{example_lake(), MassFraction::of(0.75)}, {chalk, MassFraction::of(0.25)}};
    const auto steps = working(request, *size_batch(request).batch);
    const auto of = [&](const std::string& formula) {
        const auto step = std::find_if(steps.begin(), steps.end(), [&](const WorkingStep& s) { return s.formula == formula; });
        return step == steps.end() ? -1.0 : step->result;
    };
    // Demand 0.6878 / 0.93 and 0.20 / 0.93 mL/g by mass; densities by volume.
    CHECK(of("sum x_i q_i") == Approx(0.75 * 0.6878 / 0.93 + 0.25 * 0.20 / 0.93).epsilon(1e-9));
    CHECK(of("1 / sum (x_i / rho_i)") == Approx(1 / (0.75 / 1.88 + 0.25 / 2.70)).epsilon(1e-9));
    const auto alone = working(example_request(Process::oil), *size_batch(example_request(Process::oil)).batch);
    CHECK(std::none_of(alone.begin(), alone.end(), [](const WorkingStep& s) { return s.formula == "sum x_i q_i"; }));
}

namespace {
PaintInputs sure_inputs() {
    const auto sure = [](double x) { return Distribution{Shape::exact, x, 0.0}; };
    return {sure(0.010), sure(0.9), sure(0.70), sure(930), sure(1.1), sure(1900), sure(0.012), sure(0.8), sure(1000), sure(0.95)};
}
const SufficiencyWindow a_window{BinderSufficiency::of(1.0), BinderSufficiency::of(1.2), BinderSufficiency::of(1.8), BinderSufficiency::of(2.4)};
} // namespace

TEST_CASE("a paint without doubt is drawn as its formulas are written", "[reference]") {
    const auto drawn = draw_paint(sure_inputs(), a_window, 64);
    const double m = 0.010 * 0.9, q = 0.70 * 1.1 / 930, pigment = m / 1900, binder = 0.012 * 0.8 / 1000;
    const double pvc = pigment / (pigment + binder), cpvc = pigment / (pigment + m * q / 0.95);
    CHECK(drawn.k.mean == Approx(0.95 * binder / (m * q)).epsilon(1e-12));
    CHECK(drawn.pvc.mean == Approx(pvc).epsilon(1e-12));
    CHECK(drawn.cpvc.mean == Approx(cpvc).epsilon(1e-12));
    CHECK(drawn.reduced_pvc.mean == Approx(pvc / cpvc).epsilon(1e-12));
    CHECK(drawn.k.standard_deviation == 0.0);
}

TEST_CASE("inputs of the kernel have something in them, and a normal one at most a tenth of doubt", "[errors]") {
    auto inputs = sure_inputs();
    inputs.pigment_density.location = 0.0;
    CHECK(told([&] { (void)draw_paint(inputs, a_window, 64); }).find(": 0") != std::string::npos);
    inputs = sure_inputs();
    inputs.pigment_density = {Shape::normal, 2000, 200};
    CHECK(told([&] { (void)draw_paint(inputs, a_window, 64); }) == "taken");
    inputs.pigment_density = {Shape::normal, 2000, 250};
    CHECK(told([&] { (void)draw_paint(inputs, a_window, 64); }).find(": 0.125") != std::string::npos);
}

TEST_CASE("a hundredth of doubt of the density alone moves PVC and CPVC together", "[reference]") {
    auto request = example_request(Process::oil);
    auto& pigment = request.recipe.pigments.front().pigment;
    pigment.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88), grams_per_cubic_centimetre(0.0188), {});
    pigment.oil_absorption = Estimate<OilAbsorption>::exact(grams_per_100_grams(68.78), {});
    pigment.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), {});
    request.recipe.family.method_transfer = request.recipe.family.binder_solids_spread = request.recipe.family.binder_density_spread = 0.0;
    request.practice.moisture_drift = 0.0;
    request.bench.scales = {{"fine", grams(0.0001), {}, {}}};
    ChanceOptions options;
    options.draws = 200;
    const auto chance = batch_chance(request, *size_batch(request).batch, options);
    CHECK(chance.drawn->pvc.standard_deviation * chance.drawn->cpvc.standard_deviation < 1e-4);
    CHECK(chance.drawn->pvc_cpvc_correlation == Approx(1.0).epsilon(1e-4));
}

TEST_CASE("a sweep takes eleven places where none are said", "[unit]") {
    CHECK(SweepWish{}.points == 11);
    CHECK(SweepWish{}.over == SweepOver::medium);
}

TEST_CASE("the working says what a dose is of", "[unit]") {
    const auto dose = [](DoseBasis basis) {
        auto request = example_request(Process::watercolour);
        request.recipe.additives.front().basis = basis, request.recipe.additives.front().dose = MassFraction::of(0.02);
        const auto batch = *size_batch(request).batch;
        const auto steps = working(request, batch);
        const auto step = std::find_if(steps.begin(), steps.end(), [](const WorkingStep& s) { return s.name == "Clove oil"; });
        CHECK(step->result == Approx(in_grams(batch.composition.additives.front())).epsilon(1e-12));
        return step->formula;
    };
    CHECK(dose(DoseBasis::medium) == "d m_m");
    CHECK(dose(DoseBasis::pigment) == "d m_p");
    CHECK(dose(DoseBasis::paint) == "d m_paint");
}

TEST_CASE("a jar is of one of the pigments, a medium leaves something in the film", "[errors]") {
    auto request = example_request(Process::oil);
    request.jar->pigment = 1; // of one pigment, counted from 0
    CHECK(told([&] { (void)size_batch(request); }) == "index of the pigment in the jar: 1");
    request = example_request(Process::watercolour);
    request.recipe.medium.parts = {{example_ingredient("water", "Water", Role::water, 0.9982, 0.0), 1.0}};
    request.recipe.additives.clear();
    CHECK(told([&] { (void)formulate(request.recipe, BinderSufficiency::of(1.4)); }) == "dry binder in the medium: 0 mL/g");
    CHECK(PlasticiserRange{}.least == 0.0);
    CHECK(std::isinf(PlasticiserRange{}.most));
}

TEST_CASE("stocks take off the oil what may be taken, together, and no more", "[unit]") {
    auto request = example_request(Process::oil);
    request.bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}}};
    for (const char* id : {"drier-a", "drier-b", "drier-c", "drier-d", "drier-e", "drier-f", "drier-g", "drier-h", "drier-i", "drier-j"}) {
        auto drier = example_ingredient(id, id, Role::solvent, 0.9, 0.0);
        drier.stock = StockPractice{{oil_of_the_medium}, Estimate<MassFraction>::exact(MassFraction::of(0.10), library()), grams(20.0)};
        request.recipe.additives.push_back({drier, MassFraction::of(0.02), DoseBasis::medium});
    }
    const auto batch = *size_batch(request).batch;
    int stocks = 0;
    Mass carrier;
    for (const auto& line : batch.sheet.slab)
        if (line.part == SheetPart::additive && line.stock) ++stocks, carrier = line.stock->carrier_mass;
    CHECK(stocks >= 2);
    CHECK(stocks <= 9);
    const double fit = (request.practice.small_amounts.stock_share * batch.medium / carrier);
    CHECK(stocks == static_cast<int>(std::floor(fit)));
}
