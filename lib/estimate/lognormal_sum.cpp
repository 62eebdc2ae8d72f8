#include "lakebound/estimate/lognormal_sum.hpp"

#include <cmath>
#include <string>
#include <vector>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

double ShiftedLognormal::at(double z) const noexcept {
    return shift + std::exp(log_scale + log_standard_deviation * z);
}

ShiftedLognormal matched_sum(std::span<const LognormalTerm> terms, const CorrelationMatrix& correlation) {
    const std::size_t n = terms.size();
    if (correlation.size() != 0 && correlation.size() != n)
        throw DomainError("size of the correlation", std::to_string(correlation.size()),
                          "one for each of " + std::to_string(n) + " terms");
    std::vector<double> mu(n), c(n * n);
    double constant = 1.0, mean = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const auto [share, s] = terms[i];
        if (!(share >= 0.0)) throw_out_of_range("share of a term", share, "", "0 or more");
        if (!(s >= 0.0 && std::isfinite(s))) throw_out_of_range("ln-sd of a term", s, "", "0 or more");
        constant -= share;
        mean += mu[i] = share * std::exp(0.5 * s * s);
        for (std::size_t j = 0; j < n; ++j) {
            const double r = i == j ? 1.0 : correlation.size() == 0 ? 0.0 : correlation(i, j);
            c[i * n + j] = std::expm1(s * terms[j].log_standard_deviation * r);
        }
    }
    if (!(constant >= -1e-9)) throw_out_of_range("sum of the shares", 1.0 - constant, "", "at most 1");
    double variance = 0.0, third = 0.0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j) {
            const double ij = c[i * n + j];
            variance += mu[i] * mu[j] * ij;
            for (std::size_t k = 0; k < n; ++k) {
                const double ik = c[i * n + k], jk = c[j * n + k];
                third += mu[i] * mu[j] * mu[k] * (ij * ik + ij * jk + ik * jk + ij * ik * jk);
            }
        }
    mean += constant;
    if (!(variance > 0.0)) return {0.0, std::log(mean), 0.0};
    // A sum without skewness would be a normal law, the limit of far shifts; none of lognormals comes near.
    const double skewness = std::max(third / std::pow(variance, 1.5), 1e-4);
    const double half = 1.0 + 0.5 * skewness * skewness;
    const double root = std::cbrt(half + skewness * std::sqrt(1.0 + 0.25 * skewness * skewness));
    const double excess = root + 1.0 / root - 2.0; // w - 1
    const double s2 = std::log1p(excess);
    const double median = std::sqrt(variance / excess) * std::exp(-0.5 * s2);
    return {mean - median * std::exp(0.5 * s2), std::log(median), std::sqrt(s2)};
}

} // namespace lakebound
