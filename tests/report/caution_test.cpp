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
    CHECK(has(subjects(cautions(oil, example_family(Process::oil))), "Oily rags"));
    const auto gum = materials_of(example_request(Process::watercolour).recipe);
    CHECK_FALSE(has(subjects(cautions(gum, example_family(Process::watercolour))), "Oily rags"));
    CHECK(has(subjects(cautions(gum, example_family(Process::watercolour))), "Skin"));
}

TEST_CASE("The gravest caution stands first and the deferring ones last", "[unit]") {
    const std::vector<HazardousMaterial> materials = {
        {"White", {Hazard::light_sensitive, Hazard::dust, Hazard::toxic_metal}},
        {"Earth", {Hazard::silica, Hazard::dust}}};
    const auto found = cautions(materials, example_family(Process::oil));
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
        for (const auto& caution : cautions({}, example_family(process)))
            all += caution.text;
        CHECK_THAT(all, Catch::Contains("safety data sheet") && Catch::Contains("local codes") &&
                            Catch::Contains("licensed practice") && Catch::Contains("estimate") &&
                            Catch::Contains("swatch"));
    }
}

TEST_CASE("Every hazard has a caution of its own", "[unit]") {
    for (const auto& [hazard, word] : WordTable<Hazard>::rows)
        for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
            const std::vector<HazardousMaterial> one = {{"Thing", {hazard}}};
            const auto found = cautions(one, example_family(process));
            INFO(word);
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
    const auto without = cautions(materials_of(request.recipe), example_family(Process::watercolour));
    CHECK_FALSE(has(subjects(without), "Vapour"));
    const auto with = cautions(materials_of(request.recipe, &sheet), example_family(Process::watercolour));
    CHECK(has(subjects(with), "Vapour"));
}

TEST_CASE("What is worked hot is warmed in a water bath", "[unit]") {
    const auto heat = [](std::vector<Hazard> hazards) {
        auto request = example_request(Process::oil);
        Ingredient wax;
        wax.name = "Wax";
        wax.hazards = std::move(hazards);
        request.recipe.additives.push_back({wax, MassFraction::of(0.02), DoseBasis::medium});
        return has(subjects(cautions(materials_of(request.recipe), example_family(Process::oil))), "Heat");
    };
    CHECK(heat({Hazard::hot}));
    CHECK_FALSE(heat({Hazard::perishable}));
}

TEST_CASE("Raw egg is thrown away when its family says so", "[unit]") {
    auto family = example_family(Process::egg_tempera);
    const std::vector<HazardousMaterial> yolk = {{"Egg yolk", {Hazard::perishable}}};
    family.medium_keeps = hours(72.0);
    CHECK_THAT(cautions(yolk, family).front().text, Catch::Contains("after 3 days,"));
    family.medium_keeps = hours(48.0);
    CHECK_THAT(cautions(yolk, family).front().text, Catch::Contains("after 2 days,"));
    CHECK(cautions(yolk, example_family(Process::watercolour)).front().subject == "Spoils");
}
