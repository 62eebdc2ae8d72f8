#pragma once
// Filling: how many vessels a batch fills, what goes into each, and in how many pours.
//
// Symbols: F fill (share of the capacity), r = cake/wet volume of the paint.
//   pours filled to the brim each time   n = ln(1-F) / ln(1-r)
//   pours of a third of the vessel       n = F / (r/3)
// Derived in docs/theory.md: a brim pour leaves r of the space it fills. A pan is filled by its dry cake.

#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/paint/formulation.hpp"
#include "lakebound/paint/vessel.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct Pours {
    double brim_exact = 0.0, thirds_exact = 0.0;
    std::optional<int> brim; ///< whole pours; absent when F is 1, which brim pours never reach
    int thirds = 0;
};

struct Filling {
    Vessel vessel;
    int vessels = 0; ///< filled whole, after the loss
    double vessels_exact = 0.0;
    Volume paint_per_vessel; ///< F x capacity, wet or dry as the vessel is filled by
    Volume wet_per_vessel;   ///< wet paint that goes into one, all pours together
    Mass pigment_per_vessel;
    Volume headspace;           ///< capacity that stays empty
    Volume wet_left_over;       ///< after the whole vessels, before they are opened again
    std::optional<Pours> pours; ///< only where the dry volume fills

    /// Paint after the whole vessels that is worth telling.
    bool leaves_some() const { return wet_left_over >= drop_of_water; }
};

/// Number of pours. Throws DomainError unless 0 < F <= 1 and 0 < r < 1, and for 1e9 pours or more.
[[nodiscard]] Pours pours(Share fill, VolumeFraction dry_fraction);

/// Pigment in one vessel filled with a paint of which `volumes` hold `pigment`.
/// Throws DomainError for a vessel without capacity or fill.
[[nodiscard]] Mass pigment_per_vessel(const Vessel& vessel, const PaintVolumes& volumes, Mass pigment);

/// Pigment of a batch, and what of it survives the slab. Named where they are given, since the two turned round would
/// go unseen.
struct BatchPigment {
    Mass weighed, kept;
};
/// Filling of vessels by a batch. Throws DomainError for one without pigment, a negative `kept`, and 1e9 vessels or more.
[[nodiscard]] Filling fill_vessels(const Vessel& vessel, const PaintVolumes& volumes, const BatchPigment& pigment);

} // namespace lakebound
