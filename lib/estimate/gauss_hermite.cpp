#include "lakebound/estimate/gauss_hermite.hpp"

#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

/// Orthonormal Hermite polynomials at z: the one of degree n and the one below it.
struct Hermite {
    double top, below;
};

Hermite hermite(int n, double z) {
    Hermite h{1.0, 0.0};
    for (int k = 0; k < n; ++k)
        h = {(z * h.top - std::sqrt(double(k)) * h.below) / std::sqrt(k + 1.0), h.top};
    return h;
}

} // namespace

std::vector<NormalNode> gauss_hermite_nodes(int count) {
    if (count < 1 || count > 64) throw DomainError("number of nodes", std::to_string(count), "1 to 64");
    const double n = count;
    std::vector<NormalNode> nodes(static_cast<std::size_t>(count));
    // The roots lie apart by more than 1/sqrt n: sign changes on a finer grid bracket each, bisection
    // narrows it and Newton's rule ends it. h_n' = sqrt(n) h_{n-1}.
    const double end = std::sqrt(4.0 * n + 2.0), step = 0.25 / std::sqrt(n);
    std::size_t found = 0;
    // An odd start keeps the root at 0 inside a cell.
    for (double low = -end - 0.37 * step; found < nodes.size(); low += step) {
        double a = low, b = low + step;
        const bool rising = hermite(count, a).top < 0.0;
        if (rising == (hermite(count, b).top < 0.0)) continue;
        for (int i = 0; i < 30; ++i) {
            const double m = 0.5 * (a + b);
            ((hermite(count, m).top < 0.0) == rising ? a : b) = m;
        }
        double z = 0.5 * (a + b);
        for (int i = 0; i < 2; ++i) {
            const Hermite h = hermite(count, z);
            z -= h.top / (std::sqrt(n) * h.below);
        }
        const double below = hermite(count, z).below;
        nodes[found++] = {z, 1.0 / (n * below * below)};
    }
    return nodes;
}

} // namespace lakebound
