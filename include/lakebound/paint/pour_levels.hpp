#pragma once
// Pour levels: how full a vessel stands at each pour to the brim, and once that pour has dried.
//
//   l_0 = 0,  l_n = l_(n-1) + r p_n,  p_n = min(1 - l_(n-1), (F - l_(n-1))/r)
// r dry over wet volume of the paint, F the fill wanted, p_n what is poured; all in shares of the capacity.
// The last pour stops where it will dry to F. Derived in docs/theory.md, with the number of pours.

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/filling.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PourLevel {
    Volume poured;
    Share wet_level; ///< how full it stands when poured
    Share dry_level; ///< how full once this pour has dried
};

/// One level for each pour to the brim of a vessel filled by its dry volume. Empty where the filling has no
/// brim pours (paint that does not shrink, a vessel to be dry to the brim).
[[nodiscard]] std::vector<PourLevel> pour_levels(const Filling& filling);

} // namespace lakebound
