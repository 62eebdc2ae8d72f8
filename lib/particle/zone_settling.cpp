#include "lakebound/particle/zone_settling.hpp"

#include <algorithm>
#include <cmath>

#include "exponential_approach.hpp"

namespace lakebound {

ZoneSettling fit_zone_settling(const InterfaceHeights& h) {
    const auto fit =
        exponential_approach("height of the interface", in_millimetres(h.first), in_millimetres(h.second),
                             in_millimetres(h.third), in_seconds(h.interval), "mm");
    if (!(in_millimetres(h.third) > 0.0 && fit.end > 0.0))
        throw DomainError("end height of the interface by these readings", "below the bottom of the vessel",
                          "above it", "the fall has not begun to slow: read again later");
    return {millimetres(fit.end), seconds(fit.tau), h.first};
}

Length interface_height(const ZoneSettling& zone, Time since_first) {
    if (!(in_seconds(since_first) >= 0.0))
        throw_out_of_range("time since the first reading", in_seconds(since_first), "s", "0 or more");
    return zone.end_height +
           (zone.first - zone.end_height) * std::exp(-in_seconds(since_first) / in_seconds(zone.tau));
}

Length clear_water_ends(const ZoneSettling& zone, Time since_first, Length margin) {
    if (!(in_metres(margin) >= 0.0))
        throw_out_of_range("margin above the interface", in_millimetres(margin), "mm", "0 or more");
    return std::min(interface_height(zone, since_first) + margin, zone.first);
}

Time decant_time(const ZoneSettling& zone, Share within) {
    if (!(within.value() > 0.0))
        throw_out_of_range("share above the end height", within.value(), "", "above 0");
    const double end = in_metres(zone.end_height);
    const double ratio = (in_metres(zone.first) - end) / (within.value() * end);
    return ratio <= 1.0 ? seconds(0) : zone.tau * std::log(ratio);
}

} // namespace lakebound
