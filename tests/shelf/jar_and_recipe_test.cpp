#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "shelf/faults_of.hpp"
#include "shelf/small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string with(const char* plain, const std::string& more) { return std::string(plain).append(more); }

struct Fixture {
    SmallShelf shelf;
    Library library = shelf.library();
    Jar jar(const std::string& text) { return read_jar(load_document("jar.yaml", text), "jar", library); }
    std::string jar_faults(const std::string& text) {
        return summary(faults_of([&] { jar(text); }));
    }
    std::string recipe_faults(const std::string& text) {
        const Jar weld = jar(plain_jar);
        return summary(faults_of([&] { read_recipe(load_document("r.yaml", text), "r", library, &weld); }));
    }
};

} // namespace

TEST_CASE_METHOD(Fixture, "a jar takes from the shelf what was not measured, and says so", "[unit]") {
    const Jar filled = jar(with(plain_jar, "density: 1.86 +- 0.05 g/cm3\n"));
    CHECK(filled.id == "jar");
    CHECK(filled.pigment.id == "test-lake");
    CHECK(in_grams_per_cubic_centimetre(filled.pigment.density.value()) == Approx(1.86));
    CHECK(filled.pigment.density.provenance().origin == Origin::measured);
    CHECK(!filled.pigment.density.provenance().library_default);
    CHECK(filled.pigment.oil_absorption.value().value().value() == Approx(0.65));
    CHECK(filled.pigment.oil_absorption->provenance().library_default);
    CHECK(filled.library_defaults == std::vector<std::string>{"oil absorption", "density of the test oil"});
    CHECK(in_grams(filled.net_mass.value()) == Approx(24.0));
    CHECK(in_grams(filled.net_mass.standard_uncertainty()) == Approx(0.1));
}

TEST_CASE_METHOD(Fixture, "what the bath left in a jar, and what was written down of its colour", "[unit]") {
    const Jar plain = jar(plain_jar);
    CHECK_FALSE(plain.remains.known());
    CHECK_FALSE(plain.colour.any());
    const Jar told = jar(with(plain_jar, "salts:\n  value: 0.8 x/ 1.4 % w/w\n  origin: computed\n  source: \"computed from the bath\"\n"
                                         "ph: 7.4 +- 0.3\nhue: warm rose\nswatch: 12\nstrike_ph: 6.6 +- 0.2\n"));
    REQUIRE(told.remains.salts);
    CHECK(told.remains.salts->value().value() == Approx(.008));
    CHECK(told.remains.salts->distribution().scale == Approx(std::log(1.4)));
    CHECK(told.remains.salts->provenance().source == "computed from the bath");
    REQUIRE(told.remains.ph);
    CHECK(told.remains.ph->value().value() == Approx(7.4));
    CHECK(told.remains.ph->standard_uncertainty().value() == Approx(.3));
    CHECK(told.remains.ph->provenance().origin == Origin::measured);
    CHECK(told.colour.hue == "warm rose");
    CHECK(told.colour.swatch == 12u);
    CHECK(told.colour.strike->value().value() == Approx(6.6));
    CHECK(jar_faults(with(plain_jar, "ph: 15 +- 0.2\n")) == "out-of-range 5:5");
    CHECK(jar_faults(with(plain_jar, "ph: -0.1 +- 0.2\n")) == "quantity-negative 5:5");
    CHECK(jar_faults(with(plain_jar, "ph: 7.4\n")) == "ph-doubt-missing 5:5");
    CHECK(jar_faults(with(plain_jar, "ph: 7.4 x/ 1.1\n")) == "ph-doubt-missing 5:5");
    CHECK(jar_faults(with(plain_jar, "salts: 120 % w/w\n")) == "fraction-above-one 5:8");
    CHECK(jar_faults(with(plain_jar, "salts: 0.8 %\n")) == "percent-basis 5:12");
    CHECK(jar_faults(with(plain_jar, "swatch: 0\n")) == "swatch-number 5:9");
    CHECK(jar_faults(with(plain_jar, "swatch: twelve\n")) == "swatch-number 5:9");
    CHECK_FALSE(jar_faults(with(plain_jar, "ph: 14 +- 0.2\n")) != "");
    CHECK_FALSE(jar_faults(with(plain_jar, "ph: 0 +- 0.2\n")) != "");
}

TEST_CASE_METHOD(Fixture, "what was drawn is taken off the jar", "[unit]") {
    const Jar drawn = jar(with(plain_jar, "drawn:\n  - {date: 2024-03-01, mass: 4 g, for: half pans}\n"
                                          "  - {date: 2024-03-09, mass: 500 mg, for: a test}\n"));
    CHECK(in_grams(drawn.net_mass.value()) == Approx(19.5));
    CHECK(in_grams(drawn.net_mass.standard_uncertainty()) == Approx(0.1));
    const Jar emptied = jar(with(plain_jar, "drawn:\n  - {date: 2026-03-02, mass: 24 g, for: all of it}\n"));
    CHECK(in_grams(emptied.net_mass.value()) == Approx(0.0).margin(1e-9));
}

