#pragma once
// Layers: fat over lean, judged by the volume of oil in the dry film and never by its mass.
//
//   oil volume fraction f = V_o / (V_o + V_p) = 1 - PVC      oil mass fraction w = m_o / (m_o + m_p)
// A later layer should hold at least as large a share of oil as the one below, or it cures first and
// cracks over the softer film. Argument by volume: oil-by-volume (published, secondary). Lead white
// and ultramarine paint differ by a factor of 2.3 in w and are equal in f.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct OilShare {
    MassFraction by_mass;
    VolumeFraction by_volume;
};

/// A paint of pigment and oil. Named where it is given, since the two turned round would go unseen.
struct PigmentInOil {
    Mass pigment;
    MassDensity pigment_density;
    Mass oil;
    MassDensity oil_density;
};
/// Oil in it. Throws DomainError unless masses are 0 or more with a sum above 0 and densities above 0.
[[nodiscard]] OilShare oil_share(const PigmentInOil& paint);

/// f = 1 - PVC.
[[nodiscard]] constexpr VolumeFraction oil_volume_fraction(PigmentVolumeConcentration pvc) noexcept {
    return VolumeFraction::from_proven(1.0 - pvc.value());
}

/// Positions of the paints from the leanest to the fattest: the order to lay them, from the ground up.
/// Paints of equal share keep their order.
[[nodiscard]] std::vector<std::size_t> lean_to_fat(std::span<const VolumeFraction> oil_volume);

/// A layer that is leaner than one below it.
struct LeanOverFat {
    std::size_t upper, lower; ///< positions from the ground up; lower is the fattest layer below upper
    double difference;        ///< f of lower minus f of upper, above 0
};

/// The layers, given from the ground up, that lie leaner than the fattest layer beneath them by more
/// than `tolerance`, how well a home-weighed paint is known (NoticeFrom::layers_alike). Empty when all is well.
[[nodiscard]] std::vector<LeanOverFat> lean_over_fat(std::span<const VolumeFraction> from_the_ground_up,
                                       double tolerance);

} // namespace lakebound
