#pragma once
// Instruments: what a scale or a syringe of the bench can do with one mass or volume.
//
// A net reading on a scale of step d has the standard uncertainty s = max(repeatability, 0.41 d), the
// 0.41 d for two readings rounded to d (sqrt(2/12)). Smallest mass to a tolerance t, coverage factor 2:
//   m_min = 2 s / t.    Source: usp-41 (general chapter on balances), as read in an excerpt.

#include <cstddef>
#include <optional>

#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// s = max(repeatability, 0.41 step). Throws DomainError unless the step is above 0.
[[nodiscard]] Mass standard_uncertainty(const Scale& scale);
/// m_min = 2 s / tolerance. Throws DomainError unless the tolerance is above 0.
[[nodiscard]] Mass minimum_mass(const Scale& scale, Share tolerance);
/// Mass to the nearest step of the scale.
[[nodiscard]] Mass rounded_to_step(Mass mass, const Scale& scale);
[[nodiscard]] Volume rounded_to_step(Volume volume, const Syringe& syringe);

/// The scale to weigh a mass on: of those whose capacity holds it, the coarsest that weighs it to the
/// tolerance; the finest of them when none does; the one that carries most when none holds it.
/// Throws DomainError when the bench has no scale.
[[nodiscard]] std::size_t best_scale(const Bench& bench, Mass mass);

/// The scale of the least standard uncertainty, the first of equals. Throws DomainError when the bench has no scale.
[[nodiscard]] std::size_t finest_scale(const Bench& bench);

/// True when the scale's capacity holds it.
[[nodiscard]] bool carries(const Scale& scale, Mass mass);
/// 2 s / mass, at most 1: how well this scale weighs that mass.
[[nodiscard]] Share weighing_error(const Scale& scale, Mass mass);
/// m_min of the scale that weighs least. Throws DomainError when the bench has no scale.
[[nodiscard]] Mass least_weighable(const Bench& bench);

struct SyringeReading {
    std::size_t syringe = 0; ///< index in the bench
    Volume exact, rounded;
    int fills = 1; ///< how often the syringe is filled
};

/// The smallest syringe that takes the volume at once, or else the largest, of those that measure it to the
/// tolerance (2 step / sqrt(12) at most; one reading has step / sqrt(12), jcgm-100 4.3.7); nothing when none does
/// in `most_fills`. Throws DomainError for a capacity or step of 0.
[[nodiscard]] std::optional<SyringeReading> syringe_reading(const Bench& bench, Volume volume, double most_fills);

} // namespace lakebound