TEST_CASE_METHOD(Fixture, "a jar cannot give more than it had", "[errors]") {
    const auto faults = faults_of([&] {
        jar(with(plain_jar, "drawn:\n  - {date: 2026-03-02, mass: 20 g, for: b}\n  - {date: 2026-03-03, mass: 5 g, for: d}\n"));
    });
    REQUIRE(summary(faults) == "jar-overdrawn 7:30");
    REQUIRE(faults[0].second);
    CHECK(faults[0].second->at.place.line == 4);
}

TEST_CASE_METHOD(Fixture, "what is wrong with a jar file is found", "[errors]") {
    CHECK(jar_faults(plain_jar).empty());
    CHECK(jar_faults(changed(plain_jar, "24.0 +- 0.1 g", "-24 g")) == "quantity-negative 4:11");
    CHECK(jar_faults(changed(plain_jar, "24.0 +- 0.1 g", "24")) == "unit-missing 4:11");
    CHECK(jar_faults(changed(plain_jar, "test-lake", "tset-lake")) == "id-unknown 3:10");
    CHECK(jar_faults(with(plain_jar, "density: 1.9 g/cm3\ndensity_state: bone dry\n")) ==
          "moisture-missing 6:16");
    CHECK(jar_faults(with(plain_jar, "density: 1.9 g/cm3\ndensity_state: bone dry\nmoisture: 8 % w/w\n"))
              .empty());
    CHECK(jar_faults(with(plain_jar, "density_state: bone dry\n")) == "density-state-alone 5:16");
    CHECK(jar_faults(with(plain_jar, "oil_absorption: 500 g/100g\n")) == "out-of-range 5:17");
    CHECK(jar_faults(with(plain_jar, "moisture: 120 % w/w\n")) == "fraction-above-one 5:11");
    CHECK(jar_faults(with(plain_jar, "drawn:\n  - {mass: 1 g}\n")) == "key-missing 6:5, key-missing 6:5");
    // A fault of the stand-in's own file is told too.
    shelf.dir().write("pigments/test-lake.yaml", changed(plain_pigment, "class: lake", "class: lakes"));
    library = shelf.library();
    CHECK(jar_faults(plain_jar) == "word-unknown 3:8");
}

TEST_CASE_METHOD(Fixture, "a bone-dry stand-in brings its own moisture", "[unit]") {
    shelf.dir().write(
        "pigments/dry.yaml",
        with(plain_pigment, "density_state: bone dry\nmoisture: {value: 8 % w/w, origin: measured}\n"));
    const Jar dry = jar(changed(plain_jar, "test-lake", "dry"));
    CHECK(dry.pigment.density_state == MoistureState::bone_dry);
    REQUIRE(dry.pigment.moisture);
    CHECK(dry.pigment.moisture->provenance().library_default);
}

TEST_CASE_METHOD(Fixture, "a recipe file becomes a recipe", "[unit]") {
    const Jar weld = jar(with(plain_jar, "density: 1.8 g/cm3\n"));
    const Recipe recipe = library.recipe("test-paint", &weld);
    CHECK(recipe.id == "test-paint");
    CHECK(recipe.family.id == "test-family");
    REQUIRE(recipe.pigments.size() == 2);
    CHECK(in_grams_per_cubic_centimetre(recipe.pigments[0].pigment.density.value()) == Approx(1.8));
    CHECK(recipe.pigments[1].share.value() == Approx(0.3));
    CHECK(recipe.additives.at(0).basis == DoseBasis::paint);
    CHECK(recipe.additives.at(0).dose.value() == Approx(0.001));
    REQUIRE(recipe.aim);
    CHECK(std::get<PigmentVolumeConcentration>(*recipe.aim).value() == Approx(0.3));
    CHECK(in_millilitres_per_gram(recipe.working_water) == Approx(0.5));
    REQUIRE(recipe.vessel);
    CHECK(recipe.vessel->id == "test-pan");
    const auto faults = faults_of([&] { library.recipe("test-paint", nullptr); });
    CHECK(summary(faults) == "jar-missing 5:15");
    CHECK(summary(faults_of([&] { library.recipe("test-piant", &weld); })) == "id-unknown");
}

TEST_CASE_METHOD(Fixture, "each aim is read with its own unit", "[unit]") {
    const Jar weld = jar(plain_jar);
    const auto aim = [&](const std::string& text) {
        return *read_recipe(load_document("r.yaml", changed(plain_recipe, "{pvc: 30 %}", text)), "r", library,
                            &weld)
                    .aim;
    };
    CHECK(std::get<BinderSufficiency>(aim("{k: 1.4}")).value() == Approx(1.4));
    CHECK(std::get<ReducedPigmentVolumeConcentration>(aim("{reduced_pvc: 0.75}")).value() == Approx(0.75));
    CHECK(std::get<MediumPerPigment>(aim("{medium_per_pigment: 4.4 g/g}")).value() == Approx(4.4));
}

