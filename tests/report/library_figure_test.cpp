#include "lakebound/report/library_figure.hpp"

#include <catch2/catch.hpp>

#include "lakebound/record/jar_outlook.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("A reading that stands alone is said to be taken as it was read", "[unit]") {
    auto request = example_request(Process::oil);
    auto& pigment = request.recipe.pigments.front().pigment;
    const std::vector<std::string> alone{
        "Weld lake: the oil absorption 68.8 x/ 1.06 g/100 g is taken as it was read; the library expects nothing of "
        "this powder."};
    CHECK(taken_as_read_lines(request) == alone);

    // Weighed with what the library expects: that is another line, and not taken as it was read.
    auto weighed = request;
    weighed.recipe.pigments.front().pigment.oil_absorption_belief = {pigment.oil_absorption.value(), pigment.oil_absorption.value()};
    CHECK(taken_as_read_lines(weighed).empty());

    // A figure of the library was read by nobody here.
    pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35, library());
    CHECK(taken_as_read_lines(request).empty());
    pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35,
                                                                {Origin::published, "book", false});
    CHECK(taken_as_read_lines(request).empty());
}

TEST_CASE("What was read of the maker's own powder is no figure of the library, whoever says so", "[unit]") {
    auto request = example_request(Process::oil);
    auto& pigment = request.recipe.pigments.front().pigment;
    const auto read_by = [&](const Provenance& from) {
        pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(68.78), 1.06, from);
        return taken_as_read_lines(request).size();
    };
    CHECK(read_by({Origin::measured, "a rub-out", false}) == 1);
    CHECK(read_by({Origin::measured, "a rub-out", true}) == 0); // a typical reading that the library holds
    CHECK(read_by({Origin::measured, record_source, false}) == 0);
    CHECK(read_by({Origin::estimate, record_source, false}) == 0);
    // Each powder of a blend has its own line.
    read_by({Origin::measured, "a rub-out", false});
    auto chalk = pigment;
    chalk.name = "Chalk, ground";
    chalk.oil_absorption = Estimate<OilAbsorption>::normal(grams_per_100_grams(18.0), OilAbsorption::Difference::of(0.007), {Origin::measured, "", false});
    request.recipe.pigments.push_back({chalk, MassFraction::of(0.3)});
    CHECK(taken_as_read_lines(request) ==
          std::vector<std::string>{
              "Weld lake: the oil absorption 68.8 x/ 1.06 g/100 g is taken as it was read; the library expects nothing of this powder.",
              "Chalk: the oil absorption 18.0 ± 0.7 g/100 g is taken as it was read; the library expects nothing of this powder."});
}

namespace {

/// "Weld lake | density | 1.88 ± 0.20 g/cm3".
std::vector<std::string> told(const BatchRequest& request) {
    std::vector<std::string> lines;
    for (const auto& figure : library_figures(request))
        lines.push_back(figure.material + " | " + figure.figure + " | " + figure.value);
    return lines;
}
using Lines = std::vector<std::string>;

/// Weld lake of the jar with 3 of chalk, which is of no jar; oil; a tube.
BatchRequest blend() {
    auto request = example_request(Process::oil);
    auto chalk = example_lake();
    chalk.id = "chalk", chalk.name = "Chalk, ground";
    request.recipe.pigments.front().share = MassFraction::of(0.7);
    request.recipe.pigments.push_back({chalk, MassFraction::of(0.3)});
    return request;
}
const Provenance a_book{Origin::published, "a book", false};

} // namespace

TEST_CASE("Of the jar only what it borrowed is the library's, of other powders all that was not measured", "[unit]") {
    auto request = blend();
    for (auto& part : request.recipe.pigments) {
        part.pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(60.0), 1.2, a_book);
        part.pigment.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.0), measured());
        part.pigment.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), library());
    }
    const Lines oil{"Linseed oil, refined | non-volatile | 100 %", "Linseed oil, refined | density of what stays | 0.930 g/cm3",
                    "Tube, 15 mL | capacity | 15.0 ± 0.8 mL"};
    const auto with_oil = [&](Lines lines) {
        lines.insert(lines.end(), oil.begin(), oil.end());
        return lines;
    };
    const std::string weld = "Weld lake | ", chalk = "Chalk, ground | ", read = "oil absorption | 60.0 x/ 1.20 g/100 g", rubbed = "rub-out oil | 0.930 g/cm3";
    CHECK(told(request) == with_oil({weld + rubbed, chalk + read, chalk + rubbed}));
    request.jar->pigment = 1;
    CHECK(told(request) == with_oil({weld + read, weld + rubbed, chalk + rubbed}));
    request.jar.reset();
    CHECK(told(request) == with_oil({weld + read, weld + rubbed, chalk + read, chalk + rubbed}));
    // What only fills a place is no figure of anybody's.
    request.recipe.pigments.front().pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(60.0), 1.2, {Origin::estimate, "", true, true});
    CHECK(told(request) == with_oil({weld + rubbed, chalk + read, chalk + rubbed}));
    // Spooned: the tapped density of the powder that was spooned, and of no other.
    request.by_volume = {{1, Estimate<MassDensity>::normal(grams_per_cubic_centimetre(0.35), grams_per_cubic_centimetre(0.03), library())}};
    CHECK(told(request) == with_oil({weld + rubbed, chalk + read, chalk + rubbed, chalk + "tapped density | 0.35 ± 0.03 g/cm3"}));
    request.by_volume.front().pigment = 0;
    CHECK(told(request) == with_oil({weld + rubbed, weld + "tapped density | 0.35 ± 0.03 g/cm3", chalk + read, chalk + rubbed}));
}

