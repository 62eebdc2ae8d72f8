#pragma once
// Three paints built by hand, for tests that need a whole recipe without the shelf.
// Figures are those of docs/theory.md's running example, or invented where they play no part.

#include "lakebound/paint/batch.hpp"
#include "support/bench_practice.hpp"
#include "support/family_figures.hpp"
#include "lakebound/paint/next_measurement.hpp"

namespace lakebound::testing {

inline Provenance measured() { return {Origin::measured, "", false}; }
inline Provenance library() { return {Origin::estimate, "docs/theory.md", true}; }

inline Pigment example_lake() {
    Pigment lake;
    lake.id = "weld";
    lake.name = "Weld lake";
    lake.pigment_class = PigmentClass::lake;
    lake.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.88), grams_per_cubic_centimetre(0.2), library());
    lake.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(68.78), 1.06, measured());
    lake.test_oil_density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(0.93), grams_per_cubic_centimetre(0.005), library());
    lake.hazards = {Hazard::dust, Hazard::light_sensitive};
    return lake;
}

inline Ingredient example_ingredient(const char* id, const char* name, Role role, double density,
                                     double non_volatile, double solids_density = 0.0,
                                     std::vector<Hazard> hazards = {}) {
    Ingredient ingredient;
    ingredient.id = id;
    ingredient.name = name;
    ingredient.role = role;
    ingredient.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(density), library());
    ingredient.non_volatile = Estimate<MassFraction>::exact(MassFraction::of(non_volatile), library());
    if (solids_density > 0.0)
        ingredient.solids_density =
            Estimate<MassDensity>::exact(grams_per_cubic_centimetre(solids_density), library());
    ingredient.hazards = std::move(hazards);
    return ingredient;
}

inline Bench example_bench() {
    auto bench = lakebound::testing::bare_bench();
    bench.name = "Example bench";
    bench.scales = {{"kitchen scale", grams(0.1), grams(2000.0), {}},
                    {"pocket scale", grams(0.01), grams(100.0), {}}};
    bench.syringes = {{"5 mL syringe", millilitres(5.0), millilitres(0.2)},
                      {"10 mL syringe", millilitres(10.0), millilitres(0.5)}};
    bench.slab_loss = {grams(0.6), Share::of(0.03)};
    bench.reserve = grams(0.5);
    return bench;
}

inline Vessel example_vessel(const char* id, const char* name, double capacity, double fill,
                             FilledBy filled_by) {
    return {id,
            name,
            Estimate<Volume>::normal(millilitres(capacity), millilitres(0.05 * capacity), library()),
            Share::of(fill),
            filled_by,
            ""};
}

inline Family example_family(Process process) {
    Family family;
    family.process = process;
    family.evidence = {Origin::estimate, "judgement", true};
    set_common_figures(family);
    family.method_transfer = 0.10;
    family.binder_solids_spread = family.binder_density_spread = 0.04;
    const auto k = [](double x) { return BinderSufficiency::of(x); };
    const auto index = [](double e, double u) {
        return u > 0.0 ? Estimate<BinderIndex>::normal(BinderIndex::of(e), BinderIndex::Difference::of(u), library())
                       : Estimate<BinderIndex>::exact(BinderIndex::of(e), library());
    };
    switch (process) {
    case Process::watercolour:
        family.id = "watercolour-pan", family.name = "Watercolour in pans", family.start = k(1.4);
        family.window = {k(1.0), k(1.2), k(1.8), k(2.4)}, family.binder_index = index(1.0, 0.0);
        break;
    case Process::oil:
        family.id = "oil", family.name = "Oil", family.start = k(1.35);
        family.window = {k(1.0), k(1.15), k(1.7), k(2.2)}, family.binder_index = index(1.0, 0.0);
        break;
    case Process::egg_tempera:
        family.id = "egg-tempera", family.name = "Egg tempera", family.start = k(1.1);
        family.window = {k(0.75), k(0.9), k(1.4), k(1.8)}, family.binder_index = index(0.85, 0.07);
        break;
    }
    return family;
}

/// The figures of formulations/practice/home.yaml.
inline BenchPractice example_practice() { return shipped_practice(); }

