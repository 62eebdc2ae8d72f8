#include "lakebound/record/slab.hpp"

#include <algorithm>

namespace lakebound {
namespace {

constexpr double tolerance = 0.02, most_gain = 1.25;

} // namespace

bool is_on_slab(const Slab& slab, std::size_t family, Mass powder, BinderSufficiency library_k) noexcept {
    if (family != slab.family) return false;
    const double of_powder = powder / slab.powder;
    const double of_binder = of_powder * library_k.value() / slab.library_k.value();
    return of_powder >= 1.0 - tolerance && of_powder <= most_gain && of_binder >= 1.0 - tolerance;
}

Mass added_since(const Slab& slab, Mass powder) noexcept { return std::max(powder - slab.powder, Mass{}); }

} // namespace lakebound
