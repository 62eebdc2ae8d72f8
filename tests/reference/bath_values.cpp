// Prints what bath_check.py works out again: molar masses of formulas, the titration curve of a whole bath with its
// solids and gases, and how long 200 points took.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

#include "bath/salts.hpp"
#include "lakebound/bath/titration.hpp"

using namespace lakebound;
using namespace lakebound::testing;

int main() {
    for (const char* formula :
         {"KAl(SO4)2.12H2O", "NH4Al(SO4)2.12H2O", "NaAl(SO4)2.12H2O", "Al2(SO4)3", "Al2(SO4)3.14H2O", "Al2(SO4)3.16H2O",
          "Al2(SO4)3.18H2O", "AlCl3.6H2O", "Al(C2H3O2)3", "Na2CO3", "Na2CO3.H2O", "Na2CO3.10H2O", "NaHCO3", "K2CO3",
          "K2CO3.1.5H2O", "KHCO3", "CaCO3", "Ca(OH)2", "NaOH", "Al(OH)3", "Al4(OH)10SO4", "K2SO4", "Na2SO4"})
        std::printf("mass %s %.17g\n", formula, in_grams_per_mole(molar_mass(atoms_of(formula))));
    const Titration bath{potash_alum(), grams(50), litres(1.4), soda_ash(), millilitres_per_gram(10)};
    const struct { const char* name; CarbonDioxide gas; } gases[] = {
        {"air", open_to_air()}, {"stirred", stirred()}, {"fizzing", fizzing()}, {"closed", closed_jar()}};
    for (const LakeSolid solid : {LakeSolid::hydroxide, LakeSolid::basic_sulphate})
        for (const auto& [name, gas] : gases)
            for (const double soda : {2.0, 8.0, 13.0, 14.5, 16.0, 17.5, 25.0}) {
                const auto rest = after_alkali(bath, grams(soda), solid, gas);
                std::printf("bath %s %s %.17g %.17g %.17g %.17g %.17g\n",
                            solid == LakeSolid::hydroxide ? "hydroxide" : "basic", name, soda, rest.ph.value(), rest.laid.value(),
                            rest.ionic_strength, in_moles(rest.carbon_held));
            }
    std::vector<TitrationPoint> curve;
    double took = 1e9; // best of several, as the other side has it
    for (int turn = 0; turn < 20; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        curve = titration_curve(bath, LakeSolid::hydroxide, stirred(), 3.6, 200);
        took = std::min(took, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    for (const auto& point : curve)
        std::printf("curve %.17g %.17g\n", in_grams(point.alkali), point.ph ? point.ph->value() : 0.0);
    std::printf("time %.6g\n", took);
}
