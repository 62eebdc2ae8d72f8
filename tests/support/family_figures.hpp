#pragma once
// The figures that the shipped families hold for their way of making up, for tests that link core alone.

#include "lakebound/paint/family.hpp"

namespace lakebound::testing {

/// What the shipped families of each way of making up have in common.
inline SoftShareLimits soft_shares() {
    const auto share = [](double x) { return VolumeFraction::of(x); };
    return {share(0.20), share(0.25), share(0.48), share(0.55), share(0.70)};
}
inline void set_common_figures(Family& family) {
    family.plasticiser = {0.15, 0.5};
    family.soft_share = soft_shares();
    family.most_excess_water = MassFraction::of(0.12);
    family.cured_oil_loses = {Share::of(0.02), Share::of(0.15)};
    family.medium_keeps = hours(48.0);
}

} // namespace lakebound::testing
