#pragma once
// What can hurt someone who makes up a paint: chosen by what is in it, said by the report.
//
// Reminders only; the product's safety data sheet, local codes and licensed practice decide. Sources: docs/cautions.md.

#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/hazard.hpp"
#include "lakebound/material/medium.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/paint/weighing.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct HazardousMaterial {
    std::string name;
    std::vector<Hazard> hazards;
};

struct PaintCaution {
    Hazard hazard{};
    std::vector<std::string> materials; ///< that have it, one at least
};

/// Pigments, medium parts and additives of a recipe, then the liquids that its stock solutions need, each once.
[[nodiscard]] std::vector<HazardousMaterial> materials_of(const Recipe& recipe, const WeighSheet* sheet = nullptr);

/// Of a rub-out or a swatch, where no recipe says what is in it: the powder and the media that it meets, each once.
[[nodiscard]] std::vector<HazardousMaterial> materials_of_test(const Pigment& pigment, std::span<const Medium> media);

/// A caution for each hazard of the materials, the gravest first.
[[nodiscard]] std::vector<PaintCaution> paint_cautions(std::span<const HazardousMaterial> materials);

} // namespace lakebound
