#pragma once
// Rescue: what to add to a batch that chalks, is glossy or stays sticky, to bring it back to its aim.
//
//   chalky:  dV_b = k_aim m_p q - V_b, as medium m = dV_b / v_b
//   glossy:  dm_p = V_b / (k_aim q) - m_p
//   sticky:  dry gum x, the more of what k asks for and what lowers the soft-phase share to s at the room's humidity,
//            x = (S - s B) / (s (1/rho_g + w/rho_w) - w/rho_w),  S = V_s + V_w, B = V_b + V_w, w water
//            per gram of gum; it adds binder, so pigment follows to hold k. Where k is short of its aim the gum
//            makes that up too: medium would bring the softness back
// q: effective demand; v_b: dry binder per mass of medium. Mass balances on pvc.hpp, no other source.
// A rescue followed by a check returns the aim exactly, when the jar holds enough.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/material/sorption.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What is on the slab or in the pan, dry volumes.
struct PaintOnSlab {
    Mass pigment;                               ///< above 0
    SpecificVolume demand;                      ///< effective, q / e, above 0
    Volume dry_binder;                          ///< 0 or more
    std::optional<MassDensity> pigment_density; ///< only for volumes
};

/// The medium that a rescue adds.
struct RescueMedium {
    SpecificVolume dry_binder; ///< v_b, above 0
    MassDensity density;       ///< as poured, above 0
};

/// Pigment that is left for a rescue: the jar and what of it is to be kept back.
struct JarLeft {
    Mass mass;
    Mass reserve;
};

enum class RescueAction { none, add_medium, add_pigment };
template <> struct WordTable<RescueAction> {
    static constexpr WordRow<RescueAction> rows[] = {{RescueAction::none, "none"},
                                                     {RescueAction::add_medium, "add medium"},
                                                     {RescueAction::add_pigment, "add pigment"}};
};

struct Rescue {
    RescueAction action = RescueAction::none;
    BinderSufficiency before, after; ///< after: as reached, the aim when the jar holds enough
    Mass medium;
    Volume medium_volume;
    Mass pigment; ///< to add, at most what the jar can give
    bool jar_holds_enough = true;
    Mass pigment_short;                          ///< missing from the jar, 0 when it holds enough
    PaintOnSlab paint;                           ///< after the rescue
    std::optional<Volume> dry_before, dry_after; ///< V_p + V_b, when the pigment density is known
};

/// Nearer to its aim than this, or than this share of an aim below 1, a paint is at it: k is told to a hundredth,
/// and no bench makes it finer (estimate).
inline constexpr double k_told_apart = 0.005;

/// Brings the batch to k_aim; nothing is added where it is there already (k_told_apart). Without `jar` the pigment is taken to be at hand.
/// Throws DomainError for an aim that is not above 0, a paint or a medium out of range.
[[nodiscard]] Rescue rescue(const PaintOnSlab& paint, BinderSufficiency aim, const RescueMedium& medium,
                            const std::optional<JarLeft>& jar = {});

struct StickyRescue {
    VolumeFraction soft_before, soft_after; ///< at the room's humidity
    Mass dry_gum;                           ///< to dissolve in as little water as will do
    Mass gum_as_is;                         ///< the same with its moisture
    SorbingBinder binder;                   ///< after the gum
    BinderSufficiency k_after_gum;
    Rescue pigment; ///< what brings k back to its aim after the gum
};

/// Lowers the soft-phase share to `soft_aim` by gum and brings k to its aim, by more gum or by pigment: one
/// plan, in that order. No gum is added when the share is already at or below it; k is then brought to its aim
/// as `rescue` does. binder.dry_binder must equal paint.dry_binder (1e-9).
/// Throws DomainError when no gum can do it: at that humidity gum itself is softer than the aim.
[[nodiscard]] StickyRescue rescue_sticky(const PaintOnSlab& paint, const SorbingBinder& binder, RelativeHumidity humidity,
                                         VolumeFraction soft_aim, BinderSufficiency k_aim, MassDensity gum_density,
                                         MassFraction gum_moisture, const RescueMedium& medium,
                                         const std::optional<JarLeft>& jar = {});

} // namespace lakebound
