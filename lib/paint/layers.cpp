#include "lakebound/paint/layers.hpp"

#include <algorithm>
#include <numeric>

namespace lakebound {

OilShare oil_share(const PigmentInOil& paint) {
    const double pigment = paint.pigment.value(), oil = paint.oil.value();
    if (!(pigment >= 0.0)) throw_out_of_range("pigment mass", in_grams(paint.pigment), "g", "0 or more");
    if (!(oil >= 0.0)) throw_out_of_range("oil mass", in_grams(paint.oil), "g", "0 or more");
    detail::require_positive(paint.oil_density.value(), "density of the oil", "kg/m3");
    const auto pvc = pigment_volume_concentration(
        {.pigment = pigment_volume(paint.pigment, paint.pigment_density), .dry_binder = paint.oil / paint.oil_density});
    return {MassFraction::of(oil / (oil + pigment)), oil_volume_fraction(pvc)};
}

std::vector<std::size_t> lean_to_fat(std::span<const VolumeFraction> f) {
    std::vector<std::size_t> order(f.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return f[a] < f[b]; });
    return order;
}

std::vector<LeanOverFat> lean_over_fat(std::span<const VolumeFraction> f, double tolerance) {
    if (!(tolerance >= 0.0 && tolerance < 1.0))
        throw_out_of_range("tolerance of the oil volume fraction", tolerance, "", "0 to below 1");
    std::vector<LeanOverFat> faults;
    for (std::size_t i = 1, fattest = 0; i < f.size(); ++i) {
        const double difference = f[fattest].value() - f[i].value();
        if (difference > tolerance) faults.push_back({i, fattest, difference});
        if (f[i] > f[fattest]) fattest = i;
    }
    return faults;
}

} // namespace lakebound
