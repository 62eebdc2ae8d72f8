#include "lakebound/record/slab.hpp"

#include <algorithm>
#include <cmath>

namespace lakebound {

bool is_on_slab(const Slab& slab, std::size_t family, Mass powder, BinderSufficiency library_k) noexcept {
    if (family != slab.family) return false;
    const double of_powder = powder / slab.powder, of_k = library_k.value() / slab.library_k.value();
    return of_powder >= slab_least && of_powder <= slab_most && std::max(of_k, of_powder * of_k) >= 1.0 - slab_tolerance;
}

bool same_powder(const Slab& slab, Mass powder) noexcept { return std::abs(double(powder / slab.powder) - 1.0) <= slab_tolerance; }

Mass added_since(const Slab& slab, Mass powder) noexcept { return std::max(powder - slab.powder, Mass{}); }

} // namespace lakebound
