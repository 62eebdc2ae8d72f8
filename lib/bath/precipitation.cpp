#include "lakebound/bath/precipitation.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

double moles_of_water(Mass water) {
    static const MolarMass one = molar_mass(atoms_of("H2O"));
    return in_moles(water / one);
}

void require_aluminium(const Salt& salt) {
    if (!is_aluminium_salt(salt))
        throw DomainError("aluminium salt", salt.name, "an alum or another salt of aluminium");
}
void require_alkali(const Salt& salt) {
    if (!is_alkali(salt)) throw DomainError("alkali", salt.name, "soda, potash, bicarbonate, chalk or lime");
}

/// Base per mole of the aluminium salt that is still wanted for n.
double base_wanted(const Salt& aluminium, double n) {
    return n * aluminium.gives[Ion::aluminium] - base_per_mole(aluminium);
}

} // namespace

void BathContents::add(const Salt& salt, Mass mass) {
    const AmountOfSubstance amount = amount_of(salt, mass);
    ions += in_moles(amount) * salt.gives;
    water += mass * hydrate_share(salt).value();
}

Atoms BathContents::atoms() const { return atoms_of(ions) + moles_of_water(water) * atoms_of("H2O"); }

AmountOfSubstance aluminium_in(const BathContents& bath) noexcept { return moles(bath.ions[Ion::aluminium]); }

AmountOfSubstance base_in(const BathContents& bath) noexcept {
    return moles(2.0 * bath.ions[Ion::carbonate] + bath.ions[Ion::bicarbonate] + bath.ions[Ion::hydroxide]);
}

Mass alkali_needed(const Salt& aluminium, Mass mass, const Salt& alkali, HydroxidesPerAluminium n) {
    require_aluminium(aluminium);
    require_alkali(alkali);
    return mass_of(alkali, amount_of(aluminium, mass) * (base_wanted(aluminium, n.value()) / base_per_mole(alkali)));
}

Mass aluminium_needed(const Salt& alkali, Mass mass, const Salt& aluminium, HydroxidesPerAluminium n) {
    require_aluminium(aluminium);
    require_alkali(alkali);
    return mass_of(aluminium, amount_of(alkali, mass) * (base_per_mole(alkali) / base_wanted(aluminium, n.value())));
}

AlkaliBalance alkali_balance(const Salt& aluminium, Mass mass, const Salt& alkali, Mass poured,
                             HydroxidesPerAluminium n) {
    AlkaliBalance out;
    out.needed = alkali_needed(aluminium, mass, alkali, n);
    if (!(in_grams(out.needed) > 0.0)) throw_out_of_range("mass of an aluminium salt", in_grams(mass), "g", "above 0");
    if (!(in_grams(poured) >= 0.0)) throw_out_of_range("alkali poured", in_grams(poured), "g", "0 or more");
    out.poured = poured;
    out.excess = (poured - out.needed) / out.needed;
    out.more_alkali = std::max(Mass{}, out.needed - poured);
    if (poured > out.needed) out.more_aluminium = aluminium_needed(alkali, poured - out.needed, aluminium, n);
    return out;
}

