#include "lakebound/paint/cohesion.hpp"

#include <algorithm>

namespace lakebound {

VolumeFraction cohesive_share(const Recipe& recipe, const Composition& composition) {
    Volume binds, all;
    each_ingredient(recipe, composition, [&](const Ingredient& ingredient, Mass mass) {
        const Volume dry = dry_binder_volume(ingredient, mass);
        all += dry;
        if (is_cohesive(ingredient.role)) binds += dry;
    });
    return all.value() > 0.0 ? VolumeFraction::of(std::min(1.0, binds.value() / all.value())) : VolumeFraction();
}

Cohesion cohesion(VolumeFraction share, const CohesionLimits& limits) noexcept {
    const auto below = [share](VolumeFraction limit) { return share.value() < limit.value() * (1.0 - 1e-9); };
    if (below(limits.none_below)) return Cohesion::none;
    return below(limits.weak_below) ? Cohesion::weak : Cohesion::binds;
}

} // namespace lakebound
