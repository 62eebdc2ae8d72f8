#include "lakebound/paint/caution.hpp"

#include <catch2/catch.hpp>

#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::vector<Hazard> hazards_warned_of(const std::vector<HazardousMaterial>& materials) {
    std::vector<Hazard> found;
    for (const auto& caution : paint_cautions(materials)) {
        CHECK_FALSE(caution.materials.empty());
        found.push_back(caution.hazard);
    }
    return found;
}

} // namespace

TEST_CASE("each hazard of the materials is warned of once, the gravest first, with all that have it", "[unit]") {
    const std::vector<HazardousMaterial> materials = {{"White", {Hazard::light_sensitive, Hazard::dust, Hazard::toxic_metal}},
                                                      {"Earth", {Hazard::silica, Hazard::dust}},
                                                      {"Glue", {Hazard::perishable, Hazard::hot}},
                                                      {"Water", {}}};
    CHECK(hazards_warned_of(materials) == std::vector<Hazard>{Hazard::toxic_metal, Hazard::silica, Hazard::hot, Hazard::dust,
                                                              Hazard::perishable, Hazard::light_sensitive});
    CHECK(paint_cautions(materials).at(3).materials == std::vector<std::string>{"White", "Earth"});
    CHECK(paint_cautions({}).empty());
    for (const auto& [hazard, word] : WordTable<Hazard>::rows) {
        INFO(word);
        CHECK(hazards_warned_of({{"Thing", {hazard}}}) == std::vector<Hazard>{hazard});
    }
}

TEST_CASE("a test on the slab is of its powder and of the media that it meets, each once", "[unit]") {
    Pigment lake;
    lake.name = "Lake";
    lake.hazards = {Hazard::dust};
    Medium oil, wax;
    oil.parts = {{example_ingredient("linseed", "Linseed oil", Role::drying_oil, 0.93, 1.0, 0.93), 1.0}};
    oil.parts[0].ingredient.hazards = {Hazard::self_heating};
    wax.parts = {oil.parts[0], {example_ingredient("wax", "Wax", Role::wax, 0.96, 1.0, 0.96), 0.1}};
    const auto materials = materials_of_test(lake, std::vector<Medium>{oil, wax});
    REQUIRE(materials.size() == 3);
    CHECK(materials[0].name == "Lake");
    CHECK(materials[1].name == "Linseed oil");
    CHECK(materials[1].hazards == std::vector<Hazard>{Hazard::self_heating});
    CHECK(materials[2].name == "Wax");
}
