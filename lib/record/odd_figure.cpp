#include "lakebound/record/odd_figure.hpp"

#include <cmath>
#include <optional>

namespace lakebound {
namespace {

constexpr double far_in_spreads = 3.0, least_times = 1.25;

std::optional<OddFigure> odd(MeasuredDensity which, const std::optional<Estimate<MassDensity>>& measured,
                             const std::optional<Estimate<MassDensity>>& expected) {
    if (!measured || !expected) return std::nullopt;
    const double times = measured->value() / expected->value();
    const double spread = std::hypot(measured->relative_uncertainty(), expected->relative_uncertainty());
    const double apart = std::abs(std::log(times));
    if (!(apart > far_in_spreads * spread && apart > std::log(least_times))) return std::nullopt;
    return OddFigure{which, measured->value(), expected->value(), times};
}

} // namespace

std::vector<OddFigure> odd_figures(const MeasuredEntry& measured, const Pigment& kind) {
    std::vector<OddFigure> found;
    for (const auto& each : {odd(MeasuredDensity::density, measured.density, kind.density),
                             odd(MeasuredDensity::tapped_density, measured.tapped_density, kind.tapped_density)})
        if (each) found.push_back(*each);
    return found;
}

} // namespace lakebound
