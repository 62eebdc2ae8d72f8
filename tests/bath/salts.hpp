#pragma once
// The salts of the tests of the bath: figures of no account left out.

#include "lakebound/bath/salt.hpp"

namespace lakebound::testing {

inline Salt salt_of(const char* formula, double water, std::initializer_list<std::pair<Ion, double>> gives) {
    Salt salt;
    salt.id = salt.name = salt.formula = formula;
    salt.hydrate_water = water;
    for (const auto& [ion, count] : gives) salt.gives[ion] = count;
    return salt;
}
inline Salt potash_alum() {
    return salt_of("KAl(SO4)2.12H2O", 12, {{Ion::potassium, 1}, {Ion::aluminium, 1}, {Ion::sulphate, 2}});
}
inline Salt ammonium_alum() {
    return salt_of("NH4Al(SO4)2.12H2O", 12, {{Ion::ammonium, 1}, {Ion::aluminium, 1}, {Ion::sulphate, 2}});
}
inline Salt aluminium_sulphate(double water) {
    Salt salt = salt_of("Al2(SO4)3.18H2O", water, {{Ion::aluminium, 2}, {Ion::sulphate, 3}});
    salt.formula = water > 17 ? "Al2(SO4)3.18H2O" : water > 15 ? "Al2(SO4)3.16H2O" : "Al2(SO4)3.14H2O";
    return salt;
}
inline Salt aluminium_chloride() {
    return salt_of("AlCl3.6H2O", 6, {{Ion::aluminium, 1}, {Ion::chloride, 3}});
}
inline Salt basic_aluminium_acetate() {
    return salt_of("Al(OH)(C2H3O2)2", 0, {{Ion::aluminium, 1}, {Ion::hydroxide, 1}, {Ion::acetate, 2}});
}
inline Salt soda_ash() { return salt_of("Na2CO3", 0, {{Ion::sodium, 2}, {Ion::carbonate, 1}}); }
inline Salt soda_crystals() { return salt_of("Na2CO3.10H2O", 10, {{Ion::sodium, 2}, {Ion::carbonate, 1}}); }
inline Salt soda_monohydrate() { return salt_of("Na2CO3.H2O", 1, {{Ion::sodium, 2}, {Ion::carbonate, 1}}); }
inline Salt baking_soda() { return salt_of("NaHCO3", 0, {{Ion::sodium, 1}, {Ion::bicarbonate, 1}}); }
inline Salt potash() { return salt_of("K2CO3", 0, {{Ion::potassium, 2}, {Ion::carbonate, 1}}); }
inline Salt potash_hydrate() { return salt_of("K2CO3.1.5H2O", 1.5, {{Ion::potassium, 2}, {Ion::carbonate, 1}}); }
inline Salt chalk_salt() { return salt_of("CaCO3", 0, {{Ion::calcium, 1}, {Ion::carbonate, 1}}); }
inline Salt slaked_lime() { return salt_of("Ca(OH)2", 0, {{Ion::calcium, 1}, {Ion::hydroxide, 2}}); }

} // namespace lakebound::testing
