#pragma once
// Hazards: what a material can do to a person, as words that the report turns into cautions.
//
// They are reminders only; the product's safety data sheet, local codes and licensed practice decide.

#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Hazard {
    dust,            ///< fine powder: do not breathe
    silica,          ///< contains crystalline silica
    toxic_metal,     ///< lead, mercury, cadmium, cobalt, chromium, tin, copper compounds
    eye_irritant,
    eye_damage,      ///< serious and lasting: strong alkali, aluminium sulphate
    skin_sensitiser,
    flammable,       ///< solvent vapour
    self_heating,    ///< drying oil on rags can ignite by itself
    food_allergen,
    perishable,      ///< spoils within days
    light_sensitive, ///< colour fades in light
    hot,             ///< worked hot, melted or dissolved: scalds and sticks
};
template <> struct WordTable<Hazard> {
    static constexpr WordRow<Hazard> rows[] = {
        {Hazard::dust, "dust"},
        {Hazard::silica, "silica"},
        {Hazard::toxic_metal, "toxic metal"},
        {Hazard::eye_irritant, "eye irritant"},
        {Hazard::eye_damage, "eye damage"},
        {Hazard::skin_sensitiser, "skin sensitiser"},
        {Hazard::flammable, "flammable"},
        {Hazard::self_heating, "self-heating"},
        {Hazard::food_allergen, "food allergen"},
        {Hazard::perishable, "perishable"},
        {Hazard::light_sensitive, "light sensitive"},
        {Hazard::hot, "hot"},
    };
};

} // namespace lakebound
