#pragma once
// Slab: a batch that is being brought up by strokes. It is mixed and not done, and its powder is out of the jar.
//
// A stroke or a batch is of the paint on the slab when it is of its family, has lost little and has gained little:
//   u m_s <= m <= g m_s   and   k >= (1 - t) k_s or k m >= (1 - t) k_s m_s,   t slab_tolerance, u slab_least,
//   g slab_most
//   m, k: powder and k of the library of the one looked at, m_s and k_s of the last stroke. Strokes take some of it along,
//   at its k; powder may be added; k m goes as the dry binder, and no binder is taken out again.
// Whatever is not, is another batch. Rule of this library (estimate).

#include <cstddef>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// t: what two weighings of one slab may differ by (estimate).
inline constexpr double slab_tolerance = 0.02;
/// u: strokes take no more of it along than the rest (estimate).
inline constexpr double slab_least = 0.90;
/// g: what more powder is stirred into is another batch (estimate).
inline constexpr double slab_most = 1.25;

struct Slab {
    std::size_t entry = 0;       ///< its last stroke
    std::size_t family = 0;
    Mass powder{};               ///< in it, above 0
    BinderSufficiency library_k; ///< at that stroke, above 0
    std::size_t strokes = 0;     ///< so far, 1 or more
};

/// Whether a paint of so much powder, in all, can be what lies on the slab.
[[nodiscard]] bool is_on_slab(const Slab& slab, std::size_t family, Mass powder, BinderSufficiency library_k) noexcept;

/// Whether a batch of so much powder is named as what lies there: within t.
[[nodiscard]] bool same_powder(const Slab& slab, Mass powder) noexcept;

/// Powder that has come out of the jar since the last stroke: 0 or more.
[[nodiscard]] Mass added_since(const Slab& slab, Mass powder) noexcept;

} // namespace lakebound
