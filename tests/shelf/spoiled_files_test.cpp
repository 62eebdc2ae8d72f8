// Files of every kind with one line left out, or one value spoiled: what is told of each, whole. A reader that forgets to
// ask for a key, or a bound, shows here as a line that is missing.

#include <catch2/catch.hpp>

#include "small_shelf.hpp"
#include "spoiled.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const char* const spoilt_jar = "kind: jar\nname: Jar\npigment: test-lake\nnet_mass: 24.0 +- 0.1 g\nsince: 2026-05-01\nplant: weld\n"
                               "density: 1.9 g/cm3\ndensity_state: as weighed\ndensity_moisture: 8 % w/w\noil_absorption: 70 g/100g\noil_absorption_moisture: 9 % w/w\n"
                               "moisture: 10 % w/w\ntapped_density: 0.4 g/cm3\nmedian_size: 12 um\ntest_oil_density: 0.93 g/cm3\n"
                               "drawn:\n  - {date: 2026-05-02, mass: 2 g, for: pans}\nnote: mine\n";
const char* const spoilt_sieving = "kind: sieve test\nname: Weld\nmethod: dry\ncharge: 20 g\ngrinding_time: 15 min\nscale_step: 0.1 g\ndensity: 1.9 g/cm3\n"
                                   "retained:\n  - {screen: 75 um, mass: 4 g}\n  - {screen: 45 um, mass: 6 g}\npan: 9.8 g\n";
const char* const spoilt_settling = "kind: settling test\nname: Weld\ntemperature: 18 degC\ngrains: {size: 49 um, depth: 100 mm, time: 3 min}\n";
const char* const spoilt_oil_family = "kind: family\nname: Oil\nprocess: oil\nstart: 1.2\n"
                                      "window: {amber_low: 1.0, green_low: 1.1, green_high: 1.5, amber_high: 2.0}\n"
                                      "cohesion: {none_below: 30 %, weak_below: 50 %, evidence: {origin: estimate}}\n"
                                      "binder_index: {value: 1, origin: common practice}\nmethod_transfer: {value: 0.1, origin: estimate}\n"
                                      "binder_solids_spread: {value: 0.04, origin: estimate}\nbinder_density_spread: {value: 0.04, origin: estimate}\n"
                                      "most_excess_water: {value: 12 % w/w, origin: estimate}\n"
                                      "cured_oil_loses: {least: 2 %, most: 15 %, evidence: {origin: estimate}}\nevidence: {origin: estimate, note: invented}\n";

} // namespace

