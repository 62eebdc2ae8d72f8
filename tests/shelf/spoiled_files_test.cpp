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
    spoiled.file("bench.yaml", plain_bench);
    spoiled.file("sieve.yaml", spoilt_sieving);
    spoiled.file("settle.yaml", spoilt_settling);
    check_expected("shelf", "spoiled-files", spoiled.text());
}
