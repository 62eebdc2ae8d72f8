#include <catch2/catch.hpp>

#include <algorithm>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const StandardInput no_input = []() -> std::string { throw std::logic_error("standard input is not asked for"); };

PaintTexts gum_paint() {
    PaintTexts texts;
    texts.pigments = {"test-lake: 10 g"};
    texts.binders = {"gum-water: 40 g"};
    texts.family = "test-family";
    return texts;
}

PvcQuestion question(const PaintTexts& texts) {
    const SmallShelf shelf;
    auto library = shelf.library();
    return paint_question(texts, library, no_input);
}

std::string fault_of(const PaintTexts& texts) {
    return summary(faults_of([&] { (void)question(texts); }));
}

} // namespace

TEST_CASE("A paint typed by mass is what was weighed", "[unit]") {
    const auto asked = question(gum_paint());
    CHECK(in_grams(asked.pigment) == Approx(10.0));
    REQUIRE(asked.request.aim);
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() == Approx(4.0));
    CHECK(asked.oil_absorption_known);
    CHECK(asked.density_known);
    CHECK(asked.title == "10.0 g of Test lake with 40.0 g of test gum water");
    CHECK(asked.assumed.size() == 1); // no bench file: a room of 50 % humidity
}

TEST_CASE("Pigments typed by mass have the shares of their masses", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"test-lake: 6 g", "chalk: 2 g"};
    texts.oil_absorptions = {"chalk: 20 g/100g"};
    texts.densities = {"chalk: 2.7 g/cm3"};
    const auto asked = question(texts);
    REQUIRE(asked.request.recipe.pigments.size() == 2);
    CHECK(asked.request.recipe.pigments[0].share.value() == Approx(0.75));
    CHECK(asked.request.recipe.pigments[1].share.value() == Approx(0.25));
}

TEST_CASE("A figure that nobody gave only stands in", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"chalk: 10 g"};
    texts.densities = {"chalk: 2.7 g/cm3"};
    const auto asked = question(texts);
    const auto& pigment = asked.request.recipe.pigments[0].pigment;
    CHECK_FALSE(asked.oil_absorption_known);
    CHECK(pigment.oil_absorption->provenance().stand_in);
    CHECK(pigment.oil_absorption->provenance().origin != Origin::measured);
    CHECK_FALSE(pigment.density.provenance().stand_in);
    CHECK(pigment.density.provenance().origin == Origin::measured);
}

TEST_CASE("Shares by volume become shares by mass with the densities", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"test-lake: 50 % v/v", "chalk: 50 % v/v"};
    texts.oil_absorptions = {"chalk: 20 g/100g"};
    texts.densities = {"chalk: 2.7 g/cm3"};
    texts.total = "10 g";
    const auto asked = question(texts);
    // Equal volumes weigh as their densities: 1.9 to 2.7.
    CHECK(asked.request.recipe.pigments[0].share.value() == Approx(1.9 / 4.6));
}

TEST_CASE("Parts by weight are medium per pigment", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"test-lake"};
    texts.binders = {"gum-water"};
    texts.parts = "3 binder : 2 pigment by weight";
    const auto asked = question(texts);
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() == Approx(1.5));
    CHECK(in_grams(asked.pigment) == Approx(10.0)); // only a size to reckon with
    CHECK(asked.title.ends_with("(3 parts of binder to 2 parts of pigment, by weight)"));
}

TEST_CASE("Parts by volume are of the powder as it is tapped", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"test-lake"};
    texts.binders = {"gum-water"};
    texts.parts = "1 binder : 2 pigment by volume";
    CHECK(fault_of(texts) == "bulk-density-missing");
    texts.tapped_densities = {"0.5 g/cm3"};
    const auto asked = question(texts);
    // 1 mL of medium to 2 mL of powder of 0.5 g/cm3, which is 1 g: the aim is the medium's density in g/cm3.
    // The gum water by hand: 1 g of gum (1.4 g/cm3) and 2 g of water (0.998 g/cm3) fill 2.7183 mL.
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() == Approx(3.0 / (1.0 / 1.4 + 2.0 / 0.998)).epsilon(0.03));
    REQUIRE(asked.request.by_volume.size() == 1);
}

