#pragma once
// Learning a positive factor (an oil absorption) from the maker's own readings.
//
// ln x is normal, so prior and readings combine by precision (1/variance): conjugate update of a
// normal mean of known variance (gelman-bda-2013, 2.5 and 5.4). The unit of the median and of the
// readings is whatever the caller uses for both.
// DomainError: a median or reading that is not positive and finite, an ln-sd of readings that is
// not positive, a prior ln-sd below 0.

#include <span>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct LognormalBelief {
    double median = 1.0;
    double log_standard_deviation = 0.0;

    /// median exp(z s), z the normal quantile of p in (0, 1).
    double quantile(double p) const;
};

/// Belief after independent readings of the same quantity, each with ln-sd `reading_log_sd`.
/// 1/s^2 = 1/s0^2 + n/r^2; ln m = s^2 (ln m0 / s0^2 + sum ln x / r^2). A prior of ln-sd 0 stays.
[[nodiscard]] LognormalBelief updated(const LognormalBelief& prior, std::span<const double> readings, double reading_log_sd);

struct BatchBelief {
    LognormalBelief centre;     ///< of the maker's batches as a kind
    LognormalBelief next_batch; ///< of one that has not been tested: centre and spread between batches
};
/// Belief from one reading each of several past batches, which differ among themselves by ln-sd
/// `between_batches` (0 or more) and are read with ln-sd `reading_log_sd`; both taken as known.
[[nodiscard]] BatchBelief learned_from_batches(const LognormalBelief& prior, std::span<const double> batches,
                                               double between_batches, double reading_log_sd);

} // namespace lakebound
