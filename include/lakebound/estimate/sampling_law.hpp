#pragma once
// The laws of samples from a normal distribution: Student's t, chi squared, and the ratio F of two variances.
// Boost.Math behind one door, for its templates take long to compile.

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The t that a Student variate lies below with the chance p; p in (0, 1), degrees of freedom above 0 (infinitely
/// many are the normal law), else a DomainError.
[[nodiscard]] double student_quantile(double p, double degrees_of_freedom);

/// The same of chi squared; degrees of freedom above 0, finite.
[[nodiscard]] double chi_squared_quantile(double p, double degrees_of_freedom);

/// Chance that the ratio of two variances exceeds `ratio` when both estimate the same; ratio 0 or more, degrees of
/// freedom of the upper and the lower one above 0, finite, else a DomainError.
[[nodiscard]] double variance_ratio_exceeds(double ratio, double upper_degrees_of_freedom, double lower_degrees_of_freedom);

} // namespace lakebound
