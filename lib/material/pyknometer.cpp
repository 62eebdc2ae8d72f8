#include "lakebound/material/pyknometer.hpp"

namespace lakebound {
namespace {

/// Mass of liquid displaced, kg, after checking the readings.
double displaced(const Pyknometer& t) {
    if (!(in_grams(t.pigment) > 0.0))
        throw_out_of_range("pigment in the pyknometer", in_grams(t.pigment), "g", "above 0");
    if (!(t.liquid.value() > 0.0))
        throw_out_of_range("density of the pyknometer liquid", in_grams_per_cubic_centimetre(t.liquid), "g/cm3",
                           "above 0");
    const double d =
        in_kilograms(t.pigment) + in_kilograms(t.full_of_liquid) - in_kilograms(t.pigment_and_liquid);
    if (!(d > 0.0))
        throw_out_of_range("liquid displaced by the pigment", d * 1e3, "g",
                           "above 0: bottle with liquid plus pigment must outweigh bottle with both");
    return d;
}

} // namespace

Estimate<MassDensity> density_by_pyknometer(const Pyknometer& t) {
    const double d = displaced(t), m = in_kilograms(t.pigment), ratio = m / d;
    const double u_reading = reading_uncertainty(t.scale);
    const MassDensity u =
        t.liquid * (u_reading / d * std::sqrt(2.0 * ratio * ratio + (1.0 - ratio) * (1.0 - ratio)));
    return Estimate<MassDensity>::normal(t.liquid * ratio, u, {Origin::measured, "pyknometer", false});
}

double trapped_air_bias(const Pyknometer& t, Volume air) {
    if (!(air.value() >= 0.0)) throw_out_of_range("trapped air", in_millilitres(air), "mL", "0 or more");
    const double solid = displaced(t) / t.liquid.value();
    return solid / (solid + air.value()) - 1.0;
}

bool air_dominates(const Pyknometer& t) {
    return -trapped_air_bias(t, bubble_left) > density_by_pyknometer(t).relative_uncertainty();
}

} // namespace lakebound
