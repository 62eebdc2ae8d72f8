// Files of the bench and of the bath, spoiled one line or value at a time: what is told of each, whole.

#include <catch2/catch.hpp>

#include "spoiled.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const std::string spoilt_salt = "kind: salt\nname: Soda, washing\nformula: Na2CO3.10H2O\nwater_of_crystallisation: 10\ngives: {sodium: 2, carbonate: 1}\n"
                                "origin: computed\nsource: iupac-weights\ntrade_names: [washing soda]\n"
                                "crystal_density: {value: 1.46 +- 0.02 g/cm3, origin: memory, source: handbook value from memory}\n"
                                "solubility:\n  origin: memory\n  source: handbook value from memory\n  points:\n"
                                "    - {at: 0 degC, in_100_g_water: 7 g}\n    - {at: 20 degC, in_100_g_water: 21.5 g}\n"
                                "hazards: [eye irritant]\nnote: mine\n";
const std::string spoilt_target = "kind: fineness target\nname: Fine\ngrain: {value: 30 um, origin: estimate}\nresidue_screen: 45 um\n"
                                  "allowed_residue: {value: 1 % w/w, origin: estimate}\ndry_sieving_ends: {value: 75 um, origin: estimate}\n"
                                  "wet_screening_ends: {value: 38 um, origin: estimate}\nnote: mine\n";
const std::string spoilt_bench_test = "kind: bench test\nname: Rub-outs\nduration: 40 min\nimproves: oil absorption\n"
                                      "spread_after: {value: 0.07, origin: estimate}\npigment: {value: 6 g, origin: estimate}\n";
const std::string spoilt_bench = "kind: bench\nname: Bench\nscales:\n  - {name: pocket, step: 0.01 g, capacity: 100 g, repeatability: 0.01 g}\n"
                                 "syringes:\n  - {name: small, step: 0.1 mL, capacity: 5 mL}\ndrop: 0.05 mL\nteaspoon: 5 mL\n"
                                 "slab_loss: {fixed: 0.6 g, share: 3 %}\nweighing_tolerance: 5 %\nreserve: 0.5 g\nhumidity: 50 %\ntemperature: 20 degC\n";
const std::string spoilt_pyknometer = "kind: bench reading\nname: Weld\ntest: pyknometer\nscale: 0.01 g\nrepeatability: 0.01 g\nfull_of_liquid: 52.10 g\n"
                                      "pigment: 4.00 g\npigment_and_liquid: 54.00 g\nliquid: 0.79 g/cm3\nnote: mine\n";
const std::string spoilt_displacement = "kind: bench reading\nname: Weld\ntest: displacement\nscale: 0.1 g\npigment: 10 g\ngraduate: 0.5 mL\nbefore: 20 mL\nafter: 25.5 mL\n";
const std::string spoilt_fill = "kind: bench reading\nname: Weld\ntest: tapped fill\nscale: 0.1 g\nruler: 1 mm\ndiameter: 30 mm\nheight: 40 mm\npowder: 12 g\n";
const std::string spoilt_moisture = "kind: bench reading\nname: Weld\ntest: moisture\nscale: 0.01 g\ndish: 20 g\ndish_and_wet: 25 g\ndish_and_dry: 24.4 g\n";
const std::string spoilt_rub_outs = "kind: bench reading\nname: Weld\ntest: rub-out\nscale: 0.01 g\ndropper: {drops: 50, weighed: 1.81 g}\n"
                                    "rub_outs:\n  - {pigment: 1.00 g, oil: 19 drops}\n  - {pigment: 1.05 g, oil: 20 drops}\n";
const std::string spoilt_bath = "kind: bath\nname: Madder\nsince: 2026-06-01\nplant: 100 g dry root\nalum: potash-alum, 50 g\nlake: 20 g\nalkali: soda-ash\n"
                                "water: 3 L\npulls: 2\npot: 5 L\nvessel: 6 L\nstrength: 10 % w/v\nfoam: 60 s\nfilter: [\"0.5 L, 4 min\"]\nto-filter: 2 L\n"
                                "poured: [100 mL]\nalum-added: 2 g\nph: [\"6.4, pen\"]\ncolour: 1 in 8\nblanket: \"100 mm, 62 mm, 48 mm every 2 h\"\n"
                                "wash-water: 310 uS/cm\ndecant: [4900 uS/cm]\ndrying: \"38.6 g, 24.9 g, 17.9 g every 24 h\"\nhue: warm rose\nswatch: 12\n"
                                "weighed: 20 g\nmoisture: 10 %\nwater-ph: \"6.8, pen\"\nnote: mine\n";

} // namespace

