// Recipes as others have published them, typed with the vagueness they have: a number with its
// uncertainty, or the one question that settles it.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "run.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

using Arguments = std::vector<std::string>;

nlohmann::json json_of(Arguments arguments) {
    arguments.emplace_back("--json");
    const auto run = pvc(arguments);
    INFO(run.err);
    REQUIRE(run.status < 2);
    return nlohmann::json::parse(run.out);
}
double k_of(const nlohmann::json& json) { return json.at("k").at("value").get<double>(); }

/// Dry binder in a gram of a mixture, from the answer for a known mass of it.
double dry_binder_per_gram(const nlohmann::json& json) {
    return json.at("dry_binder_ml").get<double>() / json.at("medium_g").get<double>();
}

} // namespace

TEST_CASE("Gum medium, 100 parts of gum in 200 of water by weight", "[reference]") {
    // gum-water-recipe: 1 gum, 2 water. Audit of docs/theory.md: 0.207 mL of dry binder in a gram (three
    // digits were worked). Amounts to pigment are not in it: 10 g of lake with 30 g of medium is typed here.
    const auto json = json_of({"--pigment", "alumina-lake: 10 g", "--binder", "gum-arabic: 100 g", "--binder",
                               "water: 200 g", "--used", "30 g"});
    CHECK(dry_binder_per_gram(json) == Approx(0.207).epsilon(3e-3));
    CHECK(json.at("k").at("standard_uncertainty").get<double>() > 0.1 * k_of(json));
    CHECK(json.at("watercolour").at("soft_share").get<double>() == Approx(0.15).epsilon(0.04)); // two digits worked
}

TEST_CASE("Gum medium with two cups of water: the cup is asked for", "[reference]") {
    // gum-honey-recipe: 125 g of gum, "2 cups (250 mL)", 21 g of honey. Audit: 0.224 mL/g read as 250 mL, 0.143
    // as two US cups; 36 % apart.
    const Arguments recipe = {"--pigment", "alumina-lake: 10 g", "--binder", "gum-arabic: 125 g",
                              "--binder",  "honey: 21 g",        "--used",   "30 g"};
    const auto with_water = [&recipe](const std::string& water) {
        auto arguments = recipe;
        arguments.insert(arguments.end(), {"--binder", "water: " + water});
        return arguments;
    };
    const auto asked = pvc(with_water("2 cups"));
    CHECK(asked.status == 2);
    CHECK_THAT(asked.err, Contains("[unit-unqualified]") && Contains("US cup"));
    CHECK(dry_binder_per_gram(json_of(with_water("250 mL"))) == Approx(0.224).epsilon(3e-3));
    CHECK(dry_binder_per_gram(json_of(with_water("2 US cups"))) == Approx(0.143).epsilon(5e-3));
}

TEST_CASE("Gum medium with much glycerol, by weight and volume mixed", "[reference]") {
    // kay-1983: 85 g of gum, 177 mL of water, 44 mL of glycerol. Audit: 0.305 mL/g, plasticiser 0.75 g to
    // a gram of gum, soft share 0.57 at 50 % humidity: it stays sticky.
    const Arguments recipe = {
        "--pigment",     "alumina-lake: 10 g", "--binder",        "gum-arabic: 85 g", "--binder",
        "water: 177 mL", "--binder",           "glycerol: 44 mL", "--used",           "25 mL"};
    const auto json = json_of(recipe);
    CHECK(dry_binder_per_gram(json) == Approx(0.305).epsilon(5e-3));
    CHECK(json.at("watercolour").at("plasticiser_ratio").get<double>() == Approx(0.745).epsilon(1e-2));
    CHECK(json.at("watercolour").at("soft_share").get<double>() == Approx(0.57).epsilon(0.02));
    CHECK_THAT(pvc(recipe).out, Contains("likely to stay sticky"));
}

TEST_CASE("Madder lake in oil, 55 or 103 parts of oil by two makers", "[reference]") {
    // church-1901: finished tube paint of two colourmen. Neither says what the lake was, so the library's wide
    // figure stands in: both makers' amounts lie within it, and the chance says how little is known.
    const auto first = json_of({"--pigment", "madder-lake: 100 g", "--binder", "linseed-oil: 55 g"});
    const auto second = json_of({"--pigment", "madder-lake: 100 g", "--binder", "linseed-oil: 103 g"});
    CHECK(k_of(second) / k_of(first) == Approx(103.0 / 55.0).epsilon(1e-9));
    CHECK(k_of(first) < 1.0);
    CHECK(k_of(second) > 1.0);
    for (const auto& json : {first, second}) {
        const double underbound = json.at("chance").at("underbound").get<double>();
        CHECK(underbound > 0.02);
        CHECK(underbound < 0.98);
    }
    // Below k 1 no test helps; above it the rub-out helps most.
    CHECK(first.at("measure_next").at("advice") == "change_the_recipe");
    CHECK(second.at("measure_next").at("tests").front().at("id") == "rub-out");
}

TEST_CASE("Egg tempera of equal parts: which parts is asked, and each reading answers", "[reference]") {
    // conservators-forum-tempera: "about equal parts yolk and pigment". docs/theory.md: equal volumes of a
    // paste of 30 % and neat yolk give PVC 0.398 and k 1.09, of loose powder and yolk PVC 0.291 and k 1.76
    // (index 1).
    const Arguments lake_m = {"--pigment", "10 g",       "--oil-absorption", "68.78 g/100g",
                              "--density", "1.88 g/cm3", "--tapped-density", "0.35 g/cm3",
                              "--binder",  "egg-yolk"};
    const auto parts = [&lake_m](const Arguments& more) {
        auto arguments = lake_m;
        arguments.insert(arguments.end(), more.begin(), more.end());
        return arguments;
    };
    const auto asked = pvc(parts({"--parts", "1:1"}));
    CHECK(asked.status == 2);
    CHECK_THAT(asked.err, Contains("[parts-basis]") && Contains("by weight or by volume?"));
    const auto index = [](const nlohmann::json& json) {
        return json.at("binder_index").at("value").get<double>();
    };
    const auto paste = json_of(parts({"--parts", "1 binder : 1 pigment by volume", "--paste", "30 % v/v"}));
    CHECK(paste.at("pvc").at("value").get<double>() == Approx(0.398).epsilon(2e-3));
    CHECK(k_of(paste) / index(paste) == Approx(1.09).epsilon(5e-3));
    const auto powder = json_of(parts({"--parts", "1 binder : 1 pigment by volume"}));
    CHECK(powder.at("pvc").at("value").get<double>() == Approx(0.291).epsilon(3e-3));
    CHECK(k_of(powder) / index(powder) == Approx(1.76).epsilon(5e-3));
}
