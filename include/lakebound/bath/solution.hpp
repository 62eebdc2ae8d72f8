#pragma once
// Solutions of salts: how strong on which basis, how dense, and whether that much dissolves.
//
// "10 %" means three things: 10 g in 100 g of solution (w/w), in 100 mL of solution (w/v), or to 100 mL of water.
// For 10 g of soda ash they differ by a tenth, and each is of the salt as weighed: its hydrate belongs to it.
// Density: rho = 1 / (w_water / rho_water + sum w_i / rho_i) with the apparent density of each dissolved salt
//   rho_i = (c0 s + c1) / (s + c2 + c3 t) * exp(1e-6 (t + c4)^2), s solute per mass of solution, t in degC.
// Source: laliberte-cooper-2004; coefficients as published in 2009 (laliberte-2009), read in a public copy.
// Departs from it: water by particle/water.hpp, within 0.03 kg/m3 of the authors' own formula.
// Range: 15 to 55 degC, where every solute's figures hold. Accuracy: 0.1 % for one salt; alums as the sum of two
// sulphates, 0.3 % (estimate).

#include <optional>
#include <vector>

#include "lakebound/bath/salt.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/basis.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What a salt of the bath is in water, without its water of crystallisation.
enum class Solute {
    sodium_carbonate, potassium_carbonate, sodium_bicarbonate, sodium_hydroxide, sodium_sulphate, potassium_sulphate,
    ammonium_sulphate, aluminium_sulphate, aluminium_chloride, sodium_chloride
};
inline constexpr Solute all_solutes[] = {
    Solute::sodium_carbonate, Solute::potassium_carbonate, Solute::sodium_bicarbonate, Solute::sodium_hydroxide,
    Solute::sodium_sulphate,  Solute::potassium_sulphate,  Solute::ammonium_sulphate,  Solute::aluminium_sulphate,
    Solute::aluminium_chloride, Solute::sodium_chloride};

struct SoluteShare {
    Solute solute = Solute::sodium_sulphate;
    MassFraction share; ///< per mass of solution, anhydrous
};

/// Density of water with these solutes. Range: shares sum below 0.3, 15 to 55 degC. Errors: DomainError.
[[nodiscard]] MassDensity solution_density(const std::vector<SoluteShare>& solutes, Temperature at);

/// A gram of the salt as dissolved solutes; nothing for a salt whose solutes have no published density.
[[nodiscard]] std::optional<std::vector<SoluteShare>> solutes_of(const Salt& salt);

/// Density of a solution of the salt, strength of the hydrate by mass. Nothing for a salt without figures.
/// Errors: DomainError, as above.
[[nodiscard]] std::optional<MassDensity> solution_density(const Salt& salt, MassFraction strength, Temperature at);

/// How strong a solution is meant to be, by its basis.
enum class StrengthBasis { by_mass, by_volume, per_water };
struct Strength {
    double value = 0.0; ///< 0.10: g per g of solution, g per mL of solution, g per mL of water
    StrengthBasis basis = StrengthBasis::by_volume;
};

/// What to weigh and pour for a solution.
struct MadeUp {
    Mass salt;
    Mass water;
    Volume volume;        ///< of the solution
    MassFraction by_mass; ///< the same strength as w/w
    MassDensity density;

    /// Of the solution that holds a mass of the salt.
    SpecificVolume volume_per_salt() const { return volume / salt; }
};

/// The solution that holds a mass of the salt at a strength. Range: strength above 0; the solution below half salt.
/// Errors: DomainError; without a density for the salt a strength by volume or water is refused.
[[nodiscard]] MadeUp made_up(const Salt& salt, Mass mass, const Strength& strength, Temperature at);

/// The salt in a volume of solution. Errors: as made_up.
[[nodiscard]] Mass salt_in(const Salt& salt, Volume solution, const Strength& strength, Temperature at);

/// Whether that strength dissolves at the temperature; nothing when it is not known.
[[nodiscard]] std::optional<bool> dissolves(const Salt& salt, MassFraction by_mass, Temperature at) noexcept;

} // namespace lakebound
