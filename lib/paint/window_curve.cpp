#include "lakebound/paint/window_curve.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace lakebound {
namespace {

constexpr std::size_t most_points = 1000;
// A little beyond the limits that are shown, so that their lines do not stand at the edge.
constexpr double beyond = 1.1;
// Of a normal variable, 16 % lie below one standard deviation under the mean.
constexpr double one_sigma = 0.15865525393145707;

void check_count(std::size_t count, std::size_t least, const char* what) {
    if (count < least || count > most_points)
        throw DomainError(what, std::to_string(count), std::to_string(least) + " to " + std::to_string(most_points));
}

} // namespace

std::vector<WindowPoint> window_curve(const Batch& batch, const NormalMixture& doubt,
                                      const SufficiencyWindow& window, std::size_t points) {
    check_count(points, 2, "points of the window curve");
    const auto& formulation = batch.formulation;
    const double at_none = formulation.binder_from_additives / formulation.effective_demand;
    const double per_medium = formulation.medium.dry_binder / formulation.effective_demand;
    const auto medium_for = [&](double k) { return std::max((k - at_none) / per_medium, 0.0); };
    const double now = batch.film.k.value();
    const double from = medium_for(std::min(now, window.amber_low.value()) / beyond);
    const double to = medium_for(std::max(now, window.amber_high.value()) * beyond);
    const double low = std::exp(doubt.quantile(one_sigma)), high = std::exp(doubt.quantile(1.0 - one_sigma));

    std::vector<WindowPoint> curve;
    curve.reserve(points);
    for (std::size_t i = 0; i < points; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(points - 1);
        const double medium = from + (to - from) * share;
        const double k = at_none + per_medium * medium;
        if (!(k > 0.0)) continue; // neither medium nor binding additives
        curve.push_back({batch.pigment * medium, BinderSufficiency::of(k), BinderSufficiency::of(k * low),
                         BinderSufficiency::of(k * high), window_chances(BinderSufficiency::of(k), doubt, window)});
    }
    return curve;
}

BinderSufficiency k_below_which(double p, BinderSufficiency k, const NormalMixture& doubt) {
    return BinderSufficiency::of(k.value() * std::exp(doubt.quantile(p)));
}

std::vector<BinderSufficiency> equal_chances(BinderSufficiency k, const NormalMixture& doubt, std::size_t count) {
    check_count(count, 1, "number of equal chances");
    std::vector<BinderSufficiency> values;
    values.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        values.push_back(k_below_which((static_cast<double>(i) + 0.5) / static_cast<double>(count), k, doubt));
    }
    return values;
}

} // namespace lakebound
