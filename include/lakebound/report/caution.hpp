#pragma once
// Cautions: what to say to the person who does this work with these materials.
//
// Reminders in plain words. They defer to the safety data sheet of each product, to local codes and
// to licensed practice; docs/cautions.md gives their sources.

#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/hazard.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/paint/weighing.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct HazardousMaterial {
    std::string name;
    std::vector<Hazard> hazards;
    bool warmed = false; ///< melted or dissolved warm: wax, hide glue
};

struct Caution {
    std::string subject;                ///< one or two words: "Dust", "Oily rags"
    std::string text;                   ///< what to do
    std::vector<std::string> materials; ///< the names it is about; empty when it is about the work
};

/// Pigments, medium parts and additives of a recipe, then the liquids that its stock solutions need,
/// each once.
[[nodiscard]] std::vector<HazardousMaterial> materials_of(const Recipe& recipe, const WeighSheet* sheet = nullptr);

/// Of a rub-out or a swatch, where no recipe says what is in it. oil: a drying oil is at hand, as in a rub-out.
[[nodiscard]] std::vector<HazardousMaterial> materials_of_test(Process process, bool oil);

/// Cautions for making up a paint of these materials, the gravest first; the last two always defer to
/// safety data sheets and say that the figures are estimates.
[[nodiscard]] std::vector<Caution> cautions(std::span<const HazardousMaterial> materials, Process process);


} // namespace lakebound
