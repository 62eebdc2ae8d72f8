#include <catch2/catch.hpp>

#include <algorithm>

#include "lakebound/report/caution.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {
std::vector<std::string> subjects(const std::vector<Caution>& cautions) {
    std::vector<std::string> found;
    for (const auto& caution : cautions)
        found.push_back(caution.subject);
    return found;
}
bool has(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}
} // namespace

TEST_CASE("Oil warns of rags that set themselves on fire, watercolour does not", "[unit]") {
    const auto oil = materials_of(example_request(Process::oil).recipe);
    CHECK(has(subjects(cautions(oil, Process::oil)), "Oily rags"));
    const auto gum = materials_of(example_request(Process::watercolour).recipe);
    CHECK_FALSE(has(subjects(cautions(gum, Process::watercolour)), "Oily rags"));
    CHECK(has(subjects(cautions(gum, Process::watercolour)), "Skin"));
}

TEST_CASE("The gravest caution stands first and the deferring ones last", "[unit]") {
    const std::vector<HazardousMaterial> materials = {
        {"White", {Hazard::light_sensitive, Hazard::dust, Hazard::toxic_metal}},
        {"Earth", {Hazard::silica, Hazard::dust}}};
    const auto found = cautions(materials, Process::oil);
    const auto names = subjects(found);
    REQUIRE(names.size() >= 6);
    CHECK(names.front() == "Poison");
    CHECK(names[1] == "Silica dust");
    CHECK(names.back() == "Estimate");
    const auto dust = std::find(names.begin(), names.end(), "Dust") - names.begin();
    CHECK(found[static_cast<std::size_t>(dust)].materials == std::vector<std::string>{"White", "Earth"});
}

TEST_CASE("Every paint defers to safety data sheets, local codes and a swatch", "[unit]") {
    for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
        std::string all;
        for (const auto& caution : cautions({}, process))
            all += caution.text;
        CHECK_THAT(all, Catch::Contains("safety data sheet") && Catch::Contains("local codes") &&
                            Catch::Contains("licensed practice") && Catch::Contains("estimate") &&
                            Catch::Contains("swatch"));
    }
}

TEST_CASE("Every hazard has a caution of its own", "[unit]") {
    for (const auto hazard : {Hazard::dust, Hazard::silica, Hazard::toxic_metal, Hazard::eye_irritant, Hazard::eye_damage,
                              Hazard::skin_sensitiser, Hazard::flammable, Hazard::self_heating,
                              Hazard::food_allergen, Hazard::perishable, Hazard::light_sensitive})
        for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
            const std::vector<HazardousMaterial> one = {{"Thing", {hazard}}};
            const auto found = cautions(one, process);
            INFO(word_of(hazard));
            REQUIRE(found.front().materials == std::vector<std::string>{"Thing"});
            CHECK(found.front().text.size() > 20);
        }
}

TEST_CASE("The liquid of a stock solution brings its own cautions", "[unit]") {
    const auto request = example_request(Process::watercolour);
    WeighSheet sheet;
    auto& oil = sheet.slab.emplace_back();
    oil.stock.emplace();
    oil.stock->carrier = oil.stock->carrier_name = "ethanol";
    const auto without = cautions(materials_of(request.recipe), Process::watercolour);
    CHECK_FALSE(has(subjects(without), "Vapour"));
    const auto with = cautions(materials_of(request.recipe, &sheet), Process::watercolour);
    CHECK(has(subjects(with), "Vapour"));
}

TEST_CASE("What is melted is warmed in a water bath", "[unit]") {
    auto request = example_request(Process::oil);
    CHECK_FALSE(has(subjects(cautions(materials_of(request.recipe), Process::oil)), "Heat"));
    Ingredient wax;
    wax.name = "Beeswax";
    wax.role = Role::wax;
    request.recipe.additives.push_back({wax, MassFraction::of(0.02), DoseBasis::medium});
    CHECK(has(subjects(cautions(materials_of(request.recipe), Process::oil)), "Heat"));
}

TEST_CASE("What is warmed warns of heat: wax in an oil, and hide glue", "[unit]") {
    const auto heat = [](const Ingredient& ingredient) {
        auto request = example_request(Process::oil);
        request.recipe.medium.parts.push_back({ingredient, 0.1});
        return has(subjects(cautions(materials_of(request.recipe), Process::oil)), "Heat");
    };
    CHECK(heat(example_ingredient("beeswax", "Beeswax", Role::wax, 0.96, 1.0, 0.96)));
    CHECK(heat(example_ingredient("hide-glue", "Hide glue", Role::protein, 1.27, 0.85, 1.27)));
    CHECK_FALSE(heat(example_ingredient("walnut-oil", "Walnut oil", Role::drying_oil, 0.925, 1.0, 0.925)));
}

TEST_CASE("A rub-out warns of its linseed oil once, whatever the paint", "[unit]") {
    for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
        const auto named = [&](bool oil) {
            const auto all = materials_of_test(process, oil);
            return std::count_if(all.begin(), all.end(), [](const auto& each) { return each.name == "Linseed oil"; });
        };
        CHECK(named(true) == 1);
        CHECK(named(false) == (process == Process::oil ? 1 : 0));
    }
}
