#include "lakebound/bath/conductivity.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

/// Coefficients of Lambda, S cm2/eq.
struct SulphateCoefficients {
    std::array<double, 3> limiting, decline; // t^2, t, 1
    double b;
};
// mccleskey-2012, read in a copy.
constexpr SulphateCoefficients sodium_sulphate{{.009501, 2.317, 66.58}, {.02388, 4.509, 135.5}, 2.2};
constexpr SulphateCoefficients potassium_sulphate{{.008819, 2.872, 83.72}, {.03799, 9.784, 247.1}, 5.3};

constexpr double warmest_conducting = 45.0, strongest_molality = 0.5;

double parabola(const std::array<double, 3>& c, double t) { return (c[0] * t + c[1]) * t + c[2]; }

double conducting_celsius(Temperature temperature) {
    const double t = in_degrees_celsius(temperature);
    if (!(t >= 0.0 && t <= warmest_conducting))
        throw DomainError("temperature of the water at the pen", number_text(t) + " degC", "0 to 45 degC",
                          "let it cool to the room's warmth and read again");
    return t;
}

const SulphateCoefficients& coefficients_of(Ion cation) {
    switch (cation) {
    case Ion::sodium: return sodium_sulphate;
    case Ion::potassium:
    case Ion::ammonium: return potassium_sulphate;
    default: break;
    }
    throw DomainError("cation of a sulphate in the wash water", ion_formula(cation).name,
                      "sodium, potassium or ammonium");
}

/// S cm2/eq.
double sulphate_lambda(Ion cation, double molality, double t) {
    const auto& c = coefficients_of(cation);
    const double root = std::sqrt(molality);
    return parabola(c.limiting, t) - parabola(c.decline, t) * root / (1.0 + c.b * root);
}

constexpr std::array wash_cations{Ion::sodium, Ion::potassium, Ion::ammonium};

double cation_equivalents(const Ions& ions) {
    double sum = 0.0;
    for (const Ion cation : wash_cations)
        sum += ions[cation];
    return sum;
}

/// mol of sulphate per kg that has the ionic strength of one equivalent of these salts per kg.
double sulphate_molality_per_equivalent(const Ions& ions) {
    const double equivalents = cation_equivalents(ions);
    return (equivalents + 4.0 * ions[Ion::sulphate] + ions[Ion::bicarbonate]) / 2.0 / 3.0 / equivalents;
}

/// Mean Lambda of the salts, S cm2/eq, at `normality` eq/kg.
double mean_lambda(const Ions& ions, double normality, double t) {
    const double equivalents = cation_equivalents(ions), molality = normality * sulphate_molality_per_equivalent(ions);
    const double bicarbonate = ions[Ion::bicarbonate] / equivalents; // share of the anions' equivalents
    const auto limiting = [](Ion ion) {
        return in_siemens_square_centimetres_per_equivalent(limiting_conductivity(ion));
    };
    double sum = 0.0;
    for (const Ion cation : wash_cations) {
        if (!(ions[cation] > 0.0)) continue;
        const double ratio = (limiting(cation) + limiting(Ion::bicarbonate)) / (limiting(cation) + limiting(Ion::sulphate));
        sum += ions[cation] / equivalents * sulphate_lambda(cation, molality, t) *
               (1.0 - bicarbonate + bicarbonate * ratio);
    }
    return sum;
}

/// eq/kg of a strength, by one litre of wash water for one kilogram.
double normality_of(const DissolvedSalts& salts, WeightPerVolume strength) {
    return in_kilograms_per_cubic_metre(strength.value) / in_grams(mass_per_equivalent(salts));
}

[[noreturn]] void throw_too_strong(const std::string& value) {
    throw DomainError("salts in the water", value, "up to 0.5 mol of sulphate to a litre",
                      "thin the sample with ten times its volume of pure water, read that, and reckon by ten");
}

Compensation compensation_of(const PenReading& r, const ConductivityPen& pen) { return r.compensation.value_or(pen.compensation); }

