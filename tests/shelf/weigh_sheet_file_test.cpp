#include "lakebound/shelf/weigh_sheet_file.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "faults_of.hpp"
#include "small_shelf.hpp"
#include "spoiled.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

// As lakebound-batch writes it, shortened to what is read back. 4 g and 1 g of two lakes; of 20 g of medium 19.8 g go in
// by weight, where 0.2 g were taken off it with a stock and 0.05 g were dropped into it; gum from the stock, oil by drops.
const std::string plain = R"({
"schema_version": 4,
"kind": "batch",
"recipe": {"id": "test-paint", "name": "Test paint", "family": "test-family", "medium": "gum-water"},
"pigments": [
  {"id": "test-lake", "name": "Test lake", "class": "lake", "density_state": "as weighed",
   "density_g_per_cm3": {"value": 1.9, "standard_uncertainty": 0.1, "provenance": {"origin": "estimate", "source": "a guess", "library_default": true}},
   "oil_absorption_g_per_100g": {"value": 65, "standard_uncertainty": 6.5, "provenance": {"origin": "measured", "library_default": false}},
   "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0.005, "provenance": {"origin": "estimate"}},
   "excess_water": 0.12, "step_from_oil": 1.25},
  {"id": "other", "name": "Other lake", "class": "lake", "density_state": "bone dry",
   "density_g_per_cm3": {"value": 2.1, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}},
   "oil_absorption_g_per_100g": {"value": 40, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}},
   "test_oil_density_g_per_cm3": {"value": 0.93, "standard_uncertainty": 0, "provenance": {"origin": "estimate"}},
   "moisture": {"value": 0.05, "standard_uncertainty": 0.01, "provenance": {"origin": "measured"}}}],
"batch": {"weigh": [
  {"part": "pigment", "id": "test-lake", "exact_g": 4.02, "to_weigh_g": 4.02, "rounded_g": 4.0},
  {"part": "pigment", "id": "other", "exact_g": 1.01, "to_weigh_g": 1.01, "rounded_g": 1.0},
  {"part": "working_water", "id": "water", "exact_g": 2.5, "to_weigh_g": 2.3, "rounded_g": 2.3},
  {"part": "additive", "id": "test-gum", "exact_g": 0.021, "to_weigh_g": 0.21, "rounded_g": 0.2,
   "stock_solution": {"carrier_taken_off": "medium", "carrier_g": 0.189}},
  {"part": "additive", "id": "test-gum", "exact_g": 0.05, "to_weigh_g": 0.05, "rounded_g": 0.1, "drops": {"drops": 2}},
  {"part": "additive", "id": "test-gum", "exact_g": 0.31, "to_weigh_g": 0.3, "rounded_g": 0.3},
  {"part": "medium", "id": "gum-water", "exact_g": 20.0, "to_weigh_g": 19.8, "rounded_g": 19.9}]}
})";

WeighedPaint read_back(const std::string& text) {
    const SmallShelf shelf;
    auto library = shelf.library();
    return read_weighed_paint(load_document("sheet.json", text), library);
}
std::string faults(const std::string& text) {
    return summary(faults_of([&] { (void)read_back(text); }));
}

} // namespace