/// Tests like those of formulations/tests, and the rule of formulations/learning.
inline BenchTests example_tests() {
    return {{{"rub-out", "one rub-out of the pigment", minutes(10), SpreadTerm::oil_absorption, 0.10, grams(2)},
             {"swatch-ladder", "four swatches at stepped k", minutes(40), SpreadTerm::method_transfer, 0.05,
              grams(0.8)},
             {"pyknometer", "density by pyknometer", minutes(25), SpreadTerm::pigment_density, 0.02, grams(3)}},
            {Probability::of(0.05), 0.001}};
}

/// One lake of 24 g in its jar, on the example bench.
inline BatchRequest example_request(Process process, BatchAmount amount = grams(10.0)) {
    BatchRequest request;
    request.bench = example_bench();
    request.practice = example_practice();
    request.jar = JarOnHand{0, grams(24.0)};
    request.amount = std::move(amount);
    auto& recipe = request.recipe;
    recipe.family = example_family(process);
    recipe.aim = recipe.family.start;
    recipe.pigments = {{example_lake(), MassFraction::of(1.0)}};
    switch (process) {
    case Process::watercolour:
        recipe.id = "example-pans", recipe.name = "Lake watercolour in half pans";
        recipe.medium = {
            "gum-glycerol-honey",
            "Gum water with glycerol and honey",
            PartsBasis::mass,
            {{example_ingredient("gum-arabic", "Gum arabic, powder", Role::gum, 1.42, 0.88, 1.42,
                                 {Hazard::dust, Hazard::food_allergen}),
              100.0},
             {example_ingredient("water", "Water", Role::water, 0.9982, 0.0), 200.0},
             {example_ingredient("glycerol", "Glycerol", Role::plasticiser, 1.261, 1.0, 1.261), 25.0},
             {example_ingredient("honey", "Honey", Role::plasticiser, 1.42, 0.82, 1.55), 15.0}},
            "weeks, in the refrigerator",
            ""};
        recipe.medium.parts[2].ingredient.sorbs_as = SorbsAs::glycerol;
        recipe.medium.parts[3].ingredient.sorbs_as = SorbsAs::sugar;
        recipe.additives = {{example_ingredient("clove-oil", "Clove oil", Role::preservative, 1.045, 0.0, 0.0,
                                                {Hazard::skin_sensitiser, Hazard::eye_irritant}),
                             MassFraction::of(0.0005), DoseBasis::medium}};
        recipe.additives[0].ingredient.stock = StockPractice{
            {oil_of_the_medium, "ethanol"},
            Estimate<MassFraction>::exact(MassFraction::of(0.10), library()),
            grams(20.0)};
        recipe.carriers = {example_ingredient("ethanol", "Ethanol", Role::solvent, 0.789, 0.0, 0.0,
                                              {Hazard::flammable, Hazard::eye_irritant})};
        recipe.working_water = millilitres_per_gram(0.5);
        recipe.vessel = example_vessel("half-pan", "Half pan", 2.0, 0.9, FilledBy::dry_volume);
        break;
    case Process::oil:
        recipe.id = "example-tube", recipe.name = "Lake in linseed oil, one tube";
        recipe.medium = {"linseed",
                         "Linseed oil",
                         PartsBasis::mass,
                         {{example_ingredient("linseed-oil", "Linseed oil, refined", Role::drying_oil, 0.93,
                                              1.0, 0.93, {Hazard::self_heating}),
                           1.0}},
                         "",
                         ""};
        recipe.vessel = example_vessel("tube-15-ml", "Tube, 15 mL", 15.0, 1.0, FilledBy::wet_volume);
        break;
    case Process::egg_tempera:
        recipe.id = "example-tempera", recipe.name = "Lake egg tempera";
        recipe.medium = {"egg-yolk",
                         "Egg yolk, neat",
                         PartsBasis::mass,
                         {{example_ingredient("egg-yolk", "Egg yolk, hen, fresh", Role::emulsion, 1.0427,
                                              0.4769, 1.094, {Hazard::food_allergen, Hazard::perishable}),
                           1.0}},
                         "same day",
                         ""};
        recipe.medium.parts.front().ingredient.in_one_egg = EggYield{grams(14.5), grams(14.0), {}};
        recipe.working_water = millilitres_per_gram(1.2);
        recipe.vessel = example_vessel("small-jar-10-ml", "Small jar, 10 mL", 10.0, 0.9, FilledBy::wet_volume);
        break;
    }
    return request;
}

} // namespace lakebound::testing
