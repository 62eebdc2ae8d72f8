#pragma once
// UncertainInput: one number a model depends on, as the budget and the Monte Carlo see it.

#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "lakebound/estimate/distribution.hpp"
#include "lakebound/estimate/estimate.hpp"
#include "lakebound/estimate/provenance.hpp"
#include "lakebound/estimate/random.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Numbers are in the canonical (SI base) unit of the quantity.
struct UncertainInput {
    std::string name; ///< as the report shows it: "oil absorption"
    Distribution distribution;
    Provenance provenance;
    /// Of the standard uncertainty; infinite unless it came from a few repeated readings.
    double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// The input that stands for an estimate of a domain struct.
template <class Q> [[nodiscard]] UncertainInput uncertain_input(std::string name, const Estimate<Q>& estimate) {
    return {std::move(name), estimate.distribution(), estimate.provenance()};
}

/// The value z standard deviations from the best estimate: x = m + z u, or m exp(z s) for a
/// lognormal of median m and ln-sd s. The budget linearises in z, so that a product of powers of
/// lognormal factors has an exact first-order budget for its logarithm.
[[nodiscard]] inline double at_standard_deviations(const Distribution& d, double z) noexcept {
    if (d.shape == Shape::lognormal) return d.location * std::exp(d.scale * z);
    return d.location + z * d.standard_uncertainty();
}
/// dx/dz of at_standard_deviations at z = 0: u, or m s for a lognormal.
[[nodiscard]] inline double linear_uncertainty(const Distribution& d) noexcept {
    if (d.shape == Shape::lognormal) return std::abs(d.location) * d.scale;
    return d.standard_uncertainty();
}

/// One random draw. Rectangular m + a (2r - 1) and arc sine m + a sin(2 pi r), r uniform: jcgm-101, 6.4.
[[nodiscard]] double draw(const Distribution& d, RandomEngine& engine);
/// The value below which the density holds the share p; p in (0, 1), anything else is a DomainError.
[[nodiscard]] double quantile(const Distribution& d, double p);

} // namespace lakebound