TEST_CASE_METHOD(Fixture, "what is wrong with a recipe file is found", "[errors]") {
    CHECK(recipe_faults(plain_recipe).empty());
    CHECK(recipe_faults(changed(plain_recipe, "share: 70 % w/w", "share: 60 % w/w")) == "share-sum 4:1");
    CHECK(recipe_faults(changed(plain_recipe, "share: 70 % w/w", "share: 70.05 % w/w")).empty());
    CHECK(recipe_faults(changed(plain_recipe, "share: 70 % w/w", "share: 70 %")) == "percent-basis 5:30");
    CHECK(recipe_faults(changed(plain_recipe, ", share: 70 % w/w", "")) == "key-missing 5:5");
    CHECK(recipe_faults(changed(plain_recipe, "test-lake", "jar")) == "jar-twice 6:15");
    CHECK(recipe_faults(changed(plain_recipe, "{pvc: 30 %}", "{pvc: 30 %, k: 1}")) == "aim-count 10:6");
    CHECK(recipe_faults(changed(plain_recipe, "{pvc: 30 %}", "{}")) == "aim-count 10:6");
    CHECK(recipe_faults(changed(plain_recipe, "{pvc: 30 %}", "{pvc: 130 %}")) == "fraction-above-one 10:12");
    CHECK(recipe_faults(changed(plain_recipe, "{pvc: 30 %}", "{k: 0}")) == "quantity-negative 10:10");
    CHECK(recipe_faults(changed(plain_recipe, "dose: 0.1 % w/w", "dose: 0 % w/w")) == "quantity-negative 9:34");
    CHECK(recipe_faults(changed(plain_recipe, "of: paint", "of: pain")) == "word-unknown 9:49");
    CHECK(recipe_faults(changed(plain_recipe, "family: test-family", "family: tempera")) == "id-unknown 3:9");
    CHECK(recipe_faults(changed(plain_recipe, "vessel: test-pan", "vessel: [pan]")) == "value-shape 12:9");
    const std::string alone = changed(changed(plain_recipe, "  - {pigment: test-lake, share: 30 % w/w}\n", ""),
                                      ", share: 70 % w/w", "");
    CHECK(recipe_faults(alone).empty());
    // Shares typed to two decimals are scaled to sum to one exactly.
    const Jar weld = jar(plain_jar);
    const Recipe scaled = read_recipe(load_document("r.yaml", changed(plain_recipe, "70 % w/w", "70.05 % w/w")),
                                      "r", library, &weld);
    CHECK(scaled.pigments[0].share.value() + scaled.pigments[1].share.value() == Approx(1.0).epsilon(1e-14));
}

TEST_CASE("a bench file becomes a bench", "[unit]") {
    const Bench bench = read_bench(load_document(
        "b.yaml",
        with(plain_bench,
             "syringes:\n  - {name: small, capacity: 5 mL, step: 0.2 mL}\ndrop: 0.039 mL\nteaspoon: 5 mL\n")));
    CHECK(bench.name == "Bench");
    REQUIRE(bench.scales.size() == 1);
    CHECK(in_grams(bench.scales[0].step) == Approx(0.01));
    CHECK(in_grams(*bench.scales[0].capacity) == Approx(100.0));
    CHECK(bench.syringes.at(0).name == "small");
    CHECK(in_millilitres(*bench.kitchen.drop) == Approx(0.039));
    CHECK(in_grams(bench.slab_loss.fixed) == Approx(0.6));
    CHECK(bench.slab_loss.share.value() == Approx(0.03));
    CHECK(bench.humidity.value() == Approx(0.5));
    CHECK(in_degrees_celsius(bench.temperature) == Approx(20.0));
}

TEST_CASE("what is wrong with a bench file is found", "[errors]") {
    const auto faults = [](const std::string& text) {
        return summary(faults_of([&] { read_bench(load_document("b.yaml", text)); }));
    };
    CHECK(faults(plain_bench).empty());
    CHECK(faults(changed(plain_bench, "step: 0.01 g", "step: 0 g")) == "quantity-negative 4:26");
    CHECK(faults(changed(plain_bench, "capacity: 100 g", "capacity: 1 mg")) == "step-over-capacity 4:44");
    CHECK(faults(with(plain_bench, "syringes: [{name: a, capacity: 1 mL, step: 2 mL}]\n")) ==
          "step-over-capacity 10:32");
    CHECK(faults(changed(plain_bench, "  - {name: pocket, step: 0.01 g, capacity: 100 g}\n", "")) ==
          "value-missing 3:1");
    CHECK(faults(changed(plain_bench, "weighing_tolerance: 5 %", "weighing_tolerance: 60 %")) ==
          "out-of-range 6:21");
    CHECK(faults(changed(plain_bench, "20 degC", "20 K")) == "out-of-range 9:14");
    CHECK(faults(with(plain_bench, "drop: 1 drop\n")) == "unit-uncalibrated 10:9");
}
