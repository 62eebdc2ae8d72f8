#include "lakebound/paint/instruments.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {
namespace {

double stepped(double x, double step) { return std::round(x / step) * step; }


// One reading to the nearest step has the standard uncertainty step / sqrt(12) (jcgm-100, 4.3.7).
bool measures(const Syringe& syringe, Volume volume, Share tolerance) {
    return volume.value() * tolerance.value() >= 2.0 * syringe.step.value() / std::sqrt(12.0) * (1.0 - 1e-9);
}

} // namespace

bool carries(const Scale& scale, Mass mass) { return !scale.capacity || mass <= *scale.capacity; }

std::optional<SyringeReading> syringe_reading(const Bench& bench, Volume volume, double most_fills) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < bench.syringes.size(); ++i) {
        const Syringe& s = bench.syringes[i];
        if (!(s.capacity.value() > 0.0))
            throw_out_of_range("capacity of a syringe", s.capacity.value(), "m3", "above 0");
        if (!(s.step.value() > 0.0)) throw_out_of_range("step of a syringe", s.step.value(), "m3", "above 0");
        if (!measures(s, volume, bench.weighing_tolerance)) continue;
        if (!best) {
            best = i;
            continue;
        }
        const Volume now = bench.syringes[*best].capacity;
        if (now < volume ? s.capacity > now : s.capacity >= volume && s.capacity < now) best = i;
    }
    if (!best) return std::nullopt;
    const Syringe& syringe = bench.syringes[*best];
    const double fills = std::ceil(volume.value() / syringe.capacity.value() * (1.0 - 1e-9));
    if (!(fills <= most_fills)) return std::nullopt;
    return SyringeReading{*best, volume, rounded_to_step(volume, syringe),
                          std::max(1, static_cast<int>(fills))};
}

Share weighing_error(const Scale& scale, Mass mass) {
    return Share::of(std::min(1.0, 2.0 * standard_uncertainty(scale).value() / mass.value()));
}

Mass least_weighable(const Bench& bench) {
    Mass least = minimum_mass(bench.scales.front(), bench.weighing_tolerance);
    for (const Scale& scale : bench.scales)
        least = std::min(least, minimum_mass(scale, bench.weighing_tolerance));
    return least;
}

Mass standard_uncertainty(const Scale& scale) {
    if (!(scale.step.value() > 0.0))
        throw_out_of_range("step of the scale", scale.step.value(), "kg", "above 0");
    const Mass reading = 0.41 * scale.step;
    return scale.repeatability && *scale.repeatability > reading ? *scale.repeatability : reading;
}

Mass minimum_mass(const Scale& scale, Share tolerance) {
    if (!(tolerance.value() > 0.0)) throw_out_of_range("weighing tolerance", tolerance.value(), "", "above 0");
    return 2.0 * standard_uncertainty(scale) / tolerance.value();
}

Mass rounded_to_step(Mass mass, const Scale& scale) {
    if (!(scale.step.value() > 0.0))
        throw_out_of_range("step of the scale", scale.step.value(), "kg", "above 0");
    return Mass::from_value(stepped(mass.value(), scale.step.value()));
}

Volume rounded_to_step(Volume volume, const Syringe& syringe) {
    if (!(syringe.step.value() > 0.0))
        throw_out_of_range("step of the syringe", syringe.step.value(), "m3", "above 0");
    return Volume::from_value(stepped(volume.value(), syringe.step.value()));
}

std::size_t finest_scale(const Bench& bench) {
    if (bench.scales.empty()) throw DomainError("scales of the bench", "none", "one at least");
    const auto finest = std::min_element(bench.scales.begin(), bench.scales.end(), [](const Scale& a, const Scale& b) {
        return standard_uncertainty(a) < standard_uncertainty(b);
    });
    return static_cast<std::size_t>(finest - bench.scales.begin());
}

std::size_t best_scale(const Bench& bench, Mass mass) {
    if (bench.scales.empty()) throw_out_of_range("number of scales on the bench", 0.0, "", "1 or more");
    const auto& scales = bench.scales;
    std::optional<std::size_t> good, finest;
    std::size_t strongest = 0;
    for (std::size_t i = 0; i < scales.size(); ++i) {
        if (scales[strongest].capacity &&
            (!scales[i].capacity || *scales[i].capacity > *scales[strongest].capacity))
            strongest = i;
        if (!carries(scales[i], mass)) continue;
        if (!finest || scales[i].step < scales[*finest].step) finest = i;
        if (mass >= minimum_mass(scales[i], bench.weighing_tolerance) &&
            (!good || scales[i].step > scales[*good].step))
            good = i;
    }
    if (good) return *good;
    return finest ? *finest : strongest;
}

} // namespace lakebound