TEST_CASE("A weigh sheet is read back as the paint that was weighed", "[unit]") {
    const auto paint = read_back(plain);
    CHECK(paint.recipe.id == "test-paint");
    CHECK(paint.recipe.name == "Test paint");
    CHECK(paint.recipe.family.id == "test-family");
    CHECK(paint.recipe.medium.id == "gum-water");
    CHECK(in_grams(paint.pigment) == Approx(5.0));
    REQUIRE(paint.recipe.pigments.size() == 2);
    CHECK(paint.recipe.pigments[0].share.value() == Approx(0.8));
    CHECK(paint.recipe.pigments[1].share.value() == Approx(0.2));
    const Pigment &damp = paint.recipe.pigments[0].pigment, &dry = paint.recipe.pigments[1].pigment;
    CHECK(damp.name == "Test lake");
    CHECK(in_grams_per_cubic_centimetre(damp.density.value()) == Approx(1.9));
    CHECK(damp.density.relative_uncertainty() == Approx(0.1 / 1.9));
    CHECK(damp.density.provenance().source == "a guess");
    CHECK(damp.density.provenance().library_default);
    CHECK(in_grams_per_100_grams(damp.oil_absorption.value().value()) == Approx(65));
    // Of a lognormal figure whose standard uncertainty is a tenth of it: sigma = sqrt(ln(1 + .01)), .0998.
    CHECK(damp.oil_absorption->relative_uncertainty() == Approx(0.1).epsilon(0.01));
    CHECK_FALSE(damp.oil_absorption->provenance().library_default);
    CHECK(damp.oil_absorption->provenance().origin == Origin::measured);
    CHECK(damp.excess_water.value() == Approx(0.12));
    CHECK(paint.recipe.pigments[0].step_from_oil == Approx(1.25));
    CHECK_FALSE(damp.moisture);
    CHECK(damp.density_state == MoistureState::as_weighed);
    CHECK(dry.density_state == MoistureState::bone_dry);
    REQUIRE(dry.moisture);
    CHECK(dry.moisture->value().value() == Approx(0.05));
    CHECK(dry.moisture->standard_uncertainty().value() == Approx(0.01));
    CHECK(dry.excess_water.value() == Approx(0.0).margin(1e-15));
    CHECK(paint.recipe.pigments[1].step_from_oil == Approx(1.0));
    CHECK_FALSE(paint.learned_spread);
}

TEST_CASE("What stocks bring and drops are is reckoned as it stood on the slab", "[reference]") {
    // By hand: of the medium 19.9 g are weighed with the drops in it, so 19.9 x 20/20.05 of it alone; the stock brought
    // .189 g x .2/.21 of it back. The gum in the stock was .021 x .2/.21, the drops .05, the last .3 + (.31 - .3).
    const auto paint = read_back(plain);
    CHECK(paint.medium_per_pigment.value() == Approx((19.9 * 20.0 / 20.05 + 0.189 * 0.2 / 0.21) / 5.0).epsilon(1e-12));
    REQUIRE(paint.recipe.additives.size() == 3);
    CHECK(paint.recipe.additives[0].dose.value() == Approx(0.021 * 0.2 / 0.21 / 5.0).epsilon(1e-12));
    CHECK(paint.recipe.additives[1].dose.value() == Approx(0.05 / 5.0).epsilon(1e-12));
    CHECK(paint.recipe.additives[2].dose.value() == Approx(0.31 / 5.0).epsilon(1e-12));
    CHECK(paint.recipe.additives[0].basis == DoseBasis::pigment);
    // The water on the slab is that of the sheet, with the .2 g that came with a stock: 2.3 + (2.5 - 2.3).
    CHECK(in_millilitres_per_gram(paint.recipe.working_water) == Approx(2.5 / 5.0 / 0.9982071).epsilon(1e-9));
    // A medium of which nothing was wanted, and a stock of which nothing was weighed.
    const auto none = read_back(changed(plain, "\"exact_g\": 20.0, \"to_weigh_g\": 19.8, \"rounded_g\": 19.9", "\"exact_g\": 0, \"to_weigh_g\": 0, \"rounded_g\": 0.3"));
    CHECK(none.medium_per_pigment.value() == Approx((0.3 + 0.18) / 5.0).epsilon(1e-12));
    const auto unweighed = read_back(changed(plain, "\"to_weigh_g\": 0.21, \"rounded_g\": 0.2", "\"to_weigh_g\": 0, \"rounded_g\": 0"));
    CHECK(unweighed.recipe.additives[0].dose.value() == Approx(0.021 / 5.0).epsilon(1e-12));
    CHECK(unweighed.medium_per_pigment.value() == Approx(19.9 * 20.0 / 20.05 / 5.0).epsilon(1e-12));
    const auto elsewhere = read_back(changed(plain, "\"carrier_taken_off\": \"medium\"", "\"carrier_taken_off\": \"working_water\""));
    CHECK(elsewhere.medium_per_pigment.value() == Approx(19.9 * 20.0 / 20.05 / 5.0).epsilon(1e-12));
}

