#include "lakebound/bath/salt.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

double charge_of(const Ions& ions) noexcept {
    double charge = 0.0;
    for (std::size_t i = 0; i < ion_count; ++i) charge += ions.count[i] * ion_formula(static_cast<Ion>(i)).charge;
    return charge;
}

Atoms atoms_of(const Ions& ions) {
    Atoms all;
    for (std::size_t i = 0; i < ion_count; ++i)
        if (std::abs(ions.count[i]) > 0.0) all += ions.count[i] * atoms_of(ion_formula(static_cast<Ion>(i)).formula);
    return all;
}

bool is_consistent(const Salt& salt) {
    Atoms left = atoms_of(salt.formula) + -1.0 * atoms_of(salt.gives);
    left += -salt.hydrate_water * atoms_of("H2O");
    return std::abs(charge_of(salt.gives)) < 1e-9 &&
           std::all_of(left.count.begin(), left.count.end(), [](double each) { return std::abs(each) < 1e-9; });
}

MolarMass molar_mass(const Salt& salt) { return molar_mass(atoms_of(salt.formula)); }

AmountOfSubstance amount_of(const Salt& salt, Mass mass) {
    if (!(in_grams(mass) >= 0.0)) throw_out_of_range("mass of a salt", in_grams(mass), "g", "0 or more");
    return mass / molar_mass(salt);
}

Mass mass_of(const Salt& salt, AmountOfSubstance amount) { return amount * molar_mass(salt); }

Ions ions_of(const Salt& salt, Mass mass) { return in_moles(amount_of(salt, mass)) * salt.gives; }

MassFraction hydrate_share(const Salt& salt) {
    return MassFraction::of(salt.hydrate_water * (molar_mass(atoms_of("H2O")) / molar_mass(salt)));
}

double base_per_mole(const Salt& salt) noexcept {
    return 2.0 * salt.gives[Ion::carbonate] + salt.gives[Ion::bicarbonate] + salt.gives[Ion::hydroxide];
}

bool is_aluminium_salt(const Salt& salt) noexcept { return salt.gives[Ion::aluminium] > 0.0; }

bool is_alkali(const Salt& salt) noexcept { return base_per_mole(salt) > 0.0 && !is_aluminium_salt(salt); }

std::optional<double> solubility_at(const Salt& salt, Temperature at) noexcept {
    const auto& points = salt.solubility;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double t = in_kelvin(at), here = in_kelvin(points[i].at);
        if (std::abs(t - here) < 1e-9) return points[i].per_water;
        if (i + 1 == points.size() || t < here || t > in_kelvin(points[i + 1].at)) continue;
        const double share = (t - here) / (in_kelvin(points[i + 1].at) - here);
        return points[i].per_water + share * (points[i + 1].per_water - points[i].per_water);
    }
    return std::nullopt;
}

} // namespace lakebound
