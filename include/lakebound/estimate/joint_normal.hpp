#pragma once
// Joint normal: several quantities known together, with what they share.
//
// Quantities are built of independent normal sources (a plant's mean, a hand, a jar): the covariance of two
// is the sum of the variances of the sources they share. Learning from readings is conditioning
// (gelman-bda-2013, A.1):
//   mean' = m_s + K_sy K_yy^-1 (y - m_y),   K' = K_ss - K_sy K_yy^-1 K_ys,   evidence = N(y; m_y, K_yy)
// The readings' own scatter belongs on the diagonal of K_yy, which must be positive definite; K_ss may be
// singular, as when two of its quantities are one and the same.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct JointNormal {
    std::vector<double> mean;
    std::vector<double> covariance; ///< n x n, symmetric

    std::size_t size() const noexcept { return mean.size(); }
    double variance(std::size_t i) const { return covariance[i * size() + i]; }
    double covariance_of(std::size_t i, std::size_t j) const { return covariance[i * size() + j]; }
};

/// A quantity as offset plus sources: indices into a list of variances, rising, none twice.
struct NormalSum {
    double offset = 0.0;
    std::vector<std::size_t> sources;
};
/// Joint distribution of sums of independent sources of mean 0. DomainError: a source that is not listed,
/// a variance negative or not finite, sources out of order.
[[nodiscard]] JointNormal joint_of_sums(std::span<const NormalSum> sums, std::span<const double> source_variances);

struct ConditionedNormal {
    JointNormal rest;          ///< of the quantities that were not observed
    double log_evidence = 0.0; ///< ln density of the observed values
};
/// The first values.size() quantities are known to be `values`; the rest is returned. With none it is `joint`
/// again. DomainError: more values than quantities, one not finite, K_yy not positive definite.
[[nodiscard]] ConditionedNormal conditioned_on_first(const JointNormal& joint, std::span<const double> values);

/// The rest of the quantities as straight lines in the first `given`, with what those leave open.
struct NormalRegression {
    std::size_t given = 0;
    std::vector<double> intercept;  ///< one for each of the rest
    std::vector<double> slope;      ///< rest x given
    std::vector<double> covariance; ///< of the rest about their lines
};
/// A given quantity that adds nothing to those before it (its variance is used up) gets the slope 0.
/// DomainError: given above the number of quantities.
[[nodiscard]] NormalRegression regression_on_first(const JointNormal& joint, std::size_t given);

} // namespace lakebound
