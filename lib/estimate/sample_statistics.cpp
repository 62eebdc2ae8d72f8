#include "lakebound/estimate/sample_statistics.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void need(std::size_t count, std::size_t least) {
    if (count < least)
        throw DomainError("number of values", std::to_string(count), std::to_string(least) + " or more");
}

/// Ordering a set that holds NaN is undefined, and infinities have no mean.
void need_finite(std::span<const double> values) {
    for (const double x : values)
        if (!std::isfinite(x)) throw_out_of_range("value of a set", x, "", "finite");
}

using Difference = std::vector<double>::difference_type;

/// jcgm-101, 7.7.2 note: an interval that spans q = pM steps of the ordered values.
CoverageInterval shortest_interval(std::vector<double>& v, std::size_t q) {
    // Only the two tails can hold its ends: order those and leave the middle alone.
    const std::size_t tail = v.size() - q;
    if (tail < q) {
        std::nth_element(v.begin(), v.begin() + static_cast<Difference>(tail), v.end());
        std::sort(v.begin(), v.begin() + static_cast<Difference>(tail));
        std::nth_element(v.begin() + static_cast<Difference>(tail), v.begin() + static_cast<Difference>(q),
                         v.end());
        std::sort(v.begin() + static_cast<Difference>(q), v.end());
    } else {
        std::sort(v.begin(), v.end());
    }
    CoverageInterval best{v[0], v[q]};
    for (std::size_t r = 1; r < tail; ++r)
        if (v[r + q] - v[r] < best.width()) best = {v[r], v[r + q]};
    return best;
}

} // namespace

double sample_mean(std::span<const double> values) {
    need(values.size(), 1);
    double sum = 0.0;
    for (const double x : values)
        sum += x;
    return sum / static_cast<double>(values.size());
}

double sample_standard_deviation(std::span<const double> values) {
    need(values.size(), 2);
    const double mean = sample_mean(values);
    double sum = 0.0;
    for (const double x : values)
        sum += (x - mean) * (x - mean);
    return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

double sample_quantile(std::span<double> values, double p) {
    need(values.size(), 1);
    if (!(p > 0.0 && p <= 1.0)) throw_out_of_range("probability", p, "", "above 0, at most 1");
    need_finite(values);
    const double n = static_cast<double>(values.size());
    // The small allowance keeps 0.95 * 100 at the 95th value where it rounds to 95.00000000000001.
    const auto rank = static_cast<std::size_t>(std::max(1.0, std::ceil(p * n * (1.0 - 1e-14))));
    const auto nth = values.begin() + static_cast<std::ptrdiff_t>(rank - 1);
    std::nth_element(values.begin(), nth, values.end());
    return *nth;
}

SampleSummary summarise(std::vector<double> values, double coverage) {
    need(values.size(), 2);
    if (!(coverage > 0.0 && coverage < 1.0))
        throw_out_of_range("coverage", coverage, "", "above 0 and below 1");
    SampleSummary s;
    s.count = values.size();
    s.mean = sample_mean(values);
    s.standard_deviation = sample_standard_deviation(values);
    s.median = sample_quantile(values, 0.5);
    const auto m = static_cast<double>(values.size());
    const auto q = std::min(static_cast<std::size_t>(std::lround(coverage * m)), values.size() - 1);
    s.shortest = shortest_interval(values, q);
    // 7.7.1: the r-th to the (r+q)-th, r = (M - q)/2 counted from 1. The tails are in order by now.
    const std::size_t r = std::max<std::size_t>((values.size() - q + 1) / 2, 1) - 1;
    s.symmetric = {values[r], values[r + q]};
    return s;
}

} // namespace lakebound
