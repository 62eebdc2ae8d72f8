#pragma once
// Zone settling: a fresh lake is flocculated and sinks as one blanket with a sharp top.
//
// Stokes' law does not apply. Three heights of the interface, equally spaced in time, tell where it
// will stop and when to decant.

#include <optional>

#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Three heights of the interface above the bottom, one interval apart.
struct InterfaceHeights {
    Length first, second, third;
    Time interval;
};

/// The exponential through three heights, h(t) = h_end + (h_1 - h_end) exp(-t / tau), t from the first.
struct ZoneSettling {
    Length end_height; ///< h_end = (h1 h3 - h2^2) / (h1 + h3 - 2 h2)
    Time tau;          ///< interval / ln((h1 - h2) / (h2 - h3))
    Length first;      ///< h1
};

/// Range: h1 > h2 > h3 > 0, slowing down (h1 - h2 > h2 - h3), interval above 0, end height above 0.
/// Errors: DomainError; a blanket still falling evenly has not begun to slow, so read again later.
/// Source: definition of an exponential approach. Accuracy: rests on small differences; read to 1 mm.
[[nodiscard]] ZoneSettling fit_zone_settling(const InterfaceHeights& heights);

/// Height of the interface at a time after the first reading.
[[nodiscard]] Length interface_height(const ZoneSettling& zone, Time since_first);

/// Where the water line may be drawn to at a time: a margin above the interface, at most the first reading.
/// Range: time and margin 0 or more. Errors: DomainError.
[[nodiscard]] Length clear_water_ends(const ZoneSettling& zone, Time since_first, Length margin);

/// Time after the first reading when the interface stands within a share of its end height:
/// t = tau ln((h1 - h_end) / (share h_end)), 0 when it already does. Range: share above 0. Errors: DomainError.
[[nodiscard]] Time decant_time(const ZoneSettling& zone, Share within);

/// What the readings leave open of the end and of the decanting time.
struct ZoneInterval {
    CoverageInterval end_height_m;
    Time decant_low;
    std::optional<Time> decant_high; ///< nothing: the readings do not exclude that it has not begun to slow
    double still_falling = 0.0; ///< share of the redrawn readings that have not begun to slow, or end below 0
};
/// Redraws the three heights with a normal error each, 2 000 times by a fixed seed, and fits each set; sets
/// that have not begun to slow count as ending at 0 and never ready. Quantiles of what comes out.
/// Range: uncertainty 0 or more, coverage above 0 and below 1. Errors: DomainError; as fit_zone_settling.
/// Accuracy: of 1 000 simulated blankets read to 1 mm, 85 to 95 % of the 90 % intervals hold the truth
/// (tests/particle/zone_settling_test.cpp).
[[nodiscard]] ZoneInterval zone_interval(const InterfaceHeights& heights, Length standard_uncertainty, Share within,
                                         double coverage);

} // namespace lakebound
