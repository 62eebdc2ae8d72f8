// lakebound-pvc as a maker calls it.
#include <catch2/catch.hpp>

#include <fstream>

#include <nlohmann/json.hpp>

#include "lakebound/quantity/text.hpp"
#include "run.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;
using Catch::StartsWith;

namespace {

using Arguments = std::vector<std::string>;
const Arguments quick = {"--pigment",    "10 g",     "--oil-absorption",
                         "68.78 g/100g", "--binder", "gum-glycerol-honey: 40 g"};
/// Lake M of docs/theory.md, density included.
const Arguments lake_m = {"--pigment",         "10 g", "--oil-absorption", "68.78 x/ 1.105 g/100g", "--density",
                          "1.88 +- 0.20 g/cm3"};

Arguments with(Arguments arguments, const Arguments& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

nlohmann::json json_of(Arguments arguments) {
    arguments.emplace_back("--json");
    const auto run = pvc(arguments);
    INFO(run.err);
    REQUIRE(run.status < 2);
    return nlohmann::json::parse(run.out);
}
double value(const nlohmann::json& json, const char* key) { return json.at(key).at("value").get<double>(); }

} // namespace

TEST_CASE("Quantities typed, no density: k and the verdict, and what waits for the density", "[cli]") {
    const auto run = pvc(quick);
    CHECK(run.err.empty());
    CHECK(run.status == 0);
    CHECK_THAT(run.out, StartsWith("PVC LIMITS\n") && Contains("SHOULD HOLD   k 1.43") &&
                            Contains("CANNOT SAY") && Contains("need the density of the pigment"));
    const auto json = json_of(quick);
    // 40 g of the base medium hold 10.557 mL (0.26392 mL/g); 10 g x 0.73957 mL/g are wanted (docs/theory.md).
    CHECK(value(json, "k") == Approx(40.0 * 0.26392 / 7.3957).epsilon(2e-4));
    CHECK(json.count("pvc") == 0);
    CHECK(json.at("unanswered").size() == 4);
}

TEST_CASE("With the density PVC, CPVC, reduced PVC and air follow", "[cli]") {
    const auto json = json_of(with(lake_m, {"--binder", "linseed-oil: 9.285 g"}));
    // The worked oil paint of docs/theory.md: k 1.35, PVC 0.3475, CPVC 0.4183, Lambda 0.8308; oil of the
    // shelf and of the rub-out both 0.93 g/cm3.
    CHECK(value(json, "k") == Approx(1.35).epsilon(2e-3));
    CHECK(value(json, "pvc") == Approx(0.3475).epsilon(2e-3));
    CHECK(value(json, "cpvc") == Approx(0.41834).epsilon(1e-4));
    CHECK(value(json, "reduced_pvc") == Approx(0.8308).epsilon(2e-3));
    CHECK(json.at("air_fraction").get<double>() == 0.0);
    CHECK(json.at("unanswered").empty());
    CHECK(json.at("family") == "oil");
    const auto& cured = json.at("oil").at("cured"); // of the family: 2 and 15 % of the oil's volume
    CHECK(cured.at(0).at("oil_lost").get<double>() == Approx(0.02).epsilon(1e-12));
    CHECK(cured.at(0).at("pvc").get<double>() == Approx(0.352).epsilon(3e-3));
    CHECK(cured.at(1).at("oil_lost").get<double>() == Approx(0.15).epsilon(1e-12));
    CHECK(cured.at(1).at("pvc").get<double>() == Approx(0.385).epsilon(3e-3));
}

TEST_CASE("k does not know the density", "[identity]") {
    const auto k = [](const std::string& density) {
        return value(json_of(with(quick, {"--density", density})), "k");
    };
    CHECK(k("1.5 g/cm3") == Approx(k("2.4 g/cm3")).epsilon(1e-12));
    CHECK(k("1.5 g/cm3") == Approx(value(json_of(quick), "k")).epsilon(1e-12));
}

TEST_CASE("Without an oil absorption the PVC is answered and k is not", "[cli]") {
    const auto run = pvc({"--pigment", "10 g", "--density", "1.88 g/cm3", "--binder", "linseed-oil: 9.3 g"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("NO VERDICT YET") && Contains("PVC  pigment") && Contains("rub-out"));
}

TEST_CASE("A paint that chalks is an answer with status 1, and the rescue comes back to the aim",
          "[identity]") {
    // The "one to one by weight" of docs/my-paint-chalks.md: k 0.357; 29.2 g of medium bring it to 1.40.
    const auto arguments = with(lake_m, {"--binder", "gum-glycerol-honey: 10 g"});
    CHECK(pvc(arguments).status == 1);
    const auto json = json_of(with(arguments, {"--rescue", "--aim", "1.4"}));
    CHECK(value(json, "k") == Approx(0.357).epsilon(2e-3));
    const auto& rescue = json.at("rescue");
    CHECK(rescue.at("action") == "add_medium");
    CHECK(rescue.at("medium_g").get<double>() == Approx(29.2).epsilon(3e-3));
    const auto total = 10.0 + rescue.at("medium_g").get<double>();
    const auto again = json_of(with(lake_m, {"--binder", "gum-glycerol-honey: " + number_text(total) + " g"}));
    CHECK(value(again, "k") == Approx(1.4).epsilon(1e-9));
}

TEST_CASE("A glossy paint takes pigment, as much as the jar has", "[identity]") {
    const auto arguments =
        with(lake_m, {"--binder", "gum-glycerol-honey: 72.86 g", "--rescue", "--aim", "1.5"});
    CHECK(json_of(arguments).at("k").at("value").get<double>() == Approx(2.6).epsilon(1e-3));
    CHECK(json_of(arguments).at("rescue").at("pigment_g").get<double>() == Approx(7.3).epsilon(6e-3));
    const auto short_of = json_of(with(arguments, {"--jar-left", "5 g"}));
    CHECK(short_of.at("rescue").at("jar_holds_enough") == false);
    CHECK_THAT(pvc(with(arguments, {"--jar-left", "5 g"})).out, Contains("The jar cannot give more"));
}

TEST_CASE("A sticky medium is seen in a humid room", "[cli]") {
    const Arguments sticky = {
        "--pigment",   "alumina-lake: 10 g", "--binder",      "gum-arabic: 8 g", "--binder",
        "water: 16 g", "--binder",           "glycerol: 6 g", "--humidity",      "70 %"};
    const auto run = pvc(with(sticky, {"--rescue"}));
    CHECK_THAT(run.out, Contains("likely to stay sticky") && Contains("To set at 70 % humidity: dissolve"));
    const auto json = json_of(with(sticky, {"--rescue", "--soft-aim", "48 %"}));
    CHECK(json.at("rescue").at("sticky").at("soft_after").get<double>() == Approx(0.48).epsilon(1e-9));
}

TEST_CASE("Blends: by weight, by volume, with packing, and with a rub-out of their own", "[cli]") {
    const auto blend = [](const std::string& lake, const std::string& chalk, const Arguments& more = {}) {
        return json_of(
            with({"--pigment", "lake: " + lake, "--pigment", "chalk: " + chalk, "--oil-absorption",
                  "lake: 68.78 g/100g", "--density", "lake: 1.88 g/cm3", "--oil-absorption", "chalk: 18 g/100g",
                  "--density", "chalk: 2.70 g/cm3", "--binder", "linseed-oil: 6 g"},
                 more));
    };
    // docs/theory.md: 70 and 30 % by volume give CPVC 0.4695, at 3 and 15 um possibly 0.4956.
    const auto by_volume =
        blend("70 % v/v", "30 % v/v",
              {"--total", "10 g", "--median-size", "lake: 3 um", "--median-size", "chalk: 15 um", "--packing"});
    CHECK(by_volume.at("blend").at("additive_cpvc").get<double>() == Approx(0.4695).epsilon(2e-4));
    CHECK(by_volume.at("blend").at("possible_cpvc").get<double>() == Approx(0.4956).epsilon(1e-3));
    const double chalk = 0.3 * 2.70 / (0.7 * 1.88 + 0.3 * 2.70) * 10.0;
    const auto by_mass = blend(number_text(10.0 - chalk) + " g", number_text(chalk) + " g");
    CHECK(value(by_mass, "k") == Approx(value(by_volume, "k")).epsilon(1e-9));
    const auto own = blend("7 g", "3 g", {"--blend-oil-absorption", "45 +- 3 g/100g"});
    CHECK(own.at("blend").at("source") == "measured");
    const auto said = pvc({"--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--blend-oil-absorption",
                           "45 +- 3 g/100g", "--binder", "linseed-oil: 6 g"});
    CHECK_THAT(said.out, Contains("Blend: the oil absorption 45 ") && Contains("as it was read"));
    CHECK(value(own, "k") == Approx(6.0 / 0.93 / (10.0 * 0.45 / 0.93)).epsilon(1e-9));
}

TEST_CASE("A recipe with a jar, and with what really went in", "[cli]") {
    const Arguments recipe = {"lake-watercolour-half-pans", "--jar", studio("jars/weld.yaml"), "--bench",
                              studio("bench.yaml")};
    const auto planned = json_of(recipe);
    CHECK(planned.at("holds") == true);
    const auto used = json_of(with(recipe, {"--total", "10 g", "--used", "20 g"}));
    CHECK(value(used, "k") < value(planned, "k"));
    CHECK(pvc(with(recipe, {"--total", "10 g", "--used", "10 g"})).status == 1);
}

TEST_CASE("A weigh sheet's JSON checked again gives the k of the sheet", "[identity]") {
    const TempDir dir;
    for (const std::string recipe : {"lake-watercolour-half-pans", "lake-oil-tube", "lake-egg-tempera",
                                     "lake-oil-with-wax", "lake-chalk-oil"}) {
        const auto path = (dir.path() / (recipe + ".json")).string();
        const auto sheet = batch({recipe, "--jar", studio("jars/weld.yaml"), "--bench", studio("bench.yaml"),
                                  "--pigment", "8 g", "--json"});
        INFO(sheet.err);
        REQUIRE(sheet.status == 0);
        std::ofstream(path) << sheet.out;
        const auto json = nlohmann::json::parse(sheet.out).at("batch").at("as_weighed");
        const auto again = json_of({path});
        INFO(recipe);
        CHECK(value(again, "k") == Approx(json.at("k").at("value").get<double>()).epsilon(1e-6));
        CHECK(value(again, "pvc") == Approx(json.at("pvc").at("value").get<double>()).epsilon(1e-6));
        CHECK(nlohmann::json::parse(pvc({"-", "--json"}, sheet.out).out) == again);
    }
}

TEST_CASE("Tests come from the shelf; the chance of the window rises most by the rub-out", "[cli]") {
    const auto json = json_of({"--pigment", "alumina-lake: 10 g", "--binder", "gum-glycerol-honey: 36.5 g"});
    const auto& next = json.at("measure_next");
    CHECK(next.at("recommended") == "rub-out");
    CHECK(next.at("tests").size() == 8);
    CHECK(next.at("tests").front().at("chance_after").get<double>() > next.at("chance_now").get<double>());
    CHECK_THAT(pvc({"--pigment", "alumina-lake: 10 g", "--binder", "gum-glycerol-honey: 36.5 g"}).out,
               Contains("One rub-out of the pigment: about 10 minutes"));
}

TEST_CASE("A sweep over medium is a table, as text, CSV and JSON", "[cli]") {
    const Arguments sweep = with(lake_m, {"--binder", "gum-glycerol-honey: 40 g", "--sweep", "medium", "--from",
                                          "1 g/g", "--to", "5 g/g", "--points", "5"});
    const auto text = pvc(sweep);
    CHECK(text.status == 0);
    CHECK_THAT(text.out, Contains("medium g/g") && Contains("underbound"));
    const auto csv = pvc(with(sweep, {"--csv"})).out;
    CHECK_THAT(csv, StartsWith("medium_per_pigment,k,pvc,cpvc,reduced_pvc,chance_underbound\n1,"));
    const auto json = nlohmann::json::parse(pvc(with(sweep, {"--json"})).out).at("columns");
    const auto whole = json_of(with(lake_m, {"--binder", "gum-glycerol-honey: 40 g"}));
    CHECK(json.at("k").at(3).get<double>() == Approx(value(whole, "k")).epsilon(1e-9));
    CHECK(json.at("pvc").at(3).get<double>() == Approx(value(whole, "pvc")).epsilon(1e-9));
    CHECK(json.at("chance_underbound").at(3).get<double>() ==
          Approx(whole.at("chance").at("underbound").get<double>()).margin(1e-9));
}

TEST_CASE("Sweeps over extender and size ratio; a million points and one are bounded", "[cli]") {
    const Arguments blend = {"--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder", "linseed-oil: 6 g"};
    const auto extender =
        nlohmann::json::parse(pvc(with(blend, {"--sweep", "extender", "--json"})).out).at("columns");
    const auto& k = extender.at("k");
    for (std::size_t i = 1; i < k.size(); ++i)
        CHECK(k.at(i).get<double>() > k.at(i - 1).get<double>()); // chalk takes less oil than lake
    const auto ratio =
        nlohmann::json::parse(pvc(with(blend, {"--median-size", "alumina-lake: 3 um", "--median-size", "chalk: 15 um", "--sweep",
                                               "size-ratio", "--json"}))
                                  .out)
            .at("columns");
    CHECK(ratio.at("possible_saving").front().get<double>() == Approx(0.0).margin(1e-9));
    const auto many = pvc(with(blend, {"--sweep", "medium", "--points", "1000001"}));
    CHECK(many.status == 2);
    CHECK_THAT(many.err, Contains("2 to 1000000"));
    CHECK(pvc(with(blend, {"--sweep", "medium", "--points", "1"})).status == 2);
    CHECK(pvc(with(blend, {"--sweep", "medium", "--points", "1000000", "--csv"})).status == 0);
    CHECK(pvc(with(lake_m, {"--binder", "linseed-oil: 9 g", "--sweep", "extender"})).status == 2);
}

TEST_CASE("Fat over lean is judged by volume", "[cli]") {
    const Arguments jar = {"--jar", studio("jars/weld.yaml"), "--bench", studio("bench.yaml")};
    const auto good = pvc(with(jar, {"--layer", "ultramarine-oil", "--layer", "lake-oil-tube"}));
    INFO(good.err);
    CHECK(good.status == 0);
    CHECK_THAT(good.out, Contains("IN ORDER"));
    const auto bad = pvc(with(jar, {"--layer", "lake-oil-tube", "--layer", "ultramarine-oil"}));
    CHECK(bad.status == 1);
    CHECK_THAT(bad.out, Contains("LEAN OVER FAT") && Contains("BETTER IN THIS ORDER"));
    const auto json = nlohmann::json::parse(
        pvc(with(jar, {"--layer", "lake-oil-tube", "--layer", "ultramarine-oil", "--json"})).out);
    CHECK(json.at("in_order") == false);
}

TEST_CASE("Bench readings become figures ready for the jar's file", "[reference]") {
    const auto reading = [](const std::string& text) { return pvc({"--reading", "-"}, text); };
    // The worked rub-out of docs/theory.md: 50 drops 1.81 g, 19 drops on 1.00 g, 68.8 g/100g.
    const auto drops = reading("kind: bench reading\nname: Rub-out\ntest: rub-out\nscale: 0.01 g\n"
                               "dropper: {drops: 50, weighed: 1.81 g}\nrub_outs:\n"
                               "  - {pigment: 1.00 g, oil: 19 drops}\n");
    INFO(drops.err);
    CHECK(drops.status == 0);
    CHECK_THAT(drops.out, Contains("oil_absorption: 68.8 x/ 1.1") && Contains("# A drop weighs 0.0362 g."));
    // The worked bottle: 52.37 g full, 3.02 g of lake, 53.79 g together: 1.882 +- 0.018 g/cm3.
    const auto bottle = reading("kind: bench reading\nname: Bottle\ntest: pyknometer\nscale: 0.01 g\n"
                                "full_of_liquid: 52.37 g\npigment: 3.02 g\npigment_and_liquid: 53.79 g\n"
                                "liquid: 0.99705 g/cm3\n");
    CHECK_THAT(bottle.out, Contains("density: 1.88"));
    const auto moisture = reading("kind: bench reading\nname: Damp\ntest: moisture\nscale: 0.01 g\n"
                                  "dish: 20.00 g\ndish_and_wet: 25.00 g\ndish_and_dry: 24.25 g\n");
    CHECK_THAT(moisture.out, Contains("moisture: 15.0"));
    for (const std::string test :
         {"displacement\npigment: 3.0 g\ngraduate: 0.2 mL\nbefore: 6.0 mL\nafter: 7.6 mL",
          "tapped fill\nruler: 1 mm\ndiameter: 30 mm\nheight: 40 mm\npowder: 10 g",
          "medium solids\ndish: 20 g\ndish_and_wet: 25 g\ndish_and_dry: 21.8 g"})
        CHECK(reading("kind: bench reading\nname: x\nscale: 0.1 g\ntest: " + test + "\n").status == 0);
    const auto studio_reading = pvc({"--reading", studio("readings/weld-rub-outs.yaml")});
    CHECK_THAT(studio_reading.out, Contains("3 rub-outs: 72.0, 76.0 and 77.1 g/100g"));
    CHECK(nlohmann::json::parse(pvc({"--reading", studio("readings/weld-rub-outs.yaml"), "--json"}).out)
              .at("figure") == "oil_absorption");
}

TEST_CASE("A figure pasted from a reading is read back by the jar file", "[identity]") {
    const TempDir dir;
    const auto lines = pvc({"--reading", studio("readings/weld-rub-outs.yaml")}).out;
    const auto path = (dir.path() / "own.yaml").string();
    std::ofstream(path) << "kind: jar\nname: Own\npigment: alumina-lake\nnet_mass: 20 g\n" << lines;
    const auto run = pvc({"lake-oil-tube", "--jar", path, "--json"});
    INFO(run.err);
    REQUIRE(run.status == 0);
    CHECK(nlohmann::json::parse(run.out)
              .at("pigments")
              .at(0)
              .at("oil_absorption_g_per_100g")
              .at("value")
              .get<double>() == Approx(74.5).epsilon(5e-3)); // 75.0, drawn a little to the library's 65
}

TEST_CASE("Help opens with an example that works as it stands", "[cli]") {
    const auto run = pvc({"--help"});
    CHECK_THAT(run.out, Contains("Example:\n  lakebound-pvc --pigment \"alumina-lake: 10 g\""));
    std::istringstream lines(run.out);
    bool example = false;
    for (std::string line; std::getline(lines, line);) {
        CHECK((line.size() <= 80 || example));
        example = line == "Example:";
    }
    CHECK(pvc({"--version"}).out == "lakebound-pvc 0.1.0\n");
}

TEST_CASE("A rescue names the whole mixture, says how sure it is and follows the chance accepted", "[cli]") {
    const std::vector<std::string> lean = {"--pigment", "10 g", "--oil-absorption", "68.8 g/100g", "--density",
                                           "1.88 g/cm3", "--binder", "gum-arabic: 5 g", "--binder", "water: 10 g",
                                           "--binder", "glycerol: 1.2 g", "--rescue"};
    const auto text = pvc(lean).out;
    CHECK_THAT(text, Contains("gum arabic + water + glycerol"));
    CHECK_THAT(text, Contains("end in the window"));
    const auto json = json_of(lean);
    const auto& rescue = json.at("rescue");
    CHECK(rescue.at("chance_below_window").get<double>() + rescue.at("chance_in_window").get<double>() +
              rescue.at("chance_above_window").get<double>() ==
          Approx(1.0).epsilon(1e-12));
    // What is accepted is what is left, at the k nearest to the paint that leaves it.
    const auto easy = json_of(and_also(lean, {"--accept", "45 %"}));
    CHECK(easy.at("rescue").at("chance_in_window").get<double>() == Approx(0.55).epsilon(1e-6));
    CHECK(easy.at("rescue").at("aim_by_accepted_chance") == true);
    CHECK(easy.at("rescue").at("aim_k").get<double>() < rescue.at("aim_k").get<double>());
    // An aim that is named goes first.
    CHECK(json_of(and_also(lean, {"--accept", "4 %", "--aim", "1.3"})).at("rescue").at("aim_k").get<double>() ==
          Approx(1.3));
}

TEST_CASE("A sticky batch gets one plan, never two", "[cli]") {
    const std::vector<std::string> sticky = {"--pigment", "20 g", "--oil-absorption", "68.8 g/100g", "--density",
                                             "1.88 g/cm3", "--binder", "gum-arabic: 8 g", "--binder", "water: 16 g",
                                             "--binder", "honey: 10 g", "--humidity", "60 %", "--rescue"};
    const auto text = pvc(sticky).out;
    INFO(text);
    const auto at = text.find("RESCUE");
    REQUIRE(at != std::string::npos);
    const auto rescue = text.substr(at, text.find("IN THE ROOM") - at);
    CHECK(rescue.find("dissolve ") != std::string::npos);
    CHECK(rescue.find("Add ") == std::string::npos);
    CHECK(rescue.find("add 0 g") == std::string::npos);
}

TEST_CASE("A rescue counts the batch as drawn from its jar", "[cli]") {
    // 23.0 g were weighed and 2.0 g rubbed out: the batch of 15 g leaves less than the rescue wants.
    const std::vector<std::string> rich = {"--jar", shipped("studios/reedmere/jars/weld.yaml"), "--pigment",
                                           "jar: 6 g", "--binder", "linseed-oil: 16 g", "--rescue"};
    const auto json = json_of(rich);
    const auto all = json_of(and_also(rich, {"--jar-left", "500 g"}));
    CHECK(all.at("rescue").at("jar_holds_enough") == true);
    const auto jar = json_of({"--jar", shipped("studios/reedmere/jars/weld.yaml"), "--pigment", "jar: 6 g",
                              "--binder", "linseed-oil: 16 g", "--rescue"});
    CHECK(jar.at("rescue").at("pigment_g").get<double>() <= all.at("rescue").at("pigment_g").get<double>());
    const double needed = all.at("rescue").at("pigment_g").get<double>();
    const double short_of = json.at("rescue").at("pigment_short_g").get<double>();
    CHECK(json.at("rescue").at("pigment_g").get<double>() + short_of == Approx(needed).epsilon(1e-9));
}
