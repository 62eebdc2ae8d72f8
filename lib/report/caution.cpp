#include "lakebound/report/caution.hpp"

#include <fmt/format.h>

#include "lakebound/report/record_words.hpp"
#include "process_words.hpp"

namespace lakebound {

namespace {

/// What each hazard asks for; the process decides where the place on the slab matters.
Caution caution_for(Hazard hazard, const Family& family) {
    const auto& words = layout::process_words(family.process);
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
        if (auto said = words.perishable) {
            said->text = fmt::format(fmt::runtime(said->text), waiting_text(family.medium_keeps));
            return *said;
        }
        return {"Spoils", "Keep it cold, and throw it away when it smells or grows fur.", {}};
    case Hazard::light_sensitive:
        return {"Light",
                "The colour fades in light. Try a strip in the window, and tell whoever gets the paint.",
                {}};
    case Hazard::hot:
        return {"Heat",
                "Warm it in a water bath, never over a flame, and stay with it. Hot oil, wax and glue "
                "scald and stick; hot oil can catch fire.",
                {}};
    }
    return {};
}

} // namespace

std::vector<Caution> cautions(std::span<const HazardousMaterial> materials, const Family& family) {
    std::vector<Caution> result;
    for (auto& chosen : paint_cautions(materials)) {
        auto caution = caution_for(chosen.hazard, family);
        caution.materials = std::move(chosen.materials);
        result.push_back(std::move(caution));
    }
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