TEST_CASE("A sheet that was judged by its jar's record keeps what that left open, of one pigment", "[unit]") {
    const std::string record = "\"record\": {\"sigma_ln_demand\": 0.09},\n\"pigments\": [";
    CHECK_FALSE(read_back(changed(plain, "\"pigments\": [", record)).learned_spread);
    auto alone = changed(plain, "\"pigments\": [", record);
    const auto from = alone.find(",\n  {\"id\": \"other\""), to = alone.find("],\n\"batch\"");
    alone.erase(from, to - from);
    alone = changed(alone, "  {\"part\": \"pigment\", \"id\": \"other\", \"exact_g\": 1.01, \"to_weigh_g\": 1.01, \"rounded_g\": 1.0},\n", "");
    REQUIRE(read_back(alone).learned_spread);
    CHECK(*read_back(alone).learned_spread == Approx(0.09));
    CHECK(in_grams(read_back(alone).pigment) == Approx(4.0));
    CHECK(faults(changed(alone, "0.09", "5.01")) == "out-of-range 5:31");
}

TEST_CASE("A sheet that is none, or not of this version, is refused at its place", "[errors]") {
    CHECK(faults(changed(plain, "\"kind\": \"batch\"", "\"kind\": \"sieve_test\"")) == "kind-wrong 3:9");
    CHECK(faults(changed(plain, "\"schema_version\": 4", "\"schema_version\": 2")) == "schema-version 2:19");
    CHECK(faults(changed(plain, "\"schema_version\": 4", "\"schema_version\": 5")) == "schema-version 2:19");
    CHECK(faults(changed(plain, "\"schema_version\": 4", "\"schema_version\": 3")).empty());
    CHECK(faults("{\"schema_version\": 4, \"kind\": \"batch\", \"recipe\": {}, \"pigments\": []}") == "sheet-empty 1:1");
    CHECK(faults(changed(plain, "\"name\": \"Test paint\", ", "")).find("key-missing") != std::string::npos);
    CHECK(faults(changed(plain, "\"name\": \"Test lake\", ", "")).find("key-missing") != std::string::npos);
    CHECK(faults(changed(plain, "\"gum-water\"}", "\"gum-wter\"}")).find("id-unknown") != std::string::npos);
    // Pigments and their lines must match, one medium, some pigment.
    CHECK(faults(changed(plain, "{\"part\": \"pigment\", \"id\": \"other\"", "{\"part\": \"x\", \"id\": \"other\"")).find("value-shape") != std::string::npos);
    CHECK(faults(changed(plain, "{\"part\": \"medium\"", "{\"part\": \"x\"")).find("value-shape") != std::string::npos);
    auto nothing = changed(plain, "\"to_weigh_g\": 4.02, \"rounded_g\": 4.0", "\"to_weigh_g\": 4.02, \"rounded_g\": 0");
    nothing = changed(nothing, "\"exact_g\": 4.02", "\"exact_g\": 4.02");
    nothing = changed(nothing, "\"to_weigh_g\": 1.01, \"rounded_g\": 1.0", "\"to_weigh_g\": 1.01, \"rounded_g\": 0");
    CHECK(faults(nothing).find("quantity-negative") != std::string::npos);
    CHECK(faults(changed(plain, "\"exact_g\": 0.31, \"to_weigh_g\": 0.3, \"rounded_g\": 0.3", "\"exact_g\": 5.0, \"to_weigh_g\": 5.0, \"rounded_g\": 5.0")).empty());
    CHECK(faults(changed(plain, "\"exact_g\": 0.31, \"to_weigh_g\": 0.3, \"rounded_g\": 0.3", "\"exact_g\": 5.1, \"to_weigh_g\": 5.1, \"rounded_g\": 5.1")).find("fraction-above-one") == 0);
}

