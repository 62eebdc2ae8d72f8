#pragma once
// What a set of Monte Carlo or bootstrap values says: mean, spread, quantiles, coverage intervals.
//
// Source of the intervals and the quantile index: jcgm-101, 7.5 to 7.7.
// Every function here throws DomainError on an empty set (two values are needed for the spread); those that
// put the values in order do so for a value that is not finite.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct CoverageInterval {
    double low = 0.0, high = 0.0;
    double width() const noexcept { return high - low; }
};

struct SampleSummary {
    std::size_t count = 0;
    double mean = 0.0;
    double standard_deviation = 0.0;
    double median = 0.0;
    CoverageInterval symmetric; ///< equal shares left out below and above
    CoverageInterval shortest;
};

/// Sum over count, in the order given.
[[nodiscard]] double sample_mean(std::span<const double> values);
/// Square root of the sum of squared deviations over count - 1.
[[nodiscard]] double sample_standard_deviation(std::span<const double> values);
/// The smallest value with at least the share p at or below it; p in (0, 1]. Reorders the values.
[[nodiscard]] double sample_quantile(std::span<double> values, double p);
/// coverage in (0, 1), 0.95 unless told otherwise. Takes a copy, which it reorders.
[[nodiscard]] SampleSummary summarise(std::vector<double> values, double coverage = 0.95);

} // namespace lakebound
