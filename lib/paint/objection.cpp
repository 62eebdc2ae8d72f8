#include "lakebound/paint/objection.hpp"

#include <algorithm>

namespace lakebound {

bool forbids(const std::vector<Objection>& objections) noexcept {
    return std::any_of(objections.begin(), objections.end(), [](const Objection& o) { return forbids(o.kind); });
}

std::vector<Objection> objections(VolumeFraction share, const CohesionLimits& limits,
                                  std::optional<VolumeFraction> soft_share, const SoftShareLimits& soft) {
    std::vector<Objection> found;
    const Cohesion held = cohesion(share, limits);
    const SoftPhase phase = soft_share ? soft_phase(*soft_share, soft) : SoftPhase::good;
    // What does not bind makes no film whose feel matters.
    if (held == Cohesion::none) return {{ObjectionKind::does_not_bind, share, limits.none_below}};
    if (phase == SoftPhase::never_sets)
        found.push_back({ObjectionKind::never_sets, *soft_share, soft.sets_to});
    if (held == Cohesion::weak) found.push_back({ObjectionKind::binds_weakly, share, limits.weak_below});
    if (phase == SoftPhase::sticky)
        found.push_back({ObjectionKind::stays_sticky, *soft_share, soft.soft_to});
    return found;
}

} // namespace lakebound
