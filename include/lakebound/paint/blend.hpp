#pragma once
// Blends: binder demand and CPVC of several pigments and extenders together.
//
// Symbols: x_i share of the pigment mass, v_i share of the pigment volume; q_i, rho_i, c_i demand,
// density and CPVC of one pigment; e_i = 1/c_i - 1 = q_i rho_i its void ratio.
//   additive:  q = sum x_i q_i,  1/rho = sum x_i/rho_i;  the same as e = sum v_i e_i (docs/theory.md)
//   possible:  CPVC by the linear packing model (particle/packing.hpp) with the grain sizes
//   measured:  a rub-out of the blend itself, which overrides both
// The additive rule is the safe default: it never asks for too little binder. The packing model says
// what fine grains in the gaps of coarse ones might save, if every size is known and all is dispersed.
// Sources: additive rule, definition; packing yu-standish-1991, de-larrard-1999 (from memory).

#include <optional>
#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/particle/packing.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What a blend needs to know of one pigment.
struct BlendPigment {
    SpecificVolume demand; ///< q_i, above 0; before the binder index
    MassDensity density;   ///< as weighed, above 0
    std::optional<Length> median_size;
};
/// From a pigment of the shelf; throws DomainError when its density cannot be had as weighed.
[[nodiscard]] BlendPigment blend_pigment(const Pigment& pigment);

/// A rub-out of the blend itself.
struct MeasuredBlend {
    OilAbsorption oil_absorption;
    MassDensity test_oil;
};

enum class DemandSource { additive, measured };

struct Blend {
    MassDensity density;
    std::vector<VolumeFraction> volume_shares;
    SpecificVolume additive_demand;
    CriticalPigmentVolumeConcentration additive_cpvc;
    /// The linear packing model; absent when a size is not known.
    std::optional<SpecificVolume> possible_demand; ///< at most the additive one
    std::optional<CriticalPigmentVolumeConcentration> possible_cpvc;
    std::optional<PackingValidity> validity;
    double possible_saving = 0.0; ///< 1 - possible / additive demand, 0 or more
    /// The demand to reckon with: measured when measured, else additive.
    SpecificVolume demand;
    CriticalPigmentVolumeConcentration cpvc;
    DemandSource source = DemandSource::additive;
};

/// v_i = (x_i/rho_i) / sum x_j/rho_j, and back x_i = v_i rho_i / sum v_j rho_j. Throw DomainError unless
/// there are as many shares as pigments, 1 at least, and the shares sum to 1 within 1e-6.
[[nodiscard]] std::vector<VolumeFraction> volume_shares(std::span<const BlendPigment> pigments,
                                                        std::span<const MassFraction> shares);
[[nodiscard]] std::vector<MassFraction> mass_shares(std::span<const BlendPigment> pigments,
                                                    std::span<const VolumeFraction> shares);

/// The blend by mass shares. Errors as above, and for a demand or density that is not above 0.
[[nodiscard]] Blend blend(std::span<const BlendPigment> pigments, std::span<const MassFraction> shares,
                          const std::optional<MeasuredBlend>& measured = {});
/// The blend by volume shares.
[[nodiscard]] Blend blend(std::span<const BlendPigment> pigments, std::span<const VolumeFraction> shares,
                          const std::optional<MeasuredBlend>& measured = {});

struct ExtenderPoint {
    MassFraction by_mass;
    VolumeFraction by_volume;
    Blend blend;
};
/// Blends of a pigment with 0 to 100 % of an extender by volume, in equal steps, ends included.
/// points: 2 to 10 000, else DomainError.
[[nodiscard]] std::vector<ExtenderPoint> extender_curve(const BlendPigment& pigment, const BlendPigment& extender,
                                                        int points);

struct SizeRatioPoint {
    double ratio; ///< extender size over pigment size
    Blend blend;
};
/// The blend at a fixed share while the extender's grain size goes through `ratios` (each above 0)
/// times the pigment's, which must be known.
[[nodiscard]] std::vector<SizeRatioPoint> size_ratio_curve(const BlendPigment& pigment, const BlendPigment& extender,
                                             VolumeFraction extender_share, std::span<const double> ratios);

} // namespace lakebound
