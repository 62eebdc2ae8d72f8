#include "lakebound/particle/water.hpp"

#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

double checked_celsius(Temperature temperature) {
    const double t = in_degrees_celsius(temperature);
    if (!(t >= -1e-9 && t <= 100.0 + 1e-9))
        throw DomainError("water temperature", number_text(std::round(t * 100.0) / 100.0) + " degC",
                          "0 to 100 degC", "is the unit right, degC or degF?");
    return t;
}

} // namespace

MassDensity water_density(Temperature temperature) {
    const double t = checked_celsius(temperature);
    if (t <= 40.0) {
        const double d = t - 3.983035;
        return kilograms_per_cubic_metre(999.974950 *
                                         (1.0 - d * d * (t + 301.797) / (522528.9 * (t + 69.34881))));
    }
    const double top =
        999.83952 +
        t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
    return kilograms_per_cubic_metre(top / (1.0 + 16.879850e-3 * t));
}

DynamicViscosity water_viscosity(Temperature temperature) {
    checked_celsius(temperature);
    const double T = in_kelvin(temperature) / 300.0;
    const double micro = 280.68 * std::pow(T, -1.9) + 511.45 * std::pow(T, -7.7) + 61.131 * std::pow(T, -19.6) +
                         0.45903 * std::pow(T, -40.0);
    return pascal_seconds(micro * 1e-6);
}

} // namespace lakebound