TEST_CASE("spoiled files of the bench, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("bench.yaml", spoilt_bench);
    spoiled.file("practice/mine.yaml", plain_practice);
    spoiled.file("targets/mine.yaml", spoilt_target);
    spoiled.changed_to("targets/mine.yaml", spoilt_target, "value: 38 um", "value: 80 um");
    spoiled.changed_to("targets/mine.yaml", spoilt_target, "residue_screen: 45 um", "residue_screen: mesh 9999");
    spoiled.file("tests/mine.yaml", spoilt_bench_test);
    check_expected("shelf", "spoiled-bench", spoiled.text());
}

TEST_CASE("spoiled readings of the bench, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("pyknometer.yaml", spoilt_pyknometer);
    spoiled.changed_to("pyknometer.yaml", spoilt_pyknometer, "54.00 g", "57.00 g");
    spoiled.file("displacement.yaml", spoilt_displacement);
    spoiled.changed_to("displacement.yaml", spoilt_displacement, "25.5 mL", "19 mL");
    spoiled.file("fill.yaml", spoilt_fill);
    spoiled.file("moisture.yaml", spoilt_moisture);
    spoiled.changed_to("moisture.yaml", spoilt_moisture, "24.4 g", "26 g");
    spoiled.file("rub-out.yaml", spoilt_rub_outs);
    for (const char* dropper : {"{drops: 50.5, weighed: 1.81 g}", "{drops: 2000.5, weighed: 1.81 g}", "50"})
        spoiled.changed_to("rub-out.yaml", spoilt_rub_outs, "{drops: 50, weighed: 1.81 g}", dropper);
    for (const char* oil : {"0 drops", "-3 drops", "19 +- 1 drops", "19 mL", "0.7 g", "[19 drops]"})
        spoiled.changed_to("rub-out.yaml", spoilt_rub_outs, "19 drops", oil);
    check_expected("shelf", "spoiled-bench-readings", spoiled.text());
}

TEST_CASE("spoiled files of salts, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("salts/mine.yaml", spoilt_salt);
    for (const char* formula : {"Na2CO3", "Na2CO3.7H2O", "Na2(CO3", "Xx2CO3.10H2O", "na2co3"})
        spoiled.changed_to("salts/mine.yaml", spoilt_salt, "Na2CO3.10H2O", formula);
    spoiled.changed_to("salts/mine.yaml", spoilt_salt, "at: 20 degC", "at: 0 degC");
    spoiled.changed_to("salts/mine.yaml", spoilt_salt, "[washing soda]", "[washing soda, [soda]]");
    spoiled.changed_to("salts/mine.yaml", spoilt_salt, "{sodium: 2, carbonate: 1}", "{sodium: 2, potassium: 1}");
    check_expected("shelf", "spoiled-salts", spoiled.text());
}

TEST_CASE("a spoiled file of a bath, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("bath.yaml", spoilt_bath);
    spoiled.changed_to("bath.yaml", spoilt_bath, "[100 mL]", "[100 mL, [20 mL]]");
    spoiled.changed_to("bath.yaml", spoilt_bath, "[\"6.4, pen\"]", "[\"6.4, pen\", \"15, pen\"]");
    spoiled.changed_to("bath.yaml", spoilt_bath, "alum: potash-alum, 50 g", "alum: potash-alum");
    spoiled.changed_to("bath.yaml", spoilt_bath, "alum: potash-alum, 50 g", "alum: potato, 50 g");
    spoiled.changed_to("bath.yaml", spoilt_bath, "strength: 10 % w/v", "strength: 40 % w/v");
    for (const char* vessel : {"5 L", "0 L"})
        spoiled.changed_to("bath.yaml", spoilt_bath, "vessel: 6 L", std::string("vessel: ") + vessel);
    spoiled.changed_to("bath.yaml", spoilt_bath, "pot: 5 L", "pot: 0.2 L");
    spoiled.changed_to("bath.yaml", spoilt_bath, "alkali: soda-ash", "alkali: slaked-lime");
    spoiled.changed_to("bath.yaml", spoilt_bath, "alum: potash-alum, 50 g", "alum: aluminium-triacetate, 50 g");
    spoiled.changed_to("bath.yaml", spoilt_bath, "plant: 100 g dry root\nalum: potash-alum, 50 g\nlake: 20 g\n", "alum: potash-alum\n");
    for (const char* plant : {"100 g dry", "100 g damp root", "100 g fresh root", "100 g fresh bulb", "some g dry root", "0 g dry root"})
        spoiled.changed_to("bath.yaml", spoilt_bath, "100 g dry root", plant);
    for (const char* pulls : {"0", "7", "12", "a", "1", "6"})
        spoiled.changed_to("bath.yaml", spoilt_bath, "pulls: 2", std::string("pulls: ") + pulls);
    check_expected("shelf", "spoiled-baths", spoiled.text());
}
