#include "lakebound/paint/medium_fit.hpp"

#include <algorithm>

namespace lakebound {

std::optional<MediumMisfit> medium_misfit(const Medium& medium, Process process) {
    for (const MediumPart& part : medium.parts)
        if (!mixes_with(part.ingredient.role, process)) return MediumMisfit{part.ingredient.name};
    const auto part_of_emulsion = [](const MediumPart& part) { return makes_emulsion(part.ingredient.role); };
    if (needs_emulsion(process) && std::none_of(medium.parts.begin(), medium.parts.end(), part_of_emulsion))
        return MediumMisfit{};
    return std::nullopt;
}

} // namespace lakebound
