// What lakebound-pvc refuses, and the one question it asks instead.
#include <catch2/catch.hpp>

#include "run.hpp"

using namespace lakebound;
using namespace lakebound::testing;
using Catch::Contains;

namespace {

using Arguments = std::vector<std::string>;

void check_pvc_refuses(const Arguments& arguments, const std::string& id, const std::string& text = {}) {
    const auto run = pvc(arguments);
    INFO(run.err);
    check_refused(run, id);
    if (id != "out-of-range") CHECK_THAT(run.err, Contains("hint: "));
    if (!text.empty()) CHECK_THAT(run.err, Contains(text));
}

const Arguments lake = {"--pigment", "alumina-lake: 10 g"};
const Arguments oil = {"--binder", "linseed-oil: 9 g"};

} // namespace

TEST_CASE("Bare parts are two paints: both are shown, and one question asked", "[errors]") {
    // By weight and by volume differ threefold (docs/theory.md).
    check_pvc_refuses({"--pigment", "alumina-lake", "--binder", "gum-water", "--parts", "1:1"}, "parts-basis",
                      "By weight k is 0.30, by volume 0.92");
    check_pvc_refuses({"--pigment", "alumina-lake: 1 part", "--binder", "gum-water: 1 part"}, "parts-basis",
                      "weight or volume?");
    check_pvc_refuses({"--pigment", "alumina-lake", "--binder", "gum-water", "--parts", "one to one"},
                      "parts-form");
    check_pvc_refuses({"--pigment", "alumina-lake", "--binder", "gum-water", "--parts", "0 binder : 1 pigment by weight"},
                      "parts-form");
    check_pvc_refuses({"--pigment", "chalk", "--binder", "gum-water", "--parts", "1 binder : 1 pigment by volume"},
                      "bulk-density-missing");
}

TEST_CASE("Wet and dry bases do not mix", "[errors]") {
    check_pvc_refuses({"--pigment", "10 g", "--oil-absorption", "68 g/100g", "--density", "2.2 g/cm3",
                       "--bone-dry", "--binder", "linseed-oil: 9 g"},
                      "moisture-missing", "--moisture");
    CHECK(pvc({"--pigment", "10 g", "--oil-absorption", "68 g/100g", "--density", "2.2 g/cm3", "--bone-dry",
               "--moisture", "15 % w/w", "--binder", "linseed-oil: 9 g"})
              .status == 0);
}

TEST_CASE("Humidity outside 0 to 92.5 % is refused", "[errors]") {
    check_pvc_refuses(and_also(and_also(lake, {"--binder", "gum-water: 30 g"}), {"--humidity", "97 %"}),
                      "out-of-range", "0 to 92.5 %");
    check_pvc_refuses(and_also(and_also(lake, {"--binder", "gum-water: 30 g"}), {"--humidity", "-5 %"}),
                      "out-of-range");
}

TEST_CASE("Zero or negative binder, and no binder at all", "[errors]") {
    check_pvc_refuses(and_also(lake, {"--binder", "linseed-oil: -3 g"}), "out-of-range", "above 0");
    check_pvc_refuses(and_also(lake, {"--binder", "linseed-oil: 0 g"}), "out-of-range", "above 0");
    check_pvc_refuses(lake, "binder-missing");
    check_pvc_refuses(and_also(lake, {"--binder", "water: 10 g"}), "binder-none");
    check_pvc_refuses(and_also(lake, {"--binder", "10 g"}), "binder-name");
    check_pvc_refuses(and_also(lake, {"--binder", "linseed-oil"}), "amount-missing");
}

TEST_CASE("Blend shares that do not add up", "[errors]") {
    check_pvc_refuses(and_also({"--pigment", "alumina-lake: 70 % w/w", "--pigment", "chalk: 20 % w/w"}, oil),
                      "share-sum", "90 %");
    check_pvc_refuses(and_also({"--pigment", "alumina-lake: 70 %", "--pigment", "chalk: 30 %"}, oil),
                      "percent-basis");
    check_pvc_refuses(and_also({"--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 30 % w/w"}, oil),
                      "amount-missing");
    check_pvc_refuses(and_also({"--pigment", "alumina-lake: 7 g", "--pigment", "alumina-lake: 3 g"}, oil),
                      "pigment-twice");
}

TEST_CASE("An oil absorption that is not one is asked about", "[errors]") {
    for (const std::string wrong : {"680 g/100g", "1 g/100g", "0.68 g/100g"})
        check_pvc_refuses(and_also({"--pigment", "10 g", "--oil-absorption", wrong}, oil), "out-of-range",
                          "grams of oil to 100 g of pigment?");
    check_pvc_refuses(and_also({"--pigment", "10 g", "--oil-absorption", "68 %"}, oil), "unit-dimension");
    check_pvc_refuses(and_also({"--pigment", "10 g"}, oil), "oil-absorption-missing");
}

