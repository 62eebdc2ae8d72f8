#include "lakebound/material/displacement.hpp"

namespace lakebound {

Estimate<MassDensity> density_by_displacement(const Displacement& t) {
    const double mass = in_kilograms(t.pigment), rise = t.after.value() - t.before.value();
    if (!(mass > 0.0)) throw_out_of_range("pigment in the syringe", mass * 1e3, "g", "above 0");
    if (!(rise > 0.0)) throw_out_of_range("rise of the liquid", rise * 1e6, "mL", "above 0");
    const double relative =
        std::hypot(reading_uncertainty(t.scale, 2) / mass, reading_uncertainty(t.graduate, 2) / rise);
    const auto density = MassDensity::from_value(mass / rise);
    return Estimate<MassDensity>::normal(density, density * relative,
                                         {Origin::measured, "syringe displacement", false});
}

} // namespace lakebound
