#pragma once
// What a medium brings to the paint: its density as mixed, and what of it stays in the dry film.
//
// Symbols: m mass as supplied; n non-volatile mass fraction; rho_s density of what stays;
//   v_b dry binder volume per mass of medium = sum w_i n_i / rho_s,i over the parts that count as binder
//   P   plasticiser ratio = mass of plasticiser solids / mass of dry gum
// A dry powder dissolves: mixed, it takes n/rho_s + (1-n)/rho_water per mass, not its bulk volume.
// Ideal volumes; real solutions shrink by a per cent or so.

#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/medium.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// True for what is measured out as a dry powder: it has a bulk density, or is a gum, protein, wax or
/// salt of which 70 % or more stays. A trade rule of this library.
[[nodiscard]] bool is_powder(const Ingredient& ingredient);
/// True for what pours, and so can be measured by syringe.
[[nodiscard]] bool is_liquid(const Ingredient& ingredient);

/// n m: the mass that stays in the dry film.
[[nodiscard]] Mass non_volatile_mass(const Ingredient& ingredient, Mass as_supplied);
/// n m / rho_s when the ingredient counts as binder, else 0. Throws DomainError when something stays
/// and its density is not given.
[[nodiscard]] Volume dry_binder_volume(const Ingredient& ingredient, Mass as_supplied);
/// Volume that the ingredient adds to a wet mixture.
[[nodiscard]] Volume mixed_volume(const Ingredient& ingredient, Mass as_supplied);
/// Water in the ingredient: its volatile part, unless that is solvent.
[[nodiscard]] Mass water_mass(const Ingredient& ingredient, Mass as_supplied);

struct MediumProperties {
    std::vector<MassFraction> parts;         ///< mass fraction of every part, in the order of the medium
    MassDensity density;                     ///< as mixed
    MassFraction non_volatile;               ///< all that stays, whether binder or not
    MassFraction water;                      ///< all that leaves as water
    SpecificVolume dry_binder;               ///< v_b
    VolumeFraction dry_binder_share;         ///< x = v_b rho: dry binder per volume of medium as poured
    std::optional<double> plasticiser_ratio; ///< P, g solids per g dry gum; absent without gum
    VolumeFraction gum_share;                ///< of the dry binder volume
    VolumeFraction plasticiser_share;        ///< of the dry binder volume
    VolumeFraction yolk_volume_share;        ///< of the medium as mixed: emulsion as supplied
};

/// Mass fraction of every part. Parts by volume become masses through the bulk density of a powder
/// and the density of a liquid. Throws DomainError when there is no part, a part is not above 0, or a
/// powder by volume has no bulk density.
[[nodiscard]] std::vector<MassFraction> part_mass_fractions(const Medium& medium);

/// All of the above. Throws as part_mass_fractions and dry_binder_volume do.
[[nodiscard]] MediumProperties medium_properties(const Medium& medium);

} // namespace lakebound