TEST_CASE("materials with all that they can have, spoiled, whole", "[errors]") {
    Spoiled spoiled;
    const std::string clove = "kind: ingredient\nname: Clove oil\nrole: preservative\ndensity: {value: 1.05 g/cm3, origin: estimate}\n"
                              "non_volatile: {value: 0 % w/w, origin: estimate}\nusual_dose: {value: 0.1 % w/w, origin: estimate}\n"
                              "stock: {in: [water, oil of the medium], strongest: {value: 10 % w/w, origin: estimate}, most: 20 g}\n"
                              "hazards: [eye irritant]\nnote: mine\n";
    spoiled.file("ingredients/clove.yaml", clove);
    for (const char* carriers : {"[Water]", "[water, [ethanol]]", "[]", "[-x]"})
        spoiled.changed_to("ingredients/clove.yaml", clove, "[water, oil of the medium]", carriers);
    const std::string yolk = "kind: ingredient\nname: Yolk\nrole: egg\ndensity: {value: 1.03 g/cm3, origin: estimate}\n"
                             "non_volatile: {value: 50 % w/w, origin: estimate}\nsolids_density: {value: 1.1 g/cm3, origin: estimate}\n"
                             "in_one_egg: {usual: 17 g, least: 14 g, evidence: {origin: estimate}}\n";
    spoiled.file("ingredients/yolk.yaml", yolk);
    spoiled.changed_to("ingredients/yolk.yaml", yolk, ", evidence: {origin: estimate}", "");
    const std::string family = plain_family;
    const auto changed_family = [&](const std::string& from, const std::string& to) { spoiled.changed_to("families/mine.yaml", family, from, to); };
    changed_family("none_below: 30 %, ", "");
    changed_family(", weak_below: 50 %", "");
    changed_family("none_below: 30 %", "none_below: 60 %");
    changed_family("weak_below: 50 %, evidence: {origin: estimate}", "weak_below: 50 %");
    changed_family("amber_high: 2.4", "amber_hi: 2.4");
    changed_family("start: 1.4", "start: 0.9");
    changed_family("start: 1.4", "start: 2.5");
    changed_family("least: 0.15, most: 0.5, evidence: {origin: estimate}", "least: 0.15, most: 0.5");
    const std::string lake = std::string(plain_pigment) + "moisture: {value: 8 % w/w, origin: measured}\ndensity_state: bone dry\nexcess_water: {value: 2 % w/w, origin: estimate}\n"
                             "tapped_density: {value: 0.4 g/cm3, origin: estimate}\nmedian_size: {value: 4 um, origin: estimate}\n"
                             "test_oil_density: {value: 0.93 g/cm3, origin: estimate}\nhazards: [dust]\nnote: mine\n";
    spoiled.file("pigments/lake.yaml", lake);
    spoiled.changed_to("pigments/lake.yaml", lake, "[dust]", "[]");
    spoiled.changed_to("pigments/lake.yaml", lake, "[dust]", "[[dust]]");
    const std::string of_lake = "kind: jar\nname: Jar\npigment: alumina-lake\nnet_mass: 24.0 +- 0.1 g\nsalts: {value: 0.3 x/ 1.4 % w/w, origin: computed, source: computed from the bath}\n"
                                "ph: 6.8 +- 0.2\nhue: warm rose\nswatch: 12\nstrike_ph: 6.6 +- 0.2\nmoisture: 10 % w/w\ndensity: 1.9 g/cm3\ndensity_moisture: 8 % w/w\n";
    spoiled.file("jars/lake.yaml", of_lake);
    for (const char* ph : {"6.8", "6.8 x/ 1.1", "14.1 +- 0.2", "-0.1 +- 0.2"})
        spoiled.changed_to("jars/lake.yaml", of_lake, "6.8 +- 0.2", ph);
    for (const char* number : {"0", "1234567", "twelve"})
        spoiled.changed_to("jars/lake.yaml", of_lake, "swatch: 12", std::string("swatch: ") + number);
    spoiled.changed_to("jars/lake.yaml", of_lake, "moisture: 10 % w/w", "moisture: 99 % w/w");
    const std::string paint = plain_recipe;
    spoiled.changed_to("recipes/mine.yaml", paint, "aim: {pvc: 30 %}", "aim: {pvk: 30 %}");
    spoiled.changed_to("recipes/mine.yaml", paint, "aim: {pvc: 30 %}", "aim: {pvc: 30 %, k: 1.2}");
    spoiled.changed_to("recipes/mine.yaml", paint, "aim: {pvc: 30 %}", "aim: {medium_per_pigment: 2}");
    spoiled.changed_to("recipes/mine.yaml", paint, "aim: {pvc: 30 %}", "aim: {}");
    spoiled.changed_to("recipes/mine.yaml", paint, "pigment: test-lake", "pigment: jar");
    spoiled.changed_to("thing.yaml", "kind: jar\n", "kind: jar", "kind: thing");
    spoiled.changed_to("thing.yaml", "kind: jar\n", "kind: jar", "name: thing");
    spoiled.changed_to("thing.yaml", "kind: jar\n", "kind: jar", "kind: [jar]");
    check_expected("shelf", "spoiled-whole-materials", spoiled.text());
}

TEST_CASE("spoiled materials of the shelf, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("pigments/mine.yaml", plain_pigment);
    spoiled.file("ingredients/mine.yaml", plain_gum);
    spoiled.file("media/mine.yaml", plain_medium);
    spoiled.file("families/mine.yaml", plain_family);
    spoiled.file("families/mine-oil.yaml", spoilt_oil_family);
    spoiled.file("vessels/mine.yaml", plain_vessel);
    spoiled.file("recipes/mine.yaml", plain_recipe);
    check_expected("shelf", "spoiled-materials", spoiled.text());
}

TEST_CASE("spoiled files of a maker, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("jars/mine.yaml", spoilt_jar);
    // Taken as it is typed, and beneath all that can be as the powder lies.
    spoiled.changed_to("jars/mine.yaml", spoilt_jar, "oil_absorption: 70 g/100g", "oil_absorption: 2 g/100g");
    spoiled.file("bench.yaml", plain_bench);
    spoiled.file("sieve.yaml", spoilt_sieving);
    spoiled.file("settle.yaml", spoilt_settling);
    check_expected("shelf", "spoiled-files", spoiled.text());
}
