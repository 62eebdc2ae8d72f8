#pragma once
// A passing curve carried on below its finest screen by the shape of a fitted curve.

#include "lakebound/export.hpp"
#include "lakebound/particle/size_fit.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The points of the screens, and below the finest the fit scaled to join the curve there, at eight sizes
/// down to `finest`: P(d) = P_seen(d_1) P_fit(d) / P_fit(d_1), d_1 the finest screen.
/// Range: finest above 0 and below the finest screen. Errors: DomainError.
/// What lies below the finest screen is a guess; the caller says so.
[[nodiscard]] PassingCurve extended_curve(const PassingCurve& screens, const SizeFit& fit, Length finest);

} // namespace lakebound