TEST_CASE("A spooned binder says how badly a spoon measures", "[unit]") {
    const SmallShelf shelf;
    shelf.dir().write("bench.yaml", std::string(plain_bench) + "teaspoon: 5 mL\n");
    auto library = shelf.library();
    auto texts = gum_paint();
    texts.binders = {"gum-water: 2 tsp"};
    const auto asked = paint_question(texts, library, no_input);
    CHECK(asked.request.medium_spooned == Approx(0.1)); // spoon_filling of the small shelf
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() ==
          Approx(3.0 / (1.0 / 1.4 + 2.0 / 0.998)).epsilon(0.03)); // 10 mL to 10 g
}

TEST_CASE("A rub-out of the blend takes the place of its parts", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"test-lake: 6 g", "chalk: 2 g"};
    texts.densities = {"chalk: 2.7 g/cm3"};
    texts.oil_absorptions = {"chalk: 20 g/100g"};
    texts.blend_oil_absorption = "50 g/100g";
    const auto asked = question(texts);
    CHECK(asked.blend_measured);
    CHECK(asked.blend_of.size() == 2);
    REQUIRE(asked.request.recipe.pigments.size() == 1);
    CHECK(in_grams_per_100_grams(asked.request.recipe.pigments[0].pigment.oil_absorption.value().value()) == Approx(50.0));
    texts.pigments = {"test-lake: 6 g"};
    CHECK(fault_of(texts) == "label-unknown"); // the chalk's figures are left over
    texts.densities = texts.oil_absorptions = {};
    CHECK(fault_of(texts) == "blend-single");
}

TEST_CASE("A paint of which one thing is missing asks for that", "[errors]") {
    const auto without = [](auto change) {
        auto texts = gum_paint();
        change(texts);
        return fault_of(texts);
    };
    CHECK(fault_of({}) == "paint-missing");
    CHECK(without([](auto& t) { t.binders = {}; }) == "binder-missing");
    CHECK(without([](auto& t) { t.binders = {"40 g"}; }) == "binder-name");
    CHECK(without([](auto& t) { t.binders = {"gum-water"}; }) == "amount-missing");
    CHECK(without([](auto& t) { t.binders = {"water: 40 g"}; }) == "binder-none");
    CHECK(without([](auto& t) { t.pigments = {"test-lake"}; }) == "amount-missing");
    CHECK(without([](auto& t) { t.pigments = {"10 g"}; }) == "oil-absorption-missing");
    CHECK(without([](auto& t) { t.pigments = {"jar: 10 g"}; }) == "jar-missing");
    CHECK(without([](auto& t) { t.pigments = {"test-lake: 5 g", "test-lake: 5 g"}; }) == "pigment-twice");
    CHECK(without([](auto& t) { t.pigments = {"test-lake: 5 tsp"}; }) == "unit-uncalibrated");
    CHECK(without([](auto& t) { t.pigments = {"test-lake: 5 mL"}; }) == "bulk-density-missing");
    CHECK(without([](auto& t) { t.densities = {"chalk: 2.7 g/cm3"}; }) == "label-unknown");
    CHECK(without([](auto& t) { t.total = "10 g"; }) == "option-conflict");
    CHECK(without([](auto& t) { t.parts = "1 binder : 1 pigment by weight"; }) == "option-conflict");
    CHECK(without([](auto& t) { t.recipe = "test-paint"; }) == "option-conflict");
    CHECK(without([](auto& t) { t.humidity = "99 %"; }) == "out-of-range");
    CHECK(without([](auto& t) { t.binders = {"gum-water"}, t.parts = "1:2"; }) == "parts-order");
    CHECK(without([](auto& t) { t.binders = {"gum-water"}, t.parts = "1 binder : 2"; }) == "parts-basis");
    CHECK(without([](auto& t) { t.binders = {"gum-water"}, t.parts = "a lot"; }) == "parts-form");
}

TEST_CASE("A recipe that is read from standard input is asked for once", "[unit]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    int asked = 0;
    const StandardInput input = [&asked] {
        ++asked;
        return changed(plain_recipe, "  - {pigment: jar, share: 70 % w/w}\n  - {pigment: test-lake, share: 30 % w/w}",
                       "  - {pigment: test-lake, share: 100 % w/w}");
    };
    PaintTexts texts;
    texts.recipe = "-";
    texts.total = "8 g";
    const auto question = paint_question(texts, library, input);
    CHECK(asked == 1);
    CHECK(in_grams(question.pigment) == Approx(8.0));
    CHECK(question.title.starts_with("Test paint: 8.0 g of Test lake with "));
}

