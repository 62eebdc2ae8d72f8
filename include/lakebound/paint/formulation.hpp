#pragma once
// Formulation: the composition of a paint per unit mass of pigment, from its recipe and its aim.
//
// Symbols as in pvc.hpp, and: M medium per pigment (g/g); a_i additive per pigment; v_b, v_i dry binder
// volume per mass of medium and additive; W working water per pigment. The additives are dosed
//   of medium   a_i = d_i M      of pigment  a_i = d_i
//   of paint    a_i = d_i (1 + M + W + all additives)
// so every a_i = alpha_i + beta_i M and the aim is met exactly by
//   M = (k q/e - sum alpha_i v_i) / (v_b + sum beta_i v_i).
// Additives that stay in the film (oil, wax, soap, gum, ...) are binder volume like any other.

#include <optional>
#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/medium_properties.hpp"
#include "lakebound/material/sorption.hpp"
#include "lakebound/paint/pigment_mixture.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The dry film a composition leaves.
struct FilmState {
    BinderSufficiency k;
    PigmentVolumeConcentration pvc;
    CriticalPigmentVolumeConcentration cpvc; ///< with the binder index of the family
    ReducedPigmentVolumeConcentration reduced_pvc;
    VolumeFraction porosity; ///< air in the film; 0 at and below the CPVC
};

/// Masses as supplied of all that goes on the slab, in the order of the recipe.
struct Composition {
    std::vector<Mass> pigments;
    std::vector<Mass> medium_parts;
    std::vector<Mass> additives;
    Mass working_water;
};

/// A drop of water, 20 to the mL (common practice, no source): less of a volume is not worth telling.
inline constexpr Volume drop_of_water = millilitres(0.05);
/// A film that loses less is as thick as it was, for hand and eye (estimate).
inline constexpr Share seen_shrinkage = Share::from_proven(0.005);

struct PaintVolumes {
    Volume pigment;    ///< V_p
    Volume dry_binder; ///< V_b
    Volume wet;        ///< all that goes on the slab
    Volume dry;        ///< V_p + V_b, bone dry
    Volume held_water; ///< that gum and plasticiser hold in the room's air; 0 where no humidity is given
    Volume cake;       ///< dry + held_water: what a dried pan holds
    VolumeFraction dry_fraction; ///< r = cake / wet
    Share shrinkage;             ///< 1 - r

    /// Of what a dried pan holds, the water that does not leave.
    VolumeFraction water_share() const { return VolumeFraction::of(held_water / cake); }
    /// Whether it is worth telling.
    bool holds_water() const { return held_water >= drop_of_water; }
    bool shrinks() const { return shrinkage > seen_shrinkage; }
};

struct Formulation {
    PigmentMixture pigment;          ///< q and rho_p
    SpecificVolume effective_demand; ///< q / e
    MediumProperties medium;
    BinderSufficiency k;                  ///< asked for, or what the medium per pigment gives
    MediumPerPigment medium_per_pigment;  ///< M
    SpecificVolume binder_from_medium;    ///< M v_b, per mass of pigment
    SpecificVolume binder_from_additives; ///< sum a_i v_i
};

/// k that an aim asks for, c being the CPVC with the binder index. Not for MediumPerPigment: DomainError.
[[nodiscard]] BinderSufficiency sufficiency_for(const Aim& aim, CriticalPigmentVolumeConcentration c);

/// Aim of the recipe: its own, or the start of its family.
[[nodiscard]] Aim aim_of(const Recipe& recipe);

/// Composition per unit mass of pigment that meets the aim. Throws DomainError for a recipe that does
/// not add up (shares, doses), a medium that does not fit the family or is without binder, a powder too damp
/// for oil, or additives that bring more than the aim.
[[nodiscard]] Formulation formulate(const Recipe& recipe, const Aim& aim);

/// The formulation scaled to a total pigment mass, 0 or more.
[[nodiscard]] Composition compose(const Recipe& recipe, const Formulation& formulation, Mass pigment);

/// Water beyond the air-dry state in the powders of a composition: weighed with them, no pigment.
[[nodiscard]] Mass excess_water(const Recipe& recipe, const Composition& composition);
[[nodiscard]] Mass total_pigment(const Composition& composition);
[[nodiscard]] Mass total_medium(const Composition& composition);
[[nodiscard]] Mass total_mass(const Composition& composition);

/// Calls visit(ingredient, mass) for every part of the medium and every additive.
template <class Visit> void each_ingredient(const Recipe& recipe, const Composition& composition, Visit visit) {
    for (std::size_t i = 0; i < composition.medium_parts.size(); ++i)
        visit(recipe.medium.parts.at(i).ingredient, composition.medium_parts[i]);
    for (std::size_t i = 0; i < composition.additives.size(); ++i)
        visit(recipe.additives.at(i).ingredient, composition.additives[i]);
}

/// What of the dry binder takes up water, each part as it says (`sorption_of`).
[[nodiscard]] SorbingBinder sorbing_binder(const Recipe& recipe, const Composition& composition, Volume dry_binder);

/// Volumes of a composition, the cake in equilibrium with a room of that humidity (material/sorption.hpp).
/// Throws DomainError unless it holds something, and above 92.5 % RH.
[[nodiscard]] PaintVolumes paint_volumes(const Recipe& recipe, const Composition& composition,
                                         std::optional<RelativeHumidity> humidity = std::nullopt);
/// One pigment of a film, all at one moisture.
struct PigmentInFilm {
    Mass mass;
    MassDensity density;
    SpecificVolume demand; ///< q = OA / rho_o
};
/// The film of some pigments and a dry binder volume. Throws DomainError unless the pigment mass,
/// demands and densities are above 0.
[[nodiscard]] FilmState film_state(std::span<const PigmentInFilm> pigments, Volume dry_binder, BinderIndex index);
/// The film that a composition leaves, as weighed out. Throws DomainError without pigment.
[[nodiscard]] FilmState film_state(const Recipe& recipe, const Composition& composition);

} // namespace lakebound
