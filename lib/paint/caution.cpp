#include "lakebound/paint/caution.hpp"

#include <algorithm>

namespace lakebound {
namespace {

void add_material(std::vector<HazardousMaterial>& materials, const std::string& name, const std::vector<Hazard>& hazards) {
    if (std::none_of(materials.begin(), materials.end(), [&](const auto& each) { return each.name == name; }))
        materials.push_back({name, hazards});
}

/// A wax goes into a paint melted, whether its file says so or not.
std::vector<Hazard> hazards_at_work(const Ingredient& ingredient) {
    auto hazards = ingredient.hazards;
    if (ingredient.role == Role::wax && std::find(hazards.begin(), hazards.end(), Hazard::hot) == hazards.end())
        hazards.push_back(Hazard::hot);
    return hazards;
}

} // namespace

std::vector<HazardousMaterial> materials_of(const Recipe& recipe, const WeighSheet* sheet) {
    std::vector<HazardousMaterial> materials;
    const auto add = [&](const Ingredient& each) { add_material(materials, each.name, hazards_at_work(each)); };
    for (const auto& part : recipe.pigments)
        add_material(materials, part.pigment.name, part.pigment.hazards);
    for (const auto& part : recipe.medium.parts)
        add(part.ingredient);
    for (const auto& additive : recipe.additives)
        add(additive.ingredient);
    if (sheet != nullptr)
        for (const auto* lines : {&sheet->slab, &sheet->medium})
            for (const auto& weighing : *lines)
                if (weighing.stock)
                    if (const auto* carrier = carrier_of(*weighing.stock, recipe)) add(*carrier);
    return materials;
}

std::vector<HazardousMaterial> materials_of_test(const Pigment& pigment, std::span<const Medium> media) {
    std::vector<HazardousMaterial> materials;
    add_material(materials, pigment.name, pigment.hazards);
    for (const auto& medium : media)
        for (const auto& part : medium.parts)
            add_material(materials, part.ingredient.name, hazards_at_work(part.ingredient));
    return materials;
}

std::vector<PaintCaution> paint_cautions(std::span<const HazardousMaterial> materials) {
    static constexpr Hazard gravest_first[] = {
        Hazard::toxic_metal,  Hazard::silica,          Hazard::self_heating,  Hazard::flammable,
        Hazard::eye_damage,   Hazard::hot,             Hazard::dust,          Hazard::eye_irritant,
        Hazard::skin_sensitiser, Hazard::food_allergen, Hazard::perishable,   Hazard::light_sensitive,
    };
    static_assert(std::size(gravest_first) == std::size(WordTable<Hazard>::rows), "every hazard is warned of");
    std::vector<PaintCaution> cautions;
    for (const auto hazard : gravest_first) {
        PaintCaution caution{hazard, {}};
        for (const auto& material : materials)
            if (std::find(material.hazards.begin(), material.hazards.end(), hazard) != material.hazards.end())
                caution.materials.push_back(material.name);
        if (!caution.materials.empty()) cautions.push_back(std::move(caution));
    }
    return cautions;
}

} // namespace lakebound
