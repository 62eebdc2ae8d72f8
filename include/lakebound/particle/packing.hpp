#pragma once
// Packing of grains: random close packing, the binary limit, and the linear packing model.
//
// The paint room asks how much binder a blend of coarse and fine pigments can save. The additive rule
// is the safe answer (no saving); the linear packing model is the possible one.

#include <span>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Random close packing of equal spheres in experiments and simulations, published range.
/// Source: elliott-2002.
inline constexpr double random_close_packing_low = 0.60, random_close_packing_high = 0.64;
/// Densest packing of equal spheres, pi / (3 sqrt 2). Source: geometry.
inline constexpr double densest_packing = 0.74048048969306104;

/// Random close packing of spheres with relative standard deviation delta and skewness S of diameter:
///   phi = 0.634 + 0.0658 delta + 0.0857 S delta^2
/// Range: delta 0 to 0.5, S -1 to 2. Errors: DomainError. Source: desmond-weeks-2014 (value from memory).
[[nodiscard]] VolumeFraction random_close_packing(double delta, double skewness);

/// Furnas' limit of coarse and infinitely finer spheres, each packing at f.
struct BinaryLimit {
    VolumeFraction packing;      ///< f + f (1 - f)
    VolumeFraction coarse_share; ///< 1 / (2 - f), the share of the solids that is coarse at the best point
};
/// Range: f above 0 and below 1. Errors: DomainError. Source: furnas-1931.
[[nodiscard]] BinaryLimit furnas_binary_limit(VolumeFraction f);

/// One pigment of a blend.
struct PackingClass {
    VolumeFraction packing;      ///< beta: how it packs alone; for paint, its CPVC
    Length diameter;             ///< its usual grain size
    VolumeFraction volume_share; ///< y: share of the volume of all solids
};

/// How sure the linear packing model may be taken.
enum class PackingValidity {
    holds,      ///< every size ratio and every size lies where the model was made for
    near_equal, ///< all sizes within a factor 1.5: nothing to gain, and sizes are not known that well
    colloidal,  ///< a class below 1 um: surface forces rule and the gain may not come
};

struct LinearPacking {
    VolumeFraction packing;   ///< of the blend; never below `additive`
    VolumeFraction additive;  ///< 1 / sum(y_i / beta_i): no interaction between sizes
    std::size_t dominant = 0; ///< index of the class that jams first
    PackingValidity validity = PackingValidity::holds;
};

/// Packing of a blend by volumes alone: 1/phi = sum y_i / beta_i, that is, void ratios add by volume.
/// Errors: as linear_packing. Source: definition; equal to mass-averaged oil absorption.
[[nodiscard]] VolumeFraction additive_packing_fraction(std::span<const PackingClass> classes);

/// Linear packing model. For each class i as the one that jams,
///   g_i = beta_i / (1 - sum_{j coarser} [1 - beta_i + b beta_i (1 - 1/beta_j)] y_j
///                     - sum_{j finer}   [1 - a beta_i / beta_j] y_j),
///   a = sqrt(1 - (1 - r)^1.02), b = 1 - (1 - r)^1.5, r = finer diameter / coarser diameter,
/// and the blend packs at the least g_i. Equal sizes give the additive rule, r -> 0 gives Furnas.
/// Range: beta above 0 and below 1, diameters above 0, shares adding up to 1 within 1e-6. Dispersed
/// pigments only; a measured oil absorption of the blend overrides it.
/// Errors: DomainError. Source: yu-standish-1991 with the coefficients of de-larrard-1999 (value from memory).
[[nodiscard]] LinearPacking linear_packing_fraction(std::span<const PackingClass> classes);

} // namespace lakebound
