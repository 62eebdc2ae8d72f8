#pragma once
// Window curve: how k and the chance of landing in the window change with the amount of medium, the pigment
// as it is.
//
//   k(m) = (b_0 p + m v_b) / (q p)
// p mass of the pigment, m of the medium, v_b dry binder per mass of medium, b_0 binder brought by additives
// per mass of pigment, q the effective demand: a straight line in m. The doubt of ln(true k / k) is taken as
// that of the batch at every amount.

#include <cstddef>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/judgement.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct WindowPoint {
    Mass medium;
    BinderSufficiency k;
    BinderSufficiency likely_low, likely_high; ///< two times in three the true k lies between
    WindowChances chances;
};

/// Points at equal steps of medium from below the amber limit (or this batch) to above the other, so that all
/// of the window and the batch lie inside. points: 2 to 1000, else DomainError; errors as window_chances.
[[nodiscard]] std::vector<WindowPoint> window_curve(const Batch& batch, const NormalMixture& doubt,
                                                    const SufficiencyWindow& window, std::size_t points);

/// The value below which the true k lies with chance p; 0 < p < 1, else DomainError.
[[nodiscard]] BinderSufficiency k_below_which(double p, BinderSufficiency k, const NormalMixture& doubt);

/// Values of the true k that share out the doubt evenly, smallest first: the middle of each of `count` equal
/// chances. count: 1 to 1000, else DomainError.
[[nodiscard]] std::vector<BinderSufficiency> equal_chances(BinderSufficiency k, const NormalMixture& doubt, std::size_t count);

} // namespace lakebound