double conductivity_uncertainty(const PenReading& r, const ConductivityPen& pen) {
    const double shown = in_microsiemens_per_centimetre(r.shown);
    const double step = in_microsiemens_per_centimetre(pen.step) / std::sqrt(12.0);
    const double repeat = pen.repeats_to.value().value() * shown;
    const double warmth = compensation_of(r, pen) == Compensation::none ? pen.per_kelvin * pen.thermometer.value() * shown : 0.0;
    return std::sqrt(step * step + repeat * repeat + warmth * warmth);
}

void check_pen_reading(const PenReading& r) {
    if (!(r.shown.value() >= 0.0))
        throw_out_of_range("conductivity on the pen", in_microsiemens_per_centimetre(r.shown), "uS/cm", "0 or more");
    conducting_celsius(r.water);
}

} // namespace

EquivalentConductivity limiting_conductivity(Ion ion) {
    double table = 0.0;
    switch (ion) { // marcus-ions
    case Ion::sodium: table = 50.1; break;
    case Ion::potassium: table = 73.5; break;
    case Ion::ammonium: table = 73.5; break;
    case Ion::calcium: table = 59.5; break;
    case Ion::aluminium: table = 61.0; break;
    case Ion::sulphate: table = 80.0; break;
    case Ion::bicarbonate: table = 44.5; break;
    case Ion::carbonate: table = 69.3; break;
    default:
        throw DomainError("ion asked for a limiting conductivity", ion_formula(ion).name,
                          "sodium, potassium, ammonium, calcium, aluminium, sulphate, bicarbonate or carbonate");
    }
    return siemens_square_centimetres_per_equivalent(table);
}

EquivalentConductivity sulphate_equivalent_conductivity(Ion cation, Molality sulphate, Temperature temperature) {
    const double m = sulphate.value(), t = conducting_celsius(temperature);
    if (!(m >= 0.0 && m <= strongest_molality))
        throw_out_of_range("molality of the sulphate", m, "mol/kg", "0 to 0.5 mol/kg");
    return siemens_square_centimetres_per_equivalent(sulphate_lambda(cation, m, t));
}

DissolvedSalts salts_of_alum_and_soda() {
    DissolvedSalts salts{};
    salts.ions[Ion::sodium] = 6.0;
    salts.ions[Ion::potassium] = 2.0;
    salts.ions[Ion::sulphate] = 4.0;
    return salts;
}

DissolvedSalts salts_of_liquor(const Ions& liquor) {
    DissolvedSalts salts{liquor};
    salts.ions[Ion::bicarbonate] += 2.0 * liquor[Ion::carbonate] + liquor[Ion::hydroxide];
    salts.ions[Ion::carbonate] = salts.ions[Ion::hydroxide] = 0.0;
    check(salts);
    return salts;
}

void check(const DissolvedSalts& salts) {
    double all = 0.0;
    for (const double moles_of_ion : salts.ions.count) {
        if (!(moles_of_ion >= 0.0)) throw_out_of_range("amount of an ion in the wash water", moles_of_ion, "mol", "0 or more");
        all += moles_of_ion;
    }
    const double known = cation_equivalents(salts.ions) + salts.ions[Ion::sulphate] + salts.ions[Ion::bicarbonate];
    if (!(all > 0.0 && std::abs(all - known) <= 1e-9 * all))
        throw DomainError("salts in the wash water", "other ions than these, or none",
                          "sulphates or bicarbonates of sodium, potassium or ammonium",
                          "a pen cannot tell calcium or acetate: dry a weighed sample of the water instead");
    if (!(std::abs(charge_of(salts.ions)) <= 1e-6 * all))
        throw_out_of_range("charge of the salts in the wash water", charge_of(salts.ions), "mol", "0");
}

Mass mass_per_equivalent(const DissolvedSalts& salts) {
    check(salts);
    return kilograms(molar_mass(atoms_of(salts.ions)).value() / cation_equivalents(salts.ions));
}

