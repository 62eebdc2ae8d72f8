#pragma once
// Learned demand: what rub-outs, swatches and batches in use say about the binder one jar wants.
//
// The model (docs/theory.md, "What a studio learns"):
//   d   = plant + jar (+ changes)                ln demand over the library's, as oil sees it
//   y   = d + hand + repeat                      a rub-out
//   c   = d + step of the kind + medium + step of the jar + lot      the critical x: at x a paint has ln k = x - c
//   z   = c + chalk bias                         where her chalk test flips
//   P(lean | x) = logistic((z + A - x)/w),  P(rich | x) = logistic((x - A - z - g)/w_rich);  in use c stands for z
// A, A + g: lean and rich edge of the family. All right of the first three = are normal; the spread between jars has
// five weighted values, the step from oil two (usual maker, odd maker), each with its own evidence. Readings condition
// a joint normal, trials enter by expectation propagation, and the jar asked about gets an exact last step on a grid
// of z and the other own quantity that says most. Estimate (every prior is a judgement).

#include "lakebound/export.hpp"
#include "lakebound/record/demand_belief.hpp"
#include "lakebound/record/demand_priors.hpp"
#include "lakebound/record/demand_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Scatter of one rub-out about the jar's mean, learned from all jars with repeats:
///   s^2 = (weight x prior^2 + S) / (weight + nu),  S squared deviations, nu their degrees of freedom.
[[nodiscard]] double learned_repeat_spread(const DemandPriors& priors, const DemandRecord& record);

/// DomainError: an index that is not listed, a prior out of its range, a value not finite or not above 0.
[[nodiscard]] DemandBelief learned_demand(const DemandWorld& world, const DemandRecord& record, const DemandQuestion& question);

} // namespace lakebound
