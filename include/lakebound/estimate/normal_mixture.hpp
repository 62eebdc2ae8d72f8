#pragma once
// NormalMixture: weighted normals side by side, for what is known but is not normal.
//
// ln k of a paint is normal but for what does not add up in the logarithm: a blend's demand is a sum of
// lognormals. Such a part is laid out on a grid (centres), the normal rest is kept in closed form. What swatches
// teach is skewed, or of two minds, and comes as centres too, each kind of maker with a rest of its own:
//   P(x < t) = sum over centres c of w_c Phi((t - c)/s_c).
// Accuracy: a part that is a smooth function of one normal variable, on normal_grid(0.3), is exact to 1e-6
// where the normal rest is a quarter of the whole spread or more: the trapezoidal rule of a smooth
// function with vanishing tails (davis-rabinowitz-1984, 2.9, from memory).

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct NormalPart {
    double weight = 0.0;
    double mean = 0.0;
    double standard_deviation = 0.0;
};

class NormalMixture {
public:
    NormalMixture() = default; ///< exactly 0
    /// A normal variable about 0. spread: standard deviation, 0 or more, else DomainError.
    explicit NormalMixture(double spread) : NormalMixture(spread, {0.0}, {1.0}) {}
    /// spread: of the normal part; centres: one at least, finite; weights: one each, 0 or more and not all 0,
    /// which are scaled to sum to 1. DomainError otherwise.
    NormalMixture(double spread, const std::vector<double>& centres, const std::vector<double>& weights);
    /// Each normal with its own spread. The same rules.
    explicit NormalMixture(std::vector<NormalPart> parts);

    double mean() const noexcept { return mean_; }
    double standard_deviation() const noexcept;
    Probability below(double limit) const noexcept;
    Probability above(double limit) const noexcept;
    /// Between two limits, low <= high; to 1e-15, not to the last digit of a small chance, and faster for it.
    Probability between(double low, double high) const noexcept;
    /// The same within 1e-8 and several times as fast (quick_normal_cdf), for a search.
    Probability roughly_between(double low, double high) const noexcept;
    /// The value below which the share p lies; 0 < p < 1, else DomainError. Within 1e-9 of it.
    double quantile(double p) const;
    /// The same shape about the same mean, its deviations times `factor` (0 or more, else DomainError).
    NormalMixture narrowed(double factor) const;
    /// With an independent normal of this standard deviation added (0 or more, else DomainError).
    NormalMixture widened(double spread) const;
    /// The same shape, moved.
    NormalMixture shifted(double by) const;
    bool is_normal() const noexcept { return parts_.size() == 1; }

private:
    template <class Cdf> double share_between(double low, double high, double far, const Cdf& cdf) const noexcept;
    std::vector<NormalPart> parts_{{1.0, 0.0, 0.0}};
    double mean_ = 0.0;
};

/// Standard normal values at equal steps from -5 to 5, with the density there as weight.
struct NormalGrid {
    std::vector<double> z, weights; ///< weights sum to 1
};
/// step: 0.01 to 1, else DomainError.
[[nodiscard]] NormalGrid normal_grid(double step);

} // namespace lakebound
