#pragma once
// Gauss-Hermite nodes: a normal variable replaced by n weighted values.
//
//   E f(Z) = sum_i weight_i f(z_i),   Z ~ N(0, 1), exact for polynomials of degree 2 n - 1
// z_i are the roots of the Hermite polynomial He_n, weight_i = 1 / (n h_{n-1}(z_i)^2) with the orthonormal h
// (abramowitz-stegun-1972, 25.4.46, rescaled). For a function much narrower than the gap between
// nodes (about 3/sqrt n) it is a poor rule.

#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct NormalNode {
    double z = 0.0;
    double weight = 0.0; ///< all add up to 1
};

/// In rising order of z. count 1 to 64, else a DomainError.
[[nodiscard]] std::vector<NormalNode> gauss_hermite_nodes(int count);

} // namespace lakebound
