#include <catch2/catch.hpp>

#include "faults_of.hpp"
#include "lakebound/shelf/typed_batch.hpp"
#include "small_shelf.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;

namespace {

Library of_the_card() { return Library({{std::string(LAKEBOUND_FORMULATIONS_DIR), "shipped", true}}); }
std::string fill_fault(const std::string& text) {
    return summary(faults_of([&] {
        auto library = of_the_card();
        (void)fill_option("--fill", text, library);
    }));
}
Recipe of_gum() {
    Recipe recipe;
    recipe.medium.id = "gum-water";
    recipe.pigments.resize(1);
    recipe.pigments.front().pigment.id = "weld";
    recipe.medium.parts.resize(1);
    recipe.medium.parts.front().ingredient.id = "gum-arabic";
    recipe.additives.resize(1);
    recipe.additives.front().ingredient.id = "clove-oil";
    recipe.carriers.resize(2);
    recipe.carriers.front().id = "ethanol";
    recipe.carriers.back().id = "gum-arabic"; // told once
    return recipe;
}
Stock stock_of(const std::string& text) { return stock_option("--stock", text, of_gum(), {}); }

} // namespace

TEST_CASE("Vessels to fill are a number of one that is on the shelf", "[unit]") {
    auto library = of_the_card();
    const auto pans = fill_option("--fill", "10 half-pan", library);
    CHECK(pans.count == 10);
    CHECK(pans.vessel.id == "half-pan");
    CHECK(fill_option("--fill", "1   half-pan ", library).count == 1);
    for (const char* none : {"", "half-pan", "ten half-pan", "0 half-pan", "-1 half-pan", "1.5 half-pan", "10", "10 ", "10    ",
                             "1234567 half-pan"}) {
        CAPTURE(none);
        CHECK(fill_fault(none) == "fill-form");
    }
    CHECK(fill_fault("10 halfpan") == "id-unknown");
}

TEST_CASE("A stock is a mass of something that is in the paint", "[unit]") {
    for (const char* id : {"gum-water", "weld", "gum-arabic", "clove-oil", "ethanol"}) {
        const auto stock = stock_of(std::string(id) + ": 40 g");
        CHECK(stock.id == id);
        CHECK(in_grams(stock.mass) == Approx(40.0));
    }
    const auto fault = [](const char* text) { return summary(faults_of([&] { (void)stock_of(text); })); };
    CHECK(fault("gum-arabic 40 g") == "stock-form");
    CHECK(fault(": 40 g") == "stock-form");
    CHECK(fault("gum-arabic: 40 mL") == "unit-dimension");
    CHECK_FALSE(fault("gum-arabic:").empty());
    const auto faults = faults_of([] { (void)stock_of("honey: 3 g"); });
    REQUIRE(summary(faults) == "stock-not-used");
    CHECK(faults.front().hint == "it is made of gum-water, weld, gum-arabic, clove-oil and ethanol");
}