TEST_CASE("What binds, what holds it and what it is put into are named with what the library says of them", "[unit]") {
    auto request = example_request(Process::egg_tempera);
    auto& recipe = request.recipe;
    for (auto& part : recipe.pigments) {
        part.pigment.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.0), measured());
        part.pigment.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), measured());
    }
    const std::string yolk = "Egg yolk, hen, fresh | non-volatile | 47.7 %", stays = "Egg yolk, hen, fresh | density of what stays | 1.09 g/cm3",
                      index = "Egg tempera | binder index | 0.85 ± 0.07", jar = "Small jar, 10 mL | capacity | 10.0 ± 0.5 mL";
    CHECK(told(request) == Lines{yolk, stays, index, jar});
    // Water binds nothing. A wax that is added fills as a part of the medium does.
    recipe.medium.parts.push_back({example_ingredient("water", "Water", Role::water, 0.9982, 0.0), 0.5});
    recipe.additives = {{example_ingredient("beeswax", "Beeswax", Role::wax, 0.96, 1.0, 0.96), MassFraction::of(0.02), DoseBasis::medium},
                        {example_ingredient("clove-oil", "Clove oil", Role::preservative, 1.045, 0.0), MassFraction::of(0.002), DoseBasis::medium}};
    const std::string wax = "Beeswax | non-volatile | 100 %", wax_stays = "Beeswax | density of what stays | 0.960 g/cm3";
    CHECK(told(request) == Lines{yolk, stays, wax, wax_stays, index, jar});
    recipe.additives.clear();
    // An index that is exact is a definition; one that is sure to half a thousandth is told.
    recipe.family.binder_index = Estimate<BinderIndex>::exact(BinderIndex::of(0.85), library());
    CHECK(told(request) == Lines{yolk, stays, jar});
    recipe.family.binder_index = Estimate<BinderIndex>::normal(BinderIndex::of(0.85), BinderIndex::Difference::of(0.0005), library());
    CHECK(told(request) == Lines{yolk, stays, "Egg tempera | binder index | 0.8500 ± 0.0005", jar});
    recipe.family.binder_index = Estimate<BinderIndex>::exact(BinderIndex::of(1.0), library());
    // The vessel that is asked for goes before that of the recipe; without either none is told of.
    request.vessel = example_vessel("shell", "Mussel shell", 3.0, 0.9, FilledBy::dry_volume);
    CHECK(told(request) == Lines{yolk, stays, "Mussel shell | capacity | 3.00 ± 0.15 mL"});
    request.vessel.reset(), recipe.vessel.reset();
    CHECK(told(request) == Lines{yolk, stays});
    // A share of nothing has no doubt; one of a thousandth has its own.
    auto& binds = recipe.medium.parts.front().ingredient;
    binds.solids_density.reset();
    binds.non_volatile = Estimate<MassFraction>::exact(MassFraction::of(0.0), library());
    CHECK(told(request) == Lines{"Egg yolk, hen, fresh | non-volatile | 0 %"});
    binds.non_volatile = Estimate<MassFraction>::normal(MassFraction::of(0.001), MassFraction::Difference::of(0.0004), library());
    CHECK(told(request) == Lines{"Egg yolk, hen, fresh | non-volatile | 0.10 ± 0.04 %"});
}

TEST_CASE("The library's figures stand powder by powder, all else by its name once", "[unit]") {
    auto request = blend();
    auto& pigments = request.recipe.pigments;
    pigments.back().pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(18.0), 1.1, a_book);
    const auto reading = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(75.0), 1.11, measured()),
               expected = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(60.0), 1.35, library());
    CHECK(library_figure_lines(request) ==
          Lines{"Weld lake: density 1.88 ± 0.20 g/cm3 (estimate), rub-out oil 0.930 ± 0.005 g/cm3 (estimate)",
                "Chalk: oil absorption 18.0 x/ 1.10 g/100 g (published), density 1.88 ± 0.20 g/cm3 (estimate), rub-out oil 0.930 ± 0.005 g/cm3 "
                "(estimate)",
                "All figures of linseed oil and tube."});
    pigments.front().pigment.oil_absorption_belief = {reading, expected};
    CHECK(library_figure_lines(request).at(2) ==
          "Weld lake: your 75.0 x/ 1.11 and the library's 60.0 x/ 1.35 together make the oil absorption 68.8 x/ 1.06 g/100 g.");
    CHECK(library_figure_lines(request).size() == 4);
    // Of a maker who measured it all nothing is told.
    auto measured_all = example_request(Process::oil);
    auto& recipe = measured_all.recipe;
    recipe.vessel.reset();
    auto& weld = recipe.pigments.front().pigment;
    weld.density = weld.test_oil_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.93), measured());
    auto& linseed = recipe.medium.parts.front().ingredient;
    linseed.non_volatile = Estimate<MassFraction>::exact(MassFraction::of(1.0), measured());
    linseed.solids_density.reset();
    CHECK(library_figure_lines(measured_all).empty());
}
