#pragma once
// Salts: alums, sodas, potashes, chalk and lime, and what one mole of each brings into a bath.
//
// The hydrate is part of the salt: washing soda is not soda ash, and 100 g of it hold 37 g of the other.

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/bath/formula.hpp"
#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/hazard.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Ion {
    sodium, potassium, ammonium, calcium, aluminium, hydroxide, bicarbonate, carbonate, sulphate, chloride, acetate
};
inline constexpr std::size_t ion_count = 11;

/// The ion's formula and charge: "SO4", -2.
struct IonFormula {
    const char* name;    ///< in words, as in a salt's file
    const char* formula;
    int charge;
};
[[nodiscard]] constexpr IonFormula ion_formula(Ion ion) noexcept {
    constexpr std::array<IonFormula, ion_count> table{{{"sodium", "Na", 1},
                                                       {"potassium", "K", 1},
                                                       {"ammonium", "NH4", 1},
                                                       {"calcium", "Ca", 2},
                                                       {"aluminium", "Al", 3},
                                                       {"hydroxide", "OH", -1},
                                                       {"bicarbonate", "HCO3", -1},
                                                       {"carbonate", "CO3", -2},
                                                       {"sulphate", "SO4", -2},
                                                       {"chloride", "Cl", -1},
                                                       {"acetate", "C2H3O2", -1}}};
    return table[static_cast<std::size_t>(ion)];
}

/// Counts of ions, in a formula unit or in a bath (then moles).
struct Ions {
    std::array<double, ion_count> count{};

    constexpr double& operator[](Ion i) noexcept { return count[static_cast<std::size_t>(i)]; }
    constexpr double operator[](Ion i) const noexcept { return count[static_cast<std::size_t>(i)]; }
    constexpr Ions& operator+=(const Ions& other) noexcept {
        for (std::size_t i = 0; i < ion_count; ++i) count[i] += other.count[i];
        return *this;
    }
    friend constexpr Ions operator*(double times, Ions a) noexcept {
        for (double& each : a.count) each *= times;
        return a;
    }
};

[[nodiscard]] double charge_of(const Ions& ions) noexcept;
[[nodiscard]] Atoms atoms_of(const Ions& ions);

/// Most that dissolves, as weighed with its water of crystallisation, per mass of water.
struct Solubility {
    Temperature at;
    double per_water = 0.0; ///< g per g of water
};

struct Salt {
    std::string id{};
    std::string name{};
    std::string formula{};                ///< with its water of crystallisation, as the jar is labelled
    Provenance formula_evidence{};        ///< of the formula
    double hydrate_water = 0.0;           ///< moles of water of crystallisation, 0 for an anhydrous salt
    Ions gives{};                         ///< by one formula unit; no charge is left over
    std::vector<std::string> trade_names{}; ///< a name may belong to several salts: it is then asked about
    std::optional<Estimate<MassDensity>> crystal_density{};
    std::vector<Solubility> solubility{}; ///< by rising temperature; empty when it was not found
    Provenance solubility_evidence{};
    std::vector<Hazard> hazards{};
    std::string note{};
};

/// Whether the ions and the water of crystallisation make up the formula and leave no charge; the reader of a salt's
/// file refuses what does not.
[[nodiscard]] bool is_consistent(const Salt& salt);

/// Of the formula with its water.
[[nodiscard]] MolarMass molar_mass(const Salt& salt);
/// n = m / M. Range: mass 0 or more. Errors: DomainError.
[[nodiscard]] AmountOfSubstance amount_of(const Salt& salt, Mass mass);
/// m = n M.
[[nodiscard]] Mass mass_of(const Salt& salt, AmountOfSubstance amount);
/// Moles of each ion that the mass brings.
[[nodiscard]] Ions ions_of(const Salt& salt, Mass mass);
/// Share of the mass that is water of crystallisation.
[[nodiscard]] MassFraction hydrate_share(const Salt& salt);

/// Base that one mole brings, in moles of hydroxide: carbonate 2, bicarbonate 1, hydroxide 1 (carbon dioxide leaves).
[[nodiscard]] double base_per_mole(const Salt& salt) noexcept;
/// An aluminium salt brings aluminium; an alkali base without aluminium.
[[nodiscard]] bool is_aluminium_salt(const Salt& salt) noexcept;
[[nodiscard]] bool is_alkali(const Salt& salt) noexcept;

/// Most of the salt per mass of water at the temperature, between the two nearest points in a straight line.
/// Nothing outside the points or without any.
[[nodiscard]] std::optional<double> solubility_at(const Salt& salt, Temperature at) noexcept;

} // namespace lakebound
