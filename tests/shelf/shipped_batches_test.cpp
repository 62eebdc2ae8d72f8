// What must hold of a batch holds of every recipe on the shelf; a new recipe inherits it all.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "lakebound/paint/chance.hpp"
#include "lakebound/paint/working.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"

using namespace lakebound;

namespace {

const std::string shipped = LAKEBOUND_FORMULATIONS_DIR;
const std::string studio = shipped + "/studios/reedmere";

Approx near(double x, double relative) { return Approx(x).epsilon(relative).margin(1e-15); }

struct Case {
    std::string name;
    BatchRequest request; ///< 10 g
};

/// Every shipped recipe with every jar of the demo studio.
std::vector<Case> cases() {
    Library library({{shipped, "test", true}});
    const Bench bench = read_bench_file(studio + "/bench.yaml");
    std::vector<Case> all;
    for (const std::string jar_name : {"weld", "madder"}) {
        const Jar jar = library.jar(studio + "/jars/" + jar_name + ".yaml");
        for (const std::string& id : library.ids(ShelfKind::recipe)) {
            BatchRequest r;
            r.recipe = library.recipe(id, &jar);
            r.amount = grams(10);
            r.bench = bench;
            r.practice = library.practice();
            all.push_back({id + " of " + jar_name, r});
        }
    }
    return all;
}

double sheet_shift(BatchRequest r, double step_g) {
    r.bench.scales = {{"scale", grams(step_g), std::nullopt, std::nullopt}};
    return batch_of(r, grams(10)).sheet.k_shift;
}

} // namespace

TEST_CASE("masses balance and double with the batch", "[identity]") {
    for (const Case& c : cases()) {
        INFO(c.name);
        const Batch one = *size_batch(c.request).batch;
        const Batch two = batch_of(c.request, grams(20));
        double sum = in_grams(one.working_water);
        for (const auto* lines : {&one.pigments, &one.medium_parts, &one.additives})
            for (const BatchLine& line : *lines)
                sum += in_grams(line.mass);
        CHECK(in_grams(one.paint) == near(sum, 1e-12));
        CHECK(in_grams(two.paint) == near(2 * in_grams(one.paint), 1e-12));
        for (std::size_t i = 0; i < one.medium_parts.size(); ++i)
            CHECK(in_grams(two.medium_parts[i].mass) == near(2 * in_grams(one.medium_parts[i].mass), 1e-12));
        for (std::size_t i = 0; i < one.additives.size(); ++i)
            CHECK(in_grams(two.additives[i].mass) == near(2 * in_grams(one.additives[i].mass), 1e-12));
        CHECK(two.film.k.value() == near(one.film.k.value(), 1e-12));
        CHECK(one.volumes.cake.value() <= one.volumes.wet.value() * (1 + 1e-12));
    }
}

TEST_CASE("what the sheet says to weigh adds up to the paint, however small the batch", "[identity]") {
    // A stock brings its carrier along: it is taken off elsewhere, leaves the film, or the stock is not
    // offered.
    const auto weighed = [](const Weighing& w) { return in_grams(w.stock ? w.stock->stock : w.to_weigh); };
    for (Case& c : cases())
        for (const double step : {0.1, 0.01})
            for (const double pigment : {0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 10.0, 40.0}) {
                c.request.bench.scales = {{.name = "scale", .step = grams(step)}};
                const Batch batch = batch_of(c.request, grams(pigment));
                INFO(c.name << ", " << pigment << " g, on a scale of " << step << " g");
                double medium = 0.0, fresh = 0.0;
                for (const Weighing& w : batch.sheet.slab) {
                    if (w.drops) medium -= in_grams(w.exact); // they are weighed with the medium
                    const bool of_the_medium = w.stock && w.stock->deducted_from == SheetPart::medium;
                    if (w.part == SheetPart::medium) medium += weighed(w);
                    if (of_the_medium) medium += in_grams(w.stock->carrier_mass);
                    if (of_the_medium) fresh += in_grams(w.stock->carrier_mass);
                }
                for (const Weighing& w : batch.sheet.medium)
                    fresh += weighed(w);
                // A stock is rounded to the step of the scale, and its carrier with it.
                CHECK(medium == Approx(in_grams(batch.medium)).margin(2 * step));
                CHECK(fresh == Approx(in_grams(batch.medium)).margin(2 * step));
            }
}

TEST_CASE("k stays when only the density of the pigment changes", "[identity]") {
    for (Case& c : cases()) {
        INFO(c.name);
        // A recipe aimed by PVC or reduced PVC asks for the density; its medium, once mixed, does not.
        const MediumPerPigment medium =
            formulate(c.request.recipe, aim_of(c.request.recipe)).medium_per_pigment;
        const BinderSufficiency before = formulate(c.request.recipe, medium).k;
        for (PigmentPart& part : c.request.recipe.pigments)
            part.pigment.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(3.3), {});
        CHECK(formulate(c.request.recipe, medium).k.value() == near(before.value(), 1e-12));
    }
}

TEST_CASE("at k = 1 the PVC is the CPVC", "[identity]") {
    for (Case& c : cases()) {
        INFO(c.name);
        c.request.aim = BinderSufficiency::of(1.0);
        const Batch b = *size_batch(c.request).batch;
        CHECK(b.film.pvc.value() == near(b.film.cpvc.value(), 1e-12));
    }
}

TEST_CASE("a finer scale converges to the unrounded sheet", "[identity]") {
    for (const Case& c : cases()) {
        INFO(c.name);
        CHECK(sheet_shift(c.request, 0.01) < 0.01);
        CHECK(sheet_shift(c.request, 1e-5) < 1e-5);
    }
}

TEST_CASE("every shipped recipe lies in the green of its family and fills what it is for", "[identity]") {
    for (Case& c : cases()) {
        INFO(c.name);
        REQUIRE(c.request.recipe.vessel);
        c.request.amount = VesselCount{*c.request.recipe.vessel, 3};
        const Batch b = *size_batch(c.request).batch;
        CHECK(b.verdict == Verdict::green);
        CHECK(b.filling->vessels == 3);
        CHECK(b.sheet.k_shift < 0.02);
        CHECK_FALSE(working(c.request, b).empty());
    }
}

TEST_CASE("chances of every shipped recipe add up", "[identity]") {
    for (const Case& c : cases()) {
        INFO(c.name);
        const Batch b = *size_batch(c.request).batch;
        ChanceOptions options;
        options.draws = 4000;
        const BatchChance chance = batch_chance(c.request, b, options);
        double shares = 0.0;
        for (const BudgetLine& line : chance.ln_k.lines)
            shares += line.share;
        CHECK(shares == near(1.0, 1e-9));
        CHECK(chance.sigma > 0.0);
        // First order against the drawn spread; skewed inputs differ by a little.
        CHECK(chance.drawn->k.standard_deviation == Approx(chance.k_uncertainty).epsilon(0.15));
        CHECK(chance.drawn->underbound.value ==
              Approx(window_chances(b.film.k, chance.doubt, c.request.recipe.family.window).underbound.value())
                  .margin(0.015 + 4 * chance.drawn->underbound.standard_error));
        CHECK(chance.drawn->refused == 0);
    }
}