TEST_CASE("Binders that are typed one by one are one mixture, spoons and all", "[reference]") {
    Library library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}});
    PaintTexts texts;
    texts.pigments = {"alumina-lake: 10 g"};
    texts.binders = {"gum-arabic: 10 g", "glycerol: 3 g", "water: 20 g"};
    const auto asked = paint_question(texts, library, no_input);
    CHECK(asked.request.recipe.medium.id == mixed_medium_id);
    CHECK(asked.request.recipe.medium.name == "gum arabic + glycerol + water");
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() == Approx(3.3));
    CHECK(asked.request.medium_spooned == Approx(0.0).margin(1e-15));
    CHECK(asked.request.recipe.family.id == "watercolour-pan"); // by its gum, and said
    CHECK(std::any_of(asked.assumed.begin(), asked.assumed.end(), [](const auto& line) { return line.find("--family watercolour-pan") != std::string::npos; }));
    // A medium beside an ingredient goes in by its parts: 2 of water to 1 of gum in 15 g, and 5 g more of gum.
    texts.binders = {"gum-water: 15 g", "gum-arabic: 5 g"};
    const auto beside = paint_question(texts, library, no_input);
    double gum = 0.0, water = 0.0;
    for (const auto& part : beside.request.recipe.medium.parts)
        (part.ingredient.id == "gum-arabic" ? gum : water) += part.parts;
    CHECK(gum == Approx(10.0).epsilon(1e-9));
    CHECK(water == Approx(10.0).epsilon(1e-9));
    texts.binders = {"gum-water", "gum-arabic: 5 g"};
    CHECK(summary(faults_of([&] { (void)paint_question(texts, library, no_input); })) == "amount-missing");
    // Oil and yolk tell their kind too, a wax does not.
    const auto family_by = [&](const char* binder) {
        texts.binders = {binder};
        return paint_question(texts, library, no_input).request.recipe.family.id;
    };
    CHECK(family_by("linseed-oil: 10 g") == "oil");
    CHECK(family_by("egg-yolk: 20 g") == "egg-tempera");
    texts.binders = {"beeswax: 10 g"};
    const auto unknown = faults_of([&] { (void)paint_question(texts, library, no_input); });
    REQUIRE(summary(unknown) == "family-missing");
    CHECK(unknown[0].hint == "add --family with one of egg-tempera, gouache, oil, watercolour-pan, watercolour-tube");
}