TEST_CASE("A kitchen cup must say whose", "[errors]") {
    // The recipe that equates two cups with 250 mL: the readings differ by 36 % (docs/theory.md).
    check_pvc_refuses(and_also(lake, {"--binder", "gum-arabic: 125 g", "--binder", "water: 2 cups"}),
                      "unit-unqualified", "cup");
}

TEST_CASE("Names and options that do not fit are told with what would", "[errors]") {
    check_pvc_refuses(and_also({"--pigment", "alumina-lak: 10 g"}, oil), "id-unknown", "alumina-lake");
    check_pvc_refuses(and_also(lake, {"--binder", "gum-wate: 10 g"}), "id-unknown", "gum-water");
    check_pvc_refuses(and_also(and_also(lake, oil), {"--density", "chalk: 2.7 g/cm3"}), "label-unknown");
    check_pvc_refuses(and_also(and_also({"--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g"}, oil),
                               {"--density", "2.7 g/cm3"}),
                      "label-missing");
    check_pvc_refuses(and_also(and_also(lake, oil), {"--aim", "1.4"}), "option-alone");
    check_pvc_refuses(and_also(and_also(lake, oil), {"--rescue", "--aim", "1e9"}), "out-of-range", "0.01 to 100");
    check_pvc_refuses({"lake-oil-tube", "--pigment", "10 g"}, "option-conflict");
    check_pvc_refuses({"lake-oil-tube"}, "jar-missing");
    check_pvc_refuses({"--no-color"}, "paint-missing");
    check_pvc_refuses(and_also(and_also(lake, {"--binder", "casein: 5 g"}), {}), "family-missing", "--family");
}

TEST_CASE("A weigh sheet of another kind or version is refused with its place", "[errors]") {
    const auto refused = [](const std::string& json, const std::string& place) {
        const auto run = pvc({"-"}, json);
        INFO(run.err);
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains("standard input:" + place));
    };
    refused("{\n  \"schema_version\": 9,\n  \"kind\": \"batch\"\n}\n", "2:21: error: expected version 3 or 4");
    refused("{\n  \"schema_version\": 3,\n  \"kind\": \"jar\"\n}\n", "3:11: error: expected a weigh sheet");
    refused("{\n  \"schema_version\": 3,\n  \"kind\": \"batch\"\n}\n",
            "1:1: error: a weigh sheet needs 'recipe'");
    refused("{\n  \"schema_version\": 3,\n", "");
}

TEST_CASE("Parts must say which of them is the binder", "[errors]") {
    // Makers say it both ways: "1:2 by volume" was taken as binder to pigment and never echoed.
    const Arguments lake_and_gum = {"--pigment", "alumina-lake", "--binder", "gum-water"};
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "1:2 by volume"}), "parts-order",
                      "As 1 binder : 2 pigment k is 0.46, as 1 pigment :");
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "2:1"}), "parts-order", "by weight");
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "1:1 by weight"}), "parts-order",
                      "--parts \"1 binder : 1 pigment by weight\"\n");
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "2 binder : 1 binder by weight"}), "parts-form");
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "2 gum : 1 pigment by weight"}), "parts-form");
    check_pvc_refuses(and_also(lake_and_gum, {"--parts", "2 binder : 1 pigment"}), "parts-basis", "By weight k is 0.59");
    const auto one = pvc(and_also(lake_and_gum, {"--parts", "1 binder : 2 pigment by volume"}));
    CHECK_THAT(one.out, Contains("(1 part of binder to 2 parts") && Contains("by volume)"));
    const auto other = pvc(and_also(lake_and_gum, {"--parts", "2 powder : 1 medium by volume"}));
    CHECK(one.out == other.out);
}

TEST_CASE("A jar that is named is used, or refused", "[errors]") {
    const Arguments weld = {"--jar", shipped("studios/reedmere/jars/weld.yaml")};
    const Arguments gum = {"--binder", "gum-glycerol-honey: 24 g"};
    // --jar was passed over in silence when "6 g" stood beside it.
    const auto plain = pvc(and_also(and_also(weld, gum), {"--pigment", "6 g"}));
    const auto named = pvc(and_also(and_also(weld, gum), {"--pigment", "jar: 6 g"}));
    INFO(plain.err);
    CHECK(plain.status != 2);
    CHECK(plain.out == named.out);
    CHECK_THAT(plain.out, Contains("Weld"));
    check_pvc_refuses(and_also(and_also(weld, gum), {"--pigment", "chalk: 6 g"}), "jar-not-used", "--jar");
    // Beside another powder the jar's figures are named by "jar" or by its pigment.
    const auto sizes = pvc(and_also(and_also(weld, gum), {"--pigment", "jar: 6 g", "--pigment", "chalk: 2 g",
                                                          "--median-size", "jar: 12 um", "--packing"}));
    INFO(sizes.err);
    CHECK(sizes.status != 2);
}

TEST_CASE("A medium's name that is an ingredient's offers the medium", "[errors]") {
    const auto run = batch({"ultramarine-oil", "--pigment", "10 g", "--medium", "linseed-oil"});
    check_refused(run, "id-unknown", "did you mean 'linseed'?");
}
