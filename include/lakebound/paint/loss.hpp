#pragma once
// Loss: what stays on slab, muller and knife.
//
// m_loss = a + b m, m pigment mass of the batch; a and b from the bench (0.6 g and 3 % are an
// estimate; a maker weighs slab and muller before and after to find their own).

#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Pigment lost of a batch: a + b m, but never more than the batch. Throws DomainError when m or a is negative.
[[nodiscard]] Mass pigment_lost(Mass pigment, const SlabLoss& loss);
/// Pigment that reaches the vessels: m - m_loss.
[[nodiscard]] Mass pigment_kept(Mass pigment, const SlabLoss& loss);
/// Pigment to weigh so that `kept` reaches the vessels: (kept + a) / (1 - b); 0 when kept is 0.
/// Throws DomainError when b is 1, and when kept or a is negative.
[[nodiscard]] Mass pigment_to_keep(Mass kept, const SlabLoss& loss);

} // namespace lakebound
