#pragma once
// Spread: how well k, PVC and reduced PVC are known, in closed form, from independent relative terms.
//
// Every term is a standard deviation of a logarithm. With k = V_b/(m_p q), e_c = 1/c - 1 = q rho_p:
//              d ln k        d ln PVC            d ln Lambda
//   ln q         -1            0                   1 - c        (oil absorption, method transfer)
//   ln V_b       +1          -(1 - PVC)          -(1 - PVC)     (binder solids, binder density)
//   ln m_p       -1           (1 - PVC)            (1 - PVC)    (moisture, weighing)
//   ln rho_p      0          -(1 - PVC)            PVC - c      (pigment density)
// PVC and CPVC share rho_p, which all but cancels in Lambda: derived in docs/theory.md. ln k is a sum
// of its terms, so with lognormal terms its spread is exact; the other two are first order (GUM,
// jcgm-100 equation 10).

#include <array>
#include <cstddef>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class SpreadTerm {
    oil_absorption,
    method_transfer, ///< from the oil rub-out to this binder
    binder_solids,
    binder_density,
    moisture, ///< of the pigment, between the weighing of the rub-out and of the batch
    weighing,
    pigment_density,
};
template <> struct WordTable<SpreadTerm> {
    static constexpr WordRow<SpreadTerm> rows[] = {
        {SpreadTerm::oil_absorption, "oil absorption"},
        {SpreadTerm::method_transfer, "method transfer"},
        {SpreadTerm::binder_solids, "binder solids"},
        {SpreadTerm::binder_density, "binder density"},
        {SpreadTerm::moisture, "moisture"},
        {SpreadTerm::weighing, "weighing"},
        {SpreadTerm::pigment_density, "pigment density"},
    };
};
inline constexpr std::array<SpreadTerm, 7> spread_terms{SpreadTerm::oil_absorption, SpreadTerm::method_transfer,
                                                        SpreadTerm::binder_solids,  SpreadTerm::binder_density,
                                                        SpreadTerm::moisture,       SpreadTerm::weighing,
                                                        SpreadTerm::pigment_density};

/// Standard deviations of logarithms, each 0 or more; 0 is a term known exactly.
struct LogSpread {
    double oil_absorption = 0.0;
    double method_transfer = 0.0;
    double binder_solids = 0.0;
    double binder_density = 0.0;
    double moisture = 0.0;
    double weighing = 0.0;
    double pigment_density = 0.0;

    double term(SpreadTerm which) const;
    LogSpread with(SpreadTerm which, double log_standard_deviation) const; ///< a copy with one term replaced
};

/// Standard deviation of ln k: the root of the sum of squares, pigment density left out.
/// This and all below throw DomainError for a term that is negative or not finite.
[[nodiscard]] double sufficiency_spread(const LogSpread& spread);
/// Standard deviations of ln PVC and of ln Lambda at the state k, c.
[[nodiscard]] double pvc_spread(const LogSpread& spread, BinderSufficiency k, CriticalPigmentVolumeConcentration c);
[[nodiscard]] double reduced_pvc_spread(const LogSpread& spread, BinderSufficiency k, CriticalPigmentVolumeConcentration c);

/// Share of each term in the variance, in the order of spread_terms; they sum to 1, or all are 0.
using VarianceShares = std::array<double, spread_terms.size()>;
[[nodiscard]] VarianceShares sufficiency_variance_shares(const LogSpread& spread);
[[nodiscard]] VarianceShares pvc_variance_shares(const LogSpread& spread, BinderSufficiency k,
                                                 CriticalPigmentVolumeConcentration c);
[[nodiscard]] VarianceShares reduced_pvc_variance_shares(const LogSpread& spread, BinderSufficiency k,
                                                         CriticalPigmentVolumeConcentration c);

/// A k and how well it is known. Apart from a limit of k, which the two turned round would pass for.
struct UnsureSufficiency {
    BinderSufficiency k;
    double sigma = 0.0; ///< standard deviation of ln k
};
/// Chance that the true k lies below the limit: Phi(ln(limit/k)/sigma); limit 1 is the CPVC itself.
/// k, limit above 0 and sigma 0 or more, else DomainError.
[[nodiscard]] Probability chance_below(const UnsureSufficiency& belief,
                                       BinderSufficiency limit = BinderSufficiency::of(1.0));
/// Chance that the true k lies above the limit, of leaving the window upward; errors as above.
[[nodiscard]] Probability chance_above(const UnsureSufficiency& belief, BinderSufficiency limit);
/// k that leaves the chance `risk` of lying below the limit: limit exp(-sigma Phi^-1(risk)); 0 < risk < 1.
[[nodiscard]] BinderSufficiency sufficiency_for_risk(Probability risk, double sigma,
                                                     BinderSufficiency limit = BinderSufficiency::of(1.0));

} // namespace lakebound
