#include "lakebound/record/slab.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {
namespace {

constexpr double tolerance = 0.02, most_loss = 0.10, most_gain = 1.25;

} // namespace

bool is_on_slab(const Slab& slab, std::size_t family, Mass powder, BinderSufficiency library_k) noexcept {
    if (family != slab.family) return false;
    const double of_powder = powder / slab.powder, of_k = library_k.value() / slab.library_k.value();
    return of_powder >= 1.0 - most_loss && of_powder <= most_gain && std::max(of_k, of_powder * of_k) >= 1.0 - tolerance;
}

bool same_powder(const Slab& slab, Mass powder) noexcept { return std::abs(double(powder / slab.powder) - 1.0) <= tolerance; }

Mass added_since(const Slab& slab, Mass powder) noexcept { return std::max(powder - slab.powder, Mass{}); }

} // namespace lakebound
