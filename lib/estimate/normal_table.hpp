#pragma once
// Phi and its slope at even steps, between them the cubic that meets both (Hermite): what quick_normal_cdf asks. A loop
// takes the table once.

#include <array>
#include <cstddef>

namespace lakebound {

class NormalTable {
public:
    NormalTable();
    /// Phi(z) within 5e-9; any z.
    double operator()(double z) const noexcept {
        if (!(z > -reach)) return 0.0;
        if (z >= reach) return 1.0;
        const double steps = (z + reach) * per_unit;
        const auto i = static_cast<std::size_t>(steps);
        const double t = steps - static_cast<double>(i), u = 1.0 - t;
        const Knot &a = at_[i], &b = at_[i + 1];
        return (u * u) * ((1.0 + 2.0 * t) * a.value + t * a.rise) + (t * t) * ((3.0 - 2.0 * t) * b.value - u * b.rise);
    }

private:
    static constexpr int reach = 6, per_unit = 32; // beyond 6 lies 1e-9
    struct Knot {
        double value, rise; ///< rise: slope times the step
    };
    std::array<Knot, 2 * reach * per_unit + 1> at_;
};

/// Made when it is first asked for.
const NormalTable& normal_table() noexcept;

} // namespace lakebound
