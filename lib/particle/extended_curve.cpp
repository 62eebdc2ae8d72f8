#include "lakebound/particle/extended_curve.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

PassingCurve extended_curve(const PassingCurve& screens, const SizeFit& fit, Length finest) {
    check_curve(screens);
    const auto& first = screens.points.front();
    if (!(in_metres(finest) > 0.0 && finest < first.size))
        throw_out_of_range("finest size of the curve", in_micrometres(finest), "um",
                           "above 0 and below the finest screen");
    const double at_join = predicted_passing(fit, first.size).passing.value();
    PassingCurve curve;
    constexpr int steps = 8;
    for (int i = 0; i < steps && at_join > 0.0; ++i) {
        const Length size = finest * std::pow(first.size / finest, static_cast<double>(i) / steps);
        const double share = first.passing.value() * predicted_passing(fit, size).passing.value() / at_join;
        curve.points.push_back({size, MassFraction::of(std::clamp(share, 0.0, first.passing.value()))});
    }
    curve.points.insert(curve.points.end(), screens.points.begin(), screens.points.end());
    return curve;
}

} // namespace lakebound
