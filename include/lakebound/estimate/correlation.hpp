#pragma once
// Correlation coefficients between inputs, or between outputs.

#include <cstddef>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Symmetric, ones on the diagonal. Between lognormal inputs it is that of their logarithms.
class CorrelationMatrix {
public:
    CorrelationMatrix() = default;                ///< size 0: "all independent", whatever the number of inputs
    explicit CorrelationMatrix(std::size_t size); ///< all independent

    std::size_t size() const noexcept { return size_; }
    /// True when no coefficient off the diagonal differs from 0.
    bool independent() const noexcept;
    /// True when input i correlates with any other.
    bool correlated(std::size_t i) const noexcept;
    double operator()(std::size_t i, std::size_t j) const noexcept { return r_[i * size_ + j]; }
    /// Sets r(i,j) and r(j,i); i and j below size() and different, r from -1 to 1, else a DomainError.
    void set(std::size_t i, std::size_t j, double r);

    /// F, row by row, with F F^T = this matrix: F times independent standard normals has these
    /// correlations (jcgm-101, 6.4.8). Complete correlations (+1, -1) are allowed.
    /// DomainError: the coefficients contradict one another (a negative eigenvalue).
    std::vector<double> factor() const;

private:
    std::size_t size_ = 0;
    std::vector<double> r_;
};

} // namespace lakebound
