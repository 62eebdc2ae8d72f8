#include "lakebound/report/caution.hpp"
#include "process_words.hpp"

#include <algorithm>

namespace lakebound {

namespace {

std::vector<std::string> names_with(std::span<const HazardousMaterial> materials, Hazard hazard) {
    std::vector<std::string> names;
    for (const auto& material : materials)
        if (std::find(material.hazards.begin(), material.hazards.end(), hazard) != material.hazards.end())
            names.push_back(material.name);
    return names;
}

/// Wax is melted into its oil, hide glue dissolved in hot water.
bool is_warmed(const Ingredient& ingredient) {
    return ingredient.role == Role::wax || ingredient.id == "hide-glue";
}

/// What each hazard asks for; the process decides where the place on the slab matters.
Caution caution_for(Hazard hazard, const layout::ProcessWords& words) {
    switch (hazard) {
    case Hazard::toxic_metal:
        return {
            "Poison",
            "Gloves and a P3 mask. Wet the powder before you work it, never sweep it, never sand the dry "
            "paint. Keep from children and from food. Collect the washings; they do not go down the drain. "
            "Local law may forbid its use or sale.",
            {}};
    case Hazard::silica:
        return {
            "Silica dust",
            "May hold crystalline silica, which harms the lungs for good. Wet it before you work it, wear a "
            "P3 mask while it is dry, wipe up with a damp cloth and never sweep.",
            {}};
    case Hazard::self_heating:
        if (words.self_heating) return *words.self_heating;
        return {
            "Oily rags",
            "Rags with drying oil on them can catch fire by themselves. Spread them flat outdoors to dry or "
            "keep them under water in a closed metal can.",
            {}};
    case Hazard::flammable:
        return {"Vapour", "Burns and catches fire from a distance. No flame, no spark; open a window.", {}};
    case Hazard::dust:
        return {
            "Dust",
            "Do not breathe the powder: wear an FFP2 or P3 mask while it is dry, work away from draughts, wipe "
            "up with a damp cloth and do not sweep.",
            {}};
    case Hazard::eye_irritant:
        return {"Eyes", "Irritates the eyes. Wear goggles when you pour it; rinse with water at once.", {}};
    case Hazard::eye_damage:
        return {"Eyes, for good",
                "Can damage the eyes for good. Wear goggles; rinse a splash with water for a quarter of an hour and "
                "see a doctor.",
                {}};
    case Hazard::skin_sensitiser:
        return {
            "Skin", "Can bring on a lasting allergy. Wear gloves, keep to the dose and never add more.", {}};
    case Hazard::food_allergen:
        return {
            "Allergy", "Some people are allergic. Say what is in the paint when you give it away.", {}};
    case Hazard::perishable:
        if (words.perishable) return *words.perishable;
        return {"Spoils", "Keep it cold, and throw it away when it smells or grows fur.", {}};
    case Hazard::light_sensitive:
        return {"Light",
                "The colour fades in light. Try a strip in the window, and tell whoever gets the paint.",
                {}};
    }
    return {};
}

} // namespace

std::vector<HazardousMaterial> materials_of(const Recipe& recipe, const WeighSheet* sheet) {
    std::vector<HazardousMaterial> materials;
    const auto add = [&](const std::string& name, const std::vector<Hazard>& hazards, bool warmed = false) {
        const bool known =
            std::any_of(materials.begin(), materials.end(), [&](const auto& m) { return m.name == name; });
        if (!known) materials.push_back({name, hazards, warmed});
    };
    const auto add_ingredient = [&](const Ingredient& ingredient) {
        add(ingredient.name, ingredient.hazards, is_warmed(ingredient));
    };
    for (const auto& part : recipe.pigments)
        add(part.pigment.name, part.pigment.hazards);
    for (const auto& part : recipe.medium.parts)
        add_ingredient(part.ingredient);
    for (const auto& additive : recipe.additives)
        add_ingredient(additive.ingredient);
    if (sheet != nullptr)
        for (const auto* lines : {&sheet->slab, &sheet->medium})
            for (const auto& weighing : *lines)
                if (weighing.stock)
                    if (const auto* carrier = carrier_of(*weighing.stock, recipe)) add_ingredient(*carrier);
    return materials;
}

std::vector<HazardousMaterial> materials_of_test(Process process, bool oil) {
    std::vector<HazardousMaterial> materials{{"Lake", {Hazard::dust, Hazard::light_sensitive}, false}};
    const auto& binder = layout::process_words(process).test_binder;
    const HazardousMaterial linseed{"Linseed oil", {Hazard::self_heating}, false};
    if (oil && !(binder && binder->name == linseed.name)) materials.push_back(linseed);
    if (binder) materials.push_back(*binder);
    return materials;
}

std::vector<Caution> cautions(std::span<const HazardousMaterial> materials, Process process) {
    static constexpr Hazard gravest_first[] = {
        Hazard::toxic_metal, Hazard::silica,          Hazard::self_heating,    Hazard::flammable,
        Hazard::eye_damage,  Hazard::dust,            Hazard::eye_irritant,    Hazard::skin_sensitiser,
        Hazard::food_allergen, Hazard::perishable,    Hazard::light_sensitive,
    };
    const auto& words = layout::process_words(process);
    std::vector<Caution> result;
    for (const auto hazard : gravest_first) {
        auto names = names_with(materials, hazard);
        if (names.empty()) continue;
        auto caution = caution_for(hazard, words);
        caution.materials = std::move(names);
        result.push_back(std::move(caution));
    }
    std::vector<std::string> warmed;
    for (const auto& material : materials)
        if (material.warmed) warmed.push_back(material.name);
    if (!warmed.empty())
        result.push_back({"Heat",
                          "Warm it in a water bath, never over a flame, and stay with it. Hot oil, wax and glue "
                          "scald and stick; hot oil can catch fire.",
                          std::move(warmed)});
    result.push_back(
        {"Kitchen", "Keep slab, jars and tools apart from food for good. Do not taste; wash your hands.", {}});
    result.push_back(
        {"First of all",
         "What the safety data sheet of each product says goes before this page, and so do local codes "
         "and licensed practice. Selling or teaching has rules of its own on labels and testing.",
         {}});
    result.push_back(
        {"Estimate", "These figures are an estimate, not a certificate. Test a small swatch first.", {}});
    return result;
}

} // namespace lakebound
