#include "lakebound/particle/zone_settling.hpp"

#include <algorithm>
#include <cmath>

#include <vector>

#include "lakebound/estimate/exponential_approach.hpp"
#include "lakebound/estimate/random.hpp"

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

ZoneInterval zone_interval(const InterfaceHeights& heights, Length standard_uncertainty, Share within,
                           double coverage) {
    (void)fit_zone_settling(heights); // refuses what cannot be fitted at all
    const double u = in_millimetres(standard_uncertainty);
    if (!(u >= 0.0)) throw_out_of_range("uncertainty of a height", u, "mm", "0 or more");
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    constexpr int redrawn = 2000;
    RandomEngine engine(20260102);
    std::vector<double> ends, times;
    const auto read = [&](Length height) { return height + millimetres(u * standard_normal(engine)); };
    for (int i = 0; i < redrawn; ++i) {
        const InterfaceHeights again{read(heights.first), read(heights.second), read(heights.third),
                                     heights.interval};
        // What fit_zone_settling refuses, without its message: not slowing, or an end below the bottom.
        const double a = again.first / again.third - again.second / again.third,
                     b = again.second / again.third - 1.0;
        if (!(in_metres(again.third) > 0.0 && b > 0.0 && a > b * (1.0 + 1e-9) && b * b / (a - b) < 1.0))
            continue;
        const auto zone = fit_zone_settling(again);
        ends.push_back(in_metres(zone.end_height));
        times.push_back(in_seconds(decant_time(zone, within)));
    }
    ZoneInterval out;
    const auto never = static_cast<std::size_t>(redrawn) - ends.size();
    out.still_falling = static_cast<double>(never) / redrawn;
    std::sort(ends.begin(), ends.end());
    std::sort(times.begin(), times.end());
    const auto rank = [&](double p) { return static_cast<std::size_t>(p * (redrawn - 1) + 0.5); };
    const std::size_t low = rank(0.5 - 0.5 * coverage), high = rank(0.5 + 0.5 * coverage);
    out.end_height_m.low = low < never ? 0.0 : ends[low - never]; // the never ones stand first, at 0
    out.end_height_m.high = high < never ? 0.0 : ends[high - never];
    out.decant_low = low < times.size() ? seconds(times[low]) : decant_time(fit_zone_settling(heights), within);
    if (high < times.size()) out.decant_high = seconds(times[high]);
    return out;
}

} // namespace lakebound