TEST_CASE("Figures of a sheet outside of what can be are refused", "[errors]") {
    const auto with = [](const std::string& from, const std::string& to) { return faults(changed(plain, from, to)); };
    CHECK(with("\"value\": 65", "\"value\": 400").empty());
    CHECK(with("\"value\": 65", "\"value\": 401").find("out-of-range") == 0);
    CHECK(with("\"value\": 40", "\"value\": 2").empty());
    CHECK(with("\"value\": 40", "\"value\": 1.9").find("out-of-range") == 0);
    CHECK(with("\"value\": 2.1", "\"value\": 25").empty());
    CHECK(with("\"value\": 2.1", "\"value\": 25.1").find("out-of-range") == 0);
    CHECK(with("\"value\": 2.1", "\"value\": 0.009").find("out-of-range") == 0);
    CHECK(with("\"excess_water\": 0.12", "\"excess_water\": 0.99").empty());
    CHECK(with("\"excess_water\": 0.12", "\"excess_water\": 0.995").find("out-of-range") == 0);
    CHECK(with("\"value\": 0.05", "\"value\": 0.995").find("out-of-range") == 0);
    CHECK(with("\"step_from_oil\": 1.25", "\"step_from_oil\": 20").empty());
    CHECK(with("\"step_from_oil\": 1.25", "\"step_from_oil\": 20.1").find("out-of-range") == 0);
    CHECK(with("\"step_from_oil\": 1.25", "\"step_from_oil\": 0.049").find("out-of-range") == 0);
    CHECK_THAT(with("\"rounded_g\": 19.9", "\"rounded_g\": -1"), Catch::StartsWith("quantity-negative"));
    CHECK_THAT(with("\"to_weigh_g\": 4.02", "\"to_weigh_g\": 9.02"), Catch::StartsWith("quantity-negative")); // less than is to be weighed
    CHECK(with("\"pigments\": [", "\"pigments\": 3, \"x\": [").find("value-shape") == 0);
    CHECK(with("{\"value\": 1.9, \"standard_uncertainty\": 0.1, \"provenance\": {\"origin\": \"estimate\", \"source\": \"a guess\", \"library_default\": true}}", "1.9").find("value-shape") == 0);
}

TEST_CASE("a weigh sheet spoiled line by line and value by value, whole", "[errors]") {
    Spoiled spoiled([](const std::string& file, Library& library, const Jar&) { (void)read_weighed_paint(load_document(file), library); });
    spoiled.file("sheet.json", plain);
    const auto with = [&](const std::string& from, const std::string& to) { spoiled.changed_to("sheet.json", plain, from, to); };
    with("\"kind\": \"batch\",", "");
    with("\"schema_version\": 4,", "");
    with("\"stock_solution\": {\"carrier_taken_off\": \"medium\", \"carrier_g\": 0.189}", "\"stock_solution\": 3");
    with("\"carrier_taken_off\": \"medium\", ", "");
    with("\"weigh\": [\n", "\"weigh\": [3,\n");
    with("\"weigh\": [\n", "\"weigh\": 3, \"x\": [\n");
    with("\"pigments\": [\n", "\"pigments\": [3,\n");
    with("\"batch\": {\"weigh\"", "\"batch\": 3, \"x\": {\"weigh\"");
    with("\"id\": \"test-gum\", \"exact_g\": 0.31", "\"exact_g\": 0.31");
    with("\"id\": \"test-gum\", \"exact_g\": 0.31", "\"id\": \"of-old\", \"exact_g\": 0.31");
    with("\"family\": \"test-family\"", "\"family\": \"of-old\"");
    check_expected("shelf", "spoiled-weigh-sheet", spoiled.text());
}
