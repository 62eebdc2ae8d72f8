#pragma once
// Sorption: the water that gum, glycerol and sugars hold in equilibrium with the room's air.
//
//   a = RH, the water activity at equilibrium
//   gum (GAB):  m_w/m_dry = M0 C K a / ((1 - K a)(1 - K a + C K a)),  M0 0.0846 g/g at 30 degC
//               (acacia-sorption, published), C 10 (assumed, estimate), K 0.82 (computed: fitted to the
//               published 33.6 % at 92.3 % RH)
//   glycerol, sugars (Norrish): a = x_w exp(K_n x_s^2), x mole fractions of water and solute;
//               glycerol K_n -1.16, 92.094 g/mol; sugars as glucose-like K_n -2.25, 180.16 g/mol
//               (form norrish-1966 as evaluated by baeza-2010; constants from memory, chirife-1982)
// The waters of the parts are added as if each were alone, which real mixtures keep only roughly
// (estimate; take 15 % on the total). Proteins and yolk hold water too, which is not modelled.
// Valid from 0 to 92.5 % RH, where the isotherm of the gum was last seen (33.6 % at 92.3 %); above that all
// three run away, and the functions refuse.
// Temperature: constants near 25 to 30 degC, used for rooms of 15 to 35 degC.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"

namespace LAKEBOUND_EXPORT lakebound {

inline constexpr double gum_monolayer = 0.0846; ///< M0, g water per g dry gum (published, acacia-sorption)
inline constexpr double gum_gab_c = 10.0;       ///< C (estimate)
inline constexpr double gum_gab_k = 0.82;       ///< K (computed, as above)
inline constexpr double highest_sorption_humidity = 0.925; ///< the isotherm's last (published, acacia-sorption)

/// Grams of water held by one gram of dry gum arabic. Throws DomainError above 92.5 % RH.
[[nodiscard]] double water_per_dry_gum(RelativeHumidity humidity);
/// Grams of water held by one gram of glycerol; solved by bisection to 1e-12. Throws as above.
[[nodiscard]] double water_per_glycerol(RelativeHumidity humidity);
/// Grams of water held by one gram of sugar solids (honey, glucose, sucrose). Throws as above.
[[nodiscard]] double water_per_sugar(RelativeHumidity humidity);

/// Water activity of a glycerol or sugar solution, g water per g solute 0 or more: Norrish.
[[nodiscard]] double water_activity_over_glycerol(double water_per_solute);
[[nodiscard]] double water_activity_over_sugar(double water_per_solute);

/// What of a dry binder takes up water. Masses dry, volumes of what they are as solids.
struct SorbingBinder {
    Mass gum, glycerol, sugar;
    Volume glycerol_and_sugar; ///< V_s, the plasticisers' volume
    Volume dry_binder;         ///< V_b, everything that counts as binder, the above included
};

struct BinderAtHumidity {
    Mass gum_water, glycerol_water, sugar_water;
    Mass water;                ///< the sum
    Volume water_volume;       ///< V_w, the sum as liquid water (water_density)
    Volume swollen_binder;     ///< V_b + V_w
    VolumeFraction soft_share; ///< s = (V_s + V_w) / (V_b + V_w)
};

/// The binder in equilibrium with the room. Throws DomainError above 92.5 % RH, for a negative mass or
/// volume, and when dry_binder is not above 0 or less than the plasticisers' volume.
[[nodiscard]] BinderAtHumidity binder_at_humidity(const SorbingBinder& binder, RelativeHumidity humidity);

/// PVC with the water that the binder holds in the room: V_p / (V_p + V_b + V_w). Below the nominal
/// PVC, which leaves water out. Throws DomainError when the sum is not above 0.
[[nodiscard]] PigmentVolumeConcentration pvc_at_humidity(Volume pigment, const BinderAtHumidity& binder);

/// Where a gum pan changes its ways, by its soft share; rising. The figures are the family's, on the shelf. The
/// initial limits ask for nothing.
struct SoftShareLimits {
    VolumeFraction brittle_below, good_from;
    VolumeFraction good_to = VolumeFraction::from_proven(1.0), soft_to = good_to, sets_to = good_to;
};

/// How a gum film or pan of that soft share behaves.
enum class SoftPhase { brittle, firm, good, soft, sticky, never_sets };
[[nodiscard]] SoftPhase soft_phase(VolumeFraction soft_share, const SoftShareLimits& limits) noexcept;

/// Share of its plasticisers that a binder may keep so that its soft share comes down to `aim` in that room:
///   t = (a G - (1 - a) W_g) / ((1 - a) (S + W_s)),
/// a the aim, G and S dry volumes of all but the plasticisers and of the plasticisers, W_g and W_s the water
/// that the two hold. 1 where it is low enough already; absent where it would be too soft without any.
/// Throws DomainError as binder_at_humidity does, and for an aim of 1.
[[nodiscard]] std::optional<Share> plasticiser_to_keep(const SorbingBinder& binder, RelativeHumidity humidity,
                                         VolumeFraction aim);

} // namespace lakebound