Conductivity salts_conductivity(const DissolvedSalts& salts, WeightPerVolume strength, Temperature temperature) {
    const double t = conducting_celsius(temperature), n = normality_of(salts, strength);
    if (!(n >= 0.0)) throw_out_of_range("salts in the water", in_kilograms_per_cubic_metre(strength.value), "g/L", "0 or more");
    if (!(n * sulphate_molality_per_equivalent(salts.ions) <= strongest_molality))
        throw_too_strong(fixed_text(in_kilograms_per_cubic_metre(strength.value), 1) + " g/L");
    return microsiemens_per_centimetre(1e3 * n * mean_lambda(salts.ions, n, t));
}

WeightPerVolume strength_of(const DissolvedSalts& salts, Conductivity conductivity, Temperature temperature) {
    const double wanted = in_microsiemens_per_centimetre(conductivity), t = conducting_celsius(temperature);
    if (!(wanted >= 0.0)) throw_out_of_range("conductivity of the salts", wanted, "uS/cm", "0 or more");
    const double per_equivalent = in_grams(mass_per_equivalent(salts));
    double low = 0.0, high = strongest_molality / sulphate_molality_per_equivalent(salts.ions);
    const auto at = [&](double n) { return 1e3 * n * mean_lambda(salts.ions, n, t); };
    if (at(high) < wanted) throw_too_strong("more than a pen at " + fixed_text(wanted / 1e3, 1) + " mS/cm can tell");
    for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
        const double middle = 0.5 * (low + high);
        (at(middle) < wanted ? low : high) = middle;
    }
    return {kilograms_per_cubic_metre(0.5 * (low + high) * per_equivalent)};
}

Conductivity shown_as_solids(WeightPerVolume shown, double factor) {
    if (!(factor >= 0.3 && factor <= 1.0))
        throw_out_of_range("factor of the pen", factor, "mg/L per uS/cm", "0.3 to 1.0 mg/L per uS/cm");
    return microsiemens_per_centimetre(in_kilograms_per_cubic_metre(shown.value) * 1e3 / factor);
}

Conductivity at_25_degrees(const PenReading& r, const ConductivityPen& pen) {
    check_pen_reading(r);
    if (compensation_of(r, pen) == Compensation::to_25_degrees) return r.shown;
    return r.shown / (1.0 + pen.per_kelvin * (in_degrees_celsius(r.water) - 25.0));
}

SaltsInWater salts_in_decant(const PenReading& decant, const PenReading& wash_water, const ConductivityPen& pen,
                             const DissolvedSalts& salts) {
    check_pen_reading(decant);
    const Temperature warm = degrees_celsius(25);
    const Conductivity water = at_25_degrees(wash_water, pen);
    // What the decant has at its own temperature; that of the wash water in it is carried there as natural water is.
    const double from_25 = in_degrees_celsius(decant.water) - 25.0;
    const Conductivity as_it_is = compensation_of(decant, pen) == Compensation::none
                                      ? decant.shown
                                      : decant.shown * (1.0 + pen.per_kelvin * from_25);
    const Conductivity water_there = water * (1.0 + pen.per_kelvin * from_25);
    const Conductivity over = as_it_is - water_there;
    const double u_decant = conductivity_uncertainty(decant, pen), u_water = conductivity_uncertainty(wash_water, pen);
    const double u = std::sqrt(u_decant * u_decant + u_water * u_water);
    if (in_microsiemens_per_centimetre(over) < -2.0 * u)
        throw DomainError("conductivity of the decant",
                          fixed_text(in_microsiemens_per_centimetre(at_25_degrees(decant, pen)), 0) + " uS/cm at 25 degC",
                          "at least that of the water it was washed with, " +
                              fixed_text(in_microsiemens_per_centimetre(water), 0) + " uS/cm",
                          "were the two mixed up, or was purer water poured on? Read the wash water again");
    SaltsInWater out{};
    out.strength = strength_of(salts, std::max(over, microsiemens_per_centimetre(0)), decant.water);
    out.over_wash_water = salts_conductivity(salts, out.strength, warm);
    // The slope of strength against conductivity, at the reading's own doubt.
    const Conductivity edge = std::max(over, microsiemens_per_centimetre(0)) + microsiemens_per_centimetre(u);
    out.standard_uncertainty = strength_of(salts, edge, decant.water).value - out.strength.value;
    out.scale = pen.calibrated_to.value();
    return out;
}

} // namespace lakebound
