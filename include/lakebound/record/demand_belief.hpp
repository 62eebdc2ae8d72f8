#pragma once
// Demand belief: what is known of the binder that one jar wants in one family, as nodes with their weights.
//
// Symbols as in learned_demand.hpp: c the critical x (a paint at x has ln k = x - c), z where her chalk test flips,
// y a next rub-out. Given a node, z is known and all the rest is normal; so c, skewed or of two minds, is a
// NormalMixture, and its mean, chances and centiles come from that, never from a normal with its mean and sd.

#include <vector>

#include "lakebound/estimate/normal_mixture.hpp"
#include "lakebound/export.hpp"
#include "lakebound/record/demand_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What a next reading would show, given a node: normal, and correlated with c.
struct ReadingOutlook {
    double variance = 0.0;
    double covariance_with_critical = 0.0;
};

struct DemandNode {
    double weight = 0.0;   ///< within the whole belief
    double flip = 0.0;     ///< z
    double rich = 0.0;     ///< mean of z + g, the rich edge
    double critical = 0.0; ///< mean of c
    double rub_out = 0.0;  ///< mean of a next y
    double medium = 0.0;   ///< mean of a reading of the medium's strength
    double powder = 0.0;   ///< mean of d, what the powder wants of oil; not carried on through imagined readings
};

/// One value of the spread between jars and one kind of maker.
struct DemandPart {
    double jar_spread = 0.0;
    bool odd_maker = false;
    double weight = 0.0;
    double rich_spread = 0.0;     ///< sd of z + g given a node
    double critical_spread = 0.0; ///< sd of c given a node
    ReadingOutlook rub_out, medium;
    double powder_spread = 0.0; ///< sd of d given a node
    std::vector<DemandNode> nodes;
};

struct DemandBelief {
    std::vector<DemandPart> parts{}; ///< weights add up to 1
    OilAbsorption reference;       ///< OA_ref of the jar
    double repeat_spread = 0.0;    ///< s_r used
    double lean_width = 0.0, rich_width = 0.0, use_width = 0.0;
    double lean_edge = 0.0;       ///< A of the family, as ln k
    std::size_t own_rub_outs = 0; ///< of this jar since its last change
    std::size_t sweeps = 0;       ///< of expectation propagation, all runs together

    NormalMixture critical() const; ///< of c
    /// Of ln(true k / library k) of a batch weighed with this ln-sd: -c and the weighing. What judgement.hpp takes.
    NormalMixture doubt(double batch_spread) const;
    /// The same with nodes of a part that lie within .7 of its normal's sd of one another put together: weight,
    /// mean and variance stay. A grid of two quantities has thousands of nodes where a hundred say the same.
    NormalMixture gathered_doubt(double batch_spread) const;
    double flip_mean() const; ///< of z
    double flip_spread() const;
    double odd_weight() const; ///< chance that this maker is odd
};

/// Library k at which a swatch is an even bet to chalk: the one that teaches most. weighing_spread: ln-sd of its x.
[[nodiscard]] BinderSufficiency even_bet(const DemandBelief& belief, double weighing_spread);

/// Chance, before it is folded in, of what a trial of the belief's jar and family showed.
[[nodiscard]] Probability chance_of_trial(const DemandBelief& belief, const PaintTrial& trial);
/// Chance of a rub-out at least as far from what was expected, on either side.
[[nodiscard]] Probability chance_of_rub_out(const DemandBelief& belief, OilAbsorption reading);

} // namespace lakebound