Precipitated precipitate(const BathContents& bath, HydroxidesPerAluminium n) {
    const Ions& in = bath.ions;
    const double al = in[Ion::aluminium], base = in_moles(base_in(bath));
    if (!(al > 0.0)) throw DomainError("aluminium in the bath", "none", "some, from an alum");
    if (in[Ion::calcium] > 0.0)
        throw DomainError("alkali of the bath", "chalk or lime", "soda, potash or bicarbonate",
                          "a lake laid with lime holds gypsum: it is another pigment");
    if (in[Ion::acetate] > 0.0)
        throw DomainError("aluminium salt of the bath", "an acetate", "an alum, a sulphate or a chloride",
                          "acetate holds aluminium in solution; how much comes down is not known");
    Precipitated out;
    out.hydroxides = n.value();
    const double laid = std::min(al, base / n.value());
    const double anions_per_aluminium = 3.0 - n.value(); // charges of the salt's own acid that stay in the solid
    const double sulphate = in[Ion::sulphate] > 0.0 ? 0.5 * anions_per_aluminium * laid : 0.0;
    const double chloride = in[Ion::sulphate] > 0.0 ? 0.0 : anions_per_aluminium * laid;
    if (sulphate > in[Ion::sulphate] || chloride > in[Ion::chloride])
        throw DomainError("sulphate and chloride in the bath", "too little", "enough for the basic salt that is laid");
    out.solid_aluminium = moles(laid);
    out.solid_atoms = laid * (atoms_of("Al") + n.value() * atoms_of("OH")) + sulphate * atoms_of("SO4") +
                      chloride * atoms_of("Cl");
    out.solid = moles(1.0) * molar_mass(out.solid_atoms);
    const double salt_mass = sulphate * in_grams_per_mole(molar_mass(atoms_of("SO4")));
    out.solid_sulphate = MassFraction::of(laid > 0.0 ? salt_mass / in_grams(out.solid) : 0.0);
    out.aluminium_left = moles(al - laid);

    // Hydroxide is used first, then carbonate twice over, then bicarbonate: each used carbonate leaves as gas.
    double wanted = n.value() * laid, gas = 0.0, water_made = 0.0;
    Ions left = in;
    const double hydroxide = std::min(wanted, left[Ion::hydroxide]);
    left[Ion::hydroxide] -= hydroxide;
    wanted -= hydroxide;
    const double carbonate = std::min(0.5 * wanted, left[Ion::carbonate]);
    left[Ion::carbonate] -= carbonate;
    wanted -= 2.0 * carbonate;
    gas += carbonate;
    water_made -= carbonate; // CO3-- + H2O -> CO2 + 2 OH-
    const double bicarbonate = std::min(wanted, left[Ion::bicarbonate]);
    left[Ion::bicarbonate] -= bicarbonate;
    gas += bicarbonate; // HCO3- -> CO2 + OH-
    left[Ion::aluminium] -= laid;
    left[Ion::sulphate] -= sulphate;
    left[Ion::chloride] -= chloride;
    out.liquor = left;
    out.base_left = moles(2.0 * left[Ion::carbonate] + left[Ion::bicarbonate] + left[Ion::hydroxide]);
    out.carbon_dioxide = moles(gas);
    out.gas_atoms = gas * atoms_of("CO2");
    out.dissolved_salts = moles(1.0) * molar_mass(atoms_of(left));
    out.liquor_atoms = atoms_of(left) + (moles_of_water(bath.water) + water_made) * atoms_of("H2O");
    return out;
}

ChalkLake chalk_lake(const Salt& aluminium, Mass aluminium_mass, const Salt& chalk, Mass chalk_mass, Volume liquor,
                     MassDensity gypsum_dissolves) {
    require_aluminium(aluminium);
    if (!(chalk.gives[Ion::calcium] > 0.0 && chalk.gives[Ion::carbonate] > 0.0))
        throw DomainError("chalk", chalk.name, "a carbonate of calcium");
    if (!(aluminium.gives[Ion::sulphate] > 0.0))
        throw DomainError("aluminium salt", aluminium.name, "an alum or aluminium sulphate");
    if (!(in_litres(liquor) >= 0.0)) throw_out_of_range("liquor", in_litres(liquor), "L", "0 or more");
    ChalkLake out;
    const Ions salt = ions_of(aluminium, aluminium_mass);
    const AmountOfSubstance in = amount_of(chalk, chalk_mass);
    const double wanted = 0.5 * book_hydroxides * salt[Ion::aluminium];
    const double used = std::min(wanted, in_moles(in));
    out.chalk_used = mass_of(chalk, moles(used));
    out.chalk_left = chalk_mass - out.chalk_used;
    out.gypsum = moles(std::min(used, salt[Ion::sulphate])) * molar_mass(atoms_of("CaSO4.2H2O"));
    out.gypsum_dissolved = std::min(out.gypsum, liquor * gypsum_dissolves);
    out.alumina = moles(used / (0.5 * book_hydroxides)) * molar_mass(atoms_of("Al(OH)3"));
    out.solids = out.chalk_left + out.gypsum - out.gypsum_dissolved + out.alumina;
    out.alumina_share = MassFraction::of(in_grams(out.solids) > 0.0 ? in_grams(out.alumina) / in_grams(out.solids) : 0.0);
    return out;
}

double hydroxides_poured(const Salt& aluminium, Mass mass, const Salt& alkali, Mass poured) {
    require_aluminium(aluminium);
    require_alkali(alkali);
    const double al = in_moles(amount_of(aluminium, mass)) * aluminium.gives[Ion::aluminium];
    if (!(al > 0.0)) throw_out_of_range("mass of an aluminium salt", in_grams(mass), "g", "above 0");
    const double own = in_moles(amount_of(aluminium, mass)) * base_per_mole(aluminium);
    return (own + in_moles(amount_of(alkali, poured)) * base_per_mole(alkali)) / al;
}

HydroxideBelief learn_hydroxides(const HydroxideBelief& before, std::span<const EndPoint> seen) {
    const auto precision = [](double u) {
        if (!(u > 0.0)) throw_out_of_range("uncertainty of hydroxides per aluminium", u, "", "above 0");
        return 1.0 / (u * u);
    };
    double sum = precision(before.standard_uncertainty), weighted = sum * before.mean;
    for (const EndPoint& point : seen) {
        const double p = precision(point.standard_uncertainty);
        sum += p;
        weighted += p * point.hydroxides;
    }
    return {weighted / sum, 1.0 / std::sqrt(sum)};
}

} // namespace lakebound
