#include "lakebound/paint/medium_fit.hpp"

#include <algorithm>

namespace lakebound {

std::optional<MediumMisfit> medium_misfit(const Medium& medium, Process process) {
    for (const MediumPart& part : medium.parts)
        if (!mixes_with(part.ingredient.role, process)) return MediumMisfit{part.ingredient.name};
    const auto makes_tempera = [](const MediumPart& part) {
        return part.ingredient.role == Role::emulsion || part.ingredient.role == Role::protein;
    };
    if (process == Process::egg_tempera &&
        std::none_of(medium.parts.begin(), medium.parts.end(), makes_tempera))
        return MediumMisfit{};
    return std::nullopt;
}

} // namespace lakebound
