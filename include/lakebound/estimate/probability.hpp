#pragma once
// Closed forms of the normal and lognormal distributions, and of every Distribution.

#include "lakebound/estimate/distribution.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Phi(z) = erfc(-z / sqrt 2) / 2; any z; full relative accuracy in the lower tail.
[[nodiscard]] double standard_normal_cdf(double z) noexcept;
/// The same within 5e-9 and several times as fast, for a search that asks thousands of times; any z. A table of Phi and
/// of its slope at steps of 1/32, between them the cubic that meets both (Hermite).
[[nodiscard]] double quick_normal_cdf(double z) noexcept;
/// The z with Phi(z) = p; p in (0, 1), else a DomainError.
[[nodiscard]] double standard_normal_quantile(double p);

/// Chance that a lognormal factor lies below the limit: Phi((ln limit - ln median) / s).
/// median > 0, limit > 0, s = ln-sd 0 or more; else a DomainError. At s = 0 it is 0 or 1 (1/2 at the limit).
[[nodiscard]] double lognormal_probability_below(double median, double log_standard_deviation, double limit);

/// The median that leaves the chance p of lying below the limit: limit exp(-s Phi^-1(p)).
/// limit > 0, s 0 or more, p in (0, 1); else a DomainError.
[[nodiscard]] double lognormal_median_for_risk(double limit, double log_standard_deviation, double p);

/// Chance that the quantity lies below the limit, for every shape. An exact value at the limit counts 1/2.
[[nodiscard]] double probability_below(const Distribution& d, double limit);

} // namespace lakebound
