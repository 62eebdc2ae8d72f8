#include "lakebound/material/tapped_fill.hpp"

#include <algorithm>
#include <numbers>

namespace lakebound {

Estimate<Volume> fill_volume(const JarFill& f) {
    const double d = in_metres(f.diameter), h = in_metres(f.height);
    if (!(d > 0.0)) throw_out_of_range("inner diameter of the jar", d * 1e3, "mm", "above 0");
    if (!(h > 0.0)) throw_out_of_range("height of the fill", h * 1e3, "mm", "above 0");
    const auto volume = Volume::from_value(std::numbers::pi * d * d * h / 4.0);
    const double u = reading_uncertainty(f.ruler);
    return Estimate<Volume>::normal(volume, volume * std::hypot(2.0 * u / d, u / h),
                                    {Origin::measured, "fill of the jar", false});
}

Estimate<MassDensity> tapped_density(const JarFill& fill, Mass powder, const Instrument<Mass>& scale) {
    if (!(in_grams(powder) > 0.0)) throw_out_of_range("powder weighed", in_grams(powder), "g", "above 0");
    const auto volume = fill_volume(fill);
    const MassDensity density = powder / volume.value();
    const double relative =
        std::hypot(volume.relative_uncertainty(), reading_uncertainty(scale, 2) / in_kilograms(powder));
    return Estimate<MassDensity>::normal(density, density * relative,
                                         {Origin::measured, "tapped fill", false});
}

Estimate<Mass> mass_from_fill(const JarFill& fill, const Estimate<MassDensity>& tapped) {
    const auto volume = fill_volume(fill);
    const double spread =
        std::max(std::log(1.35), std::hypot(volume.relative_uncertainty(), tapped.relative_uncertainty()));
    return Estimate<Mass>::lognormal(Mass::from_value(volume.value().value() * tapped.value().value()),
                                     std::exp(spread), {Origin::measured, "fill of the jar", false});
}

} // namespace lakebound
