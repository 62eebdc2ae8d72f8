#pragma once
// Keeping: whether a preservative lives in water of this pH.
//
//   active share = 1 / (1 + 10^(pH - pKa)): only the acid that is not dissociated passes into a mould's cell.
// Source: definition of pKa; benzoic 4.202 (phreeqc-dat, its file minteq.v4.dat, after NIST 46.2), sorbic 4.76 (value
// from memory), 25 degC. Valid for thin solutions; aluminium binds benzoate besides (log K 2.05, same file).

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/ingredient.hpp"
#include "lakebound/quantity/difference.hpp"
#include "lakebound/quantity/ratio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// pKa: the pH at which half of the acid is dissociated.
[[nodiscard]] Ph acid_exponent(PreservativeAcid acid) noexcept;
[[nodiscard]] Share active_share(PreservativeAcid acid, Ph ph);
/// The pH above which less than this share is active: pKa + log10((1 - a) / a). Range: a above 0, below 1, and not so
/// near either that no pH makes it. Errors: DomainError.
[[nodiscard]] Ph highest_ph_for(PreservativeAcid acid, Share active);

/// Chance that less than `least` of a preservative would be active, the pH normal. Range: u 0 or more; least above 0,
/// below 1. Errors: DomainError.
[[nodiscard]] Probability chance_dead(PreservativeAcid acid, Ph ph, PhDifference standard_uncertainty, Share least);

} // namespace lakebound