TEST_CASE("A paint is taken from its weigh sheet, and a figure that is typed besides counts instead", "[unit]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    const auto sheet = shelf.dir().write("sheet.json", R"({"schema_version": 4, "kind": "batch",
"recipe": {"id": "test-paint", "name": "Test paint", "family": "test-family", "medium": "gum-water"},
"record": {"sigma_ln_demand": 0.09},
"pigments": [{"id": "test-lake", "name": "Test lake", "class": "lake", "density_state": "as weighed",
 "density_g_per_cm3": {"value": 1.9, "standard_uncertainty": 0.1, "provenance": {"origin": "estimate"}},
 "oil_absorption_g_per_100g": {"value": 65, "standard_uncertainty": 6.5, "provenance": {"origin": "measured"}},
 "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}}}],
"batch": {"weigh": [{"part": "pigment", "id": "test-lake", "exact_g": 4, "to_weigh_g": 4, "rounded_g": 4},
 {"part": "medium", "id": "gum-water", "exact_g": 16, "to_weigh_g": 16, "rounded_g": 16}]}})");
    PaintTexts texts;
    texts.recipe = sheet;
    const auto asked = paint_question(texts, library, no_input);
    CHECK(in_grams(asked.pigment) == Approx(4.0));
    CHECK(std::get<MediumPerPigment>(*asked.request.aim).value() == Approx(4.0));
    CHECK(asked.title.starts_with("Test paint, as weighed: "));
    REQUIRE(asked.request.learned_doubt);
    CHECK(asked.request.learned_doubt->standard_deviation() == Approx(0.09));
    texts.oil_absorptions = {"80 g/100g"};
    const auto typed = paint_question(texts, library, no_input);
    CHECK_FALSE(typed.request.learned_doubt); // the record spoke of another figure
    // Not the 65 of the sheet: the 80 that were typed, drawn a little towards them by what they leave in doubt.
    const double oil = in_grams_per_100_grams(typed.request.recipe.pigments[0].pigment.oil_absorption.value().value());
    CHECK(oil > 75.0);
    CHECK(oil <= 80.0);
    texts.used = "3 g"; // the sheet says what went in
    CHECK(summary(faults_of([&] { (void)paint_question(texts, library, no_input); })) == "option-unread");
}

TEST_CASE("Figures that are typed of a powder are its own", "[unit]") {
    auto texts = gum_paint();
    texts.pigments = {"10 g"};
    texts.oil_absorptions = {"50 g/100g"};
    texts.densities = {"2.5 +- 0.1 g/cm3"};
    texts.moistures = {"10 % w/w"};
    texts.median_sizes = {"12 um"};
    texts.tapped_densities = {"0.5 g/cm3"};
    texts.test_oil = "0.92 g/cm3";
    const auto asked = question(texts);
    const Pigment& powder = asked.request.recipe.pigments.at(0).pigment;
    CHECK(in_grams_per_100_grams(powder.oil_absorption.value().value()) == Approx(50.0));
    CHECK(in_grams_per_cubic_centimetre(powder.density.value()) == Approx(2.5));
    CHECK(powder.density_state == MoistureState::as_weighed);
    CHECK(in_micrometres(powder.median_size->value()) == Approx(12.0));
    CHECK(in_grams_per_cubic_centimetre(powder.test_oil_density.value()) == Approx(0.92));
    CHECK(powder.moisture->value().value() == Approx(0.10));
    texts.bone_dry = true;
    CHECK(question(texts).request.recipe.pigments.at(0).pigment.density_state == MoistureState::bone_dry);
    texts.moistures.clear();
    CHECK(fault_of(texts) == "moisture-missing");
    // 20 mL of the tapped powder are 10 g.
    texts.bone_dry = false;
    texts.pigments = {"20 mL"};
    const auto spooned = question(texts);
    CHECK(in_grams(spooned.pigment) == Approx(10.0));
    REQUIRE(spooned.request.by_volume.size() == 1);
    CHECK(in_grams_per_cubic_centimetre(spooned.request.by_volume[0].tapped_density.value()) == Approx(0.5));
    CHECK(std::any_of(spooned.assumed.begin(), spooned.assumed.end(), [](const auto& line) { return line.find("tapped spoon") != std::string::npos; }));
}

TEST_CASE("Shares of pigments sum to all, and amounts are all of one kind", "[errors]") {
    auto texts = gum_paint();
    texts.total = "10 g";
    texts.densities = {"chalk: 2.7 g/cm3"};
    texts.oil_absorptions = {"chalk: 20 g/100g"};
    const auto with = [&](const char* one, const char* other) {
        texts.pigments = {std::string("test-lake: ") + one, std::string("chalk: ") + other};
        return fault_of(texts);
    };
    CHECK(with("60 % w/w", "39.95 % w/w").empty()); // a digit of rounding is no fault
    CHECK(with("60 % w/w", "39.85 % w/w") == "share-sum");
    CHECK(with("60 % w/w", "40.2 % w/w") == "share-sum");
    CHECK(with("60 % v/v", "40 % v/v").empty());
    texts.densities.clear();
    CHECK(with("60 % v/v", "40 % v/v") == "density-missing");
    texts.densities = {"chalk: 2.7 g/cm3"};
    texts.total.reset();
    CHECK(with("6 g", "40 % w/w") == "amount-missing");
    CHECK(with("6 g", "4 g").empty());
    texts.densities.clear();
    texts.blend_oil_absorption = "50 g/100g";
    CHECK(with("6 g", "4 g") == "density-missing");
}

TEST_CASE("How much went in is the maker's, of a recipe that is not made yet the recipe's", "[unit][errors]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    shelf.dir().write("recipes/alone.yaml", changed(plain_recipe, "  - {pigment: jar, share: 70 % w/w}\n  - {pigment: test-lake, share: 30 % w/w}", "  - {pigment: test-lake, share: 100 % w/w}"));
    PaintTexts texts;
    texts.recipe = "alone";
    texts.used = "40 g";
    CHECK(summary(faults_of([&] { (void)paint_question(texts, library, no_input); })) == "amount-missing");
    texts.total = "10 g";
    CHECK(std::get<MediumPerPigment>(*paint_question(texts, library, no_input).request.aim).value() == Approx(4.0));
    texts.pigments = {"test-lake: 10 g"};
    CHECK(summary(faults_of([&] { (void)paint_question(texts, library, no_input); })) == "option-conflict");
    // For comparing layers a recipe or a sheet stands alone.
    PaintTexts shared;
    CHECK(paint_question("alone", shared, library, no_input).request.recipe.id == "alone");
    shared.binders = {"gum-water: 1 g"};
    CHECK(summary(faults_of([&] { (void)paint_question("alone", shared, library, no_input); })) == "option-conflict");
}
