#include "lakebound/quantity/rounded_text.hpp"

#include <cmath>

#include "lakebound/quantity/text.hpp"

namespace lakebound {

namespace {

/// Power of ten of the first digit of x after rounding to `digits` digits; 0 for 0.
int leading_place(double x, int digits) {
    if (x == 0.0) return 0;
    const int place = static_cast<int>(std::floor(std::log10(std::abs(x))));
    const double unit = std::pow(10.0, place - digits + 1);
    return std::abs(std::round(x / unit)) * unit >= std::pow(10.0, place + 1) * (1.0 - 1e-12) ? place + 1
                                                                                              : place;
}

/// x to the decimal place 10^place; place above 0 gives whole numbers rounded to tens, hundreds.
std::string to_place(double x, int place) {
    if (place <= 0) return fixed_text(x, -place);
    const double unit = std::pow(10.0, place);
    return fixed_text(std::round(x / unit) * unit, 0);
}

/// One decimal from 1 to 100, whole numbers above, two significant digits below 1.
std::string readable(double x) {
    const double size = std::abs(x);
    // 0.996 rounds to 1.0: two significant digits only where one decimal says too little.
    if (size != 0.0 && size < 0.995) return significant_text(x, 2);
    return fixed_text(x, size < 99.95 && size != 0.0 ? 1 : 0);
}

} // namespace

int decimals_of_step(double step) {
    if (!(step > 0.0)) throw_out_of_range("step of the scale", step, "", "above 0");
    for (int decimals = 0; decimals < 6; ++decimals) {
        const double scaled = step * std::pow(10.0, decimals);
        if (std::abs(scaled - std::round(scaled)) < 1e-6 * scaled) return decimals;
    }
    return 6;
}

std::string mass_text(Mass mass, Mass step) {
    return fixed_text(in_grams(mass), decimals_of_step(in_grams(step))) + " g";
}

std::string volume_text(Volume volume, Volume step) {
    return fixed_text(in_millilitres(volume), decimals_of_step(in_millilitres(step))) + " mL";
}

std::string plain_text(double x) {
    const auto text = readable(x);
    const auto tail = text.rfind(".0");
    return tail != std::string::npos && tail + 2 == text.size() ? text.substr(0, tail) : text;
}

std::string mass_text(Mass mass) { return readable(in_grams(mass)) + " g"; }
std::string volume_text(Volume volume) { return readable(in_millilitres(volume)) + " mL"; }
std::string density_text(MassDensity density) {
    return significant_text(in_grams_per_cubic_centimetre(density), 3) + " g/cm3";
}
std::string specific_volume_text(SpecificVolume volume) {
    return significant_text(in_millilitres_per_gram(volume), 3) + " mL/g";
}
std::string oil_absorption_text(OilAbsorption oil_absorption) {
    return significant_text(in_grams_per_100_grams(oil_absorption), 3) + " g/100 g";
}

std::string significant_text(double x, int digits) {
    if (x == 0.0) return "0";
    return to_place(x, leading_place(x, digits) - digits + 1);
}

std::string percent_text(double fraction) {
    const double percent = fraction * 100.0;
    if (percent == 0.0) return "0 %";
    if (std::abs(percent) < 0.05) return "below 0.1 %";
    // Nearly all is not all: a chance of 99.7 % is not sure.
    if (percent >= 99.5 && percent < 100.0) return percent < 99.95 ? fixed_text(percent, 1) + " %" : "above 99.9 %";
    return fixed_text(percent, std::abs(percent) < 9.95 ? 1 : 0) + " %";
}

std::string ratio_text(double x) { return fixed_text(x, 2); }
std::string sufficiency_text(BinderSufficiency k) { return ratio_text(k.value()); }

ValueAndUncertainty value_and_uncertainty(double value, double standard_uncertainty) {
    if (!(standard_uncertainty > 0.0)) return {significant_text(value, 3), ""};
    int place = leading_place(standard_uncertainty, 2);
    // 0.97 would be written 1.0 with one digit: look at the digits that two-digit rounding leaves.
    const double first_digits = standard_uncertainty / std::pow(10.0, place);
    if (first_digits < 2.95) --place;
    return {to_place(value, place), to_place(standard_uncertainty, place)};
}

std::string value_text(double value, double standard_uncertainty) {
    const auto text = value_and_uncertainty(value, standard_uncertainty);
    return text.uncertainty.empty() ? text.value : text.value + " ± " + text.uncertainty;
}

std::string ratio_value_text(double value, double standard_uncertainty) {
    if (!(standard_uncertainty > 0.0)) return ratio_text(value);
    return ratio_text(value) + " ± " +
           (standard_uncertainty < 0.005 ? "0.01" : ratio_text(standard_uncertainty));
}

std::string percent_value_text(double fraction, double standard_uncertainty) {
    return value_text(fraction * 100.0, standard_uncertainty * 100.0) + " %";
}

} // namespace lakebound
