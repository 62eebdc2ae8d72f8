#pragma once
// Cohesion: what of the dry binder holds the film together, and what only fills the voids.
//
//   share = V_c / V_b,  V_c the dry volume of gum, oil, resin, yolk and protein (`is_cohesive`)
// Glycerol, honey and wax fill voids, so k counts them; a film mostly of them has the k of a sound one and
// comes off on a finger. How small the share may be belongs to the kind of paint and stands in its family
// (limits: estimate, formulations/families).

#include <span>

#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/paint/formulation.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Cohesion {
    binds,
    weak, ///< a soft film that marks and smears
    none, ///< filler with some binder in it: does not hold
};

/// Dry volume of what binds over all that counts as binder; 0 where there is none.
[[nodiscard]] VolumeFraction cohesive_share(const Recipe& recipe, const Composition& composition);

/// By the limits of a family. A limit belongs to the better side, within 1e-9.
[[nodiscard]] Cohesion cohesion(VolumeFraction cohesive_share, const CohesionLimits& limits) noexcept;

} // namespace lakebound
