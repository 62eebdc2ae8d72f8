#pragma once
// Levigation: stir, wait, pour off the top, refill; what each pour-off recovers, size by size.
//
// The column is evenly stirred before each wait. Depth, density and temperature make the time; a time
// without a depth means nothing.

#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/settling.hpp"
#include "lakebound/particle/size_distribution.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One way to pour off: the same wait and the same draw line each time.
struct PourOff {
    Length total_depth; ///< H, liquid in the vessel
    Length draw_depth;  ///< h, poured off from the top; at most H
    Time wait;          ///< from the end of stirring to the pour; 0 pours at once
    unsigned pours = 1; ///< n, with a refill before each but the first
};

/// What falls, in what.
struct Slurry {
    MassDensity grain; ///< effective density of the grains
    Fluid fluid;
    VolumeFraction solids; ///< of the stirred column; held constant, which is safe as it thins with each pour
};

/// Dry powder that fills a share of a stirred volume:
///   m = phi V rho_s (rho_g - rho_w) / (rho_s - rho_w)
/// with rho_s the density of the solid, rho_g of the grains as they sink (an open clump holds water) and
/// rho_w of the liquid. Range: rho_s at least rho_g, rho_g above rho_w. Errors: DomainError. Source: mass
/// balance of a grain and the liquid in it.
[[nodiscard]] Mass powder_in_volume(Volume stirred, MassDensity solid, const Slurry& slurry);

/// Share of the grains of one size that n pour-offs carry over:
///   once = max(0, (h - v wait) / H), which is (h/H)(1 - (d/d_cut)^2) under Stokes; all = 1 - (1 - once)^n
/// Range: 0 < h <= H, wait 0 or more, n 1 to 1000. Errors: DomainError; as terminal_velocity.
/// Source: geometry of an evenly stirred column.
[[nodiscard]] double pour_off_recovery(Length diameter, const PourOff& how, const Slurry& slurry);

/// The least number of pour-offs that carry over a share of the grains of one size.
/// Range: share 0 to below 1. Errors: DomainError when the size is not below the cut, or needs over 1000.
[[nodiscard]] unsigned pours_for_recovery(Length diameter, double share, PourOff how, const Slurry& slurry);

/// Grains between two sizes and their share of the mass, spread evenly over ln d.
struct SizeClass {
    Length lower, upper;
    MassFraction share;
};
/// The classes of a passing curve, fine to coarse. `finest` and `top` bound the two open ends and are
/// assumptions of the caller. Errors: DomainError unless 0 < finest < first size and top > last size.
[[nodiscard]] std::vector<SizeClass> size_classes(const PassingCurve& curve, Length finest, Length top);

struct LevigatedClass {
    SizeClass of;
    double poured = 0.0; ///< share of the whole charge, from this class, in the poured water
    double left = 0.0;   ///< and in the vessel; poured + left = share
};
struct Levigated {
    std::vector<LevigatedClass> classes;
    double poured = 0.0, left = 0.0; ///< totals; they add up to the charge
    Length cut;                      ///< above it nothing is poured off; 0 when wait is 0
};
/// Pour-offs applied to a set of classes, each integrated over ln d. Range and errors: as above.
[[nodiscard]] Levigated levigate(std::span<const SizeClass> classes, const PourOff& how, const Slurry& slurry);

/// The masses of a charge that were poured off and left.
struct LevigatedMasses {
    Mass poured, left;
};
[[nodiscard]] inline LevigatedMasses masses_of(const Levigated& result, Mass charge) {
    return {result.poured * charge, result.left * charge};
}

/// Share of the poured (or left) grains below a size. Errors: DomainError when nothing was poured (left).
[[nodiscard]] double poured_passing(const Levigated& result, Length size);
[[nodiscard]] double left_passing(const Levigated& result, Length size);

/// Minutes of hands at each step.
struct LevigationHandling {
    Time fill_and_stir; ///< before each wait
    Time pour;          ///< after it
};
struct PourStep {
    unsigned number = 1;
    Time stirred; ///< wait begins, counted from the first fill
    Time pour;    ///< pour off now
};
struct LevigationPlan {
    PourOff how;
    std::vector<PourStep> steps;
    Time elapsed; ///< to the end of the last pour
    Time hands;   ///< of which with hands on
};
/// The wait that lets grains of `cut` fall past the draw line, and the clock of n pour-offs.
/// Range: cut of finest_cut_micrometres or more. Errors: DomainError; as settling_time, pour_off_recovery.
[[nodiscard]] LevigationPlan plan_levigation(Length cut, Length total_depth, Length draw_depth, unsigned pours,
                                             const Slurry& slurry, const LevigationHandling& handling);

} // namespace lakebound
