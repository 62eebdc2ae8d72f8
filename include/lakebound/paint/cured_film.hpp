#pragma once
// Cured film: a drying oil gains mass and loses volume as it cures, so the film ends leaner than it
// was mixed.
//   V_b,cured = V_b (1 - s)      k_cured = k (1 - s)      PVC_cured = V_p / (V_p + V_b (1 - s))
// s: volume shrinkage of the binder, 0.02 for refined to 0.15 for raw cold-pressed linseed oil after
// 42 days (linseed-film-study, published abstract). CPVC is kept: it belongs to the pigment. Wax and
// resin do not shrink; give s of the whole binder. Valid for 0 <= s < 0.5; DomainError beyond.

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"

namespace LAKEBOUND_EXPORT lakebound {

namespace detail {
[[nodiscard]] constexpr double remaining_after_cure(Share shrinkage) {
    if (!(shrinkage.value() < 0.5))
        throw_out_of_range("volume shrinkage of the binder", shrinkage.value(), "", "0 to below 0.5");
    return 1.0 - shrinkage.value();
}
} // namespace detail

/// V_b (1 - s).
[[nodiscard]] constexpr Volume cured_binder_volume(Volume as_mixed, Share shrinkage) {
    return Volume::from_value(as_mixed.value() * detail::remaining_after_cure(shrinkage));
}

/// k (1 - s).
[[nodiscard]] constexpr BinderSufficiency cured_sufficiency(BinderSufficiency as_mixed, Share shrinkage) {
    return BinderSufficiency::of(as_mixed.value() * detail::remaining_after_cure(shrinkage));
}

/// k to mix so that the cured film has k_cured: k_cured / (1 - s).
[[nodiscard]] constexpr BinderSufficiency sufficiency_before_cure(BinderSufficiency cured, Share shrinkage) {
    return BinderSufficiency::of(cured.value() / detail::remaining_after_cure(shrinkage));
}

/// Shrinkage of a binder of which only the volume share `drying_oil` shrinks, by s of its own volume.
[[nodiscard]] constexpr Share binder_shrinkage(VolumeFraction drying_oil, Share oil_shrinkage) {
    return Share::of(drying_oil.value() * oil_shrinkage.value());
}

} // namespace lakebound
