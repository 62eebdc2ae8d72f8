#pragma once
// Gathered nodes: the belief in a jar's critical x by cells of like nodes, for any weights of them. Internal.
//
// A grid of two quantities has thousands of nodes where a hundred normals say the same. Which node lies in which cell
// depends on its place alone, so it is worked out once for all the outcomes that a coach imagines. Parts whose normals are
// about as wide share their cells.

#include <span>
#include <vector>

#include "lakebound/record/demand_belief.hpp"

namespace lakebound {

/// Of the nodes of all parts, one after the other.
void weights_of(const DemandBelief& belief, std::vector<double>& weights);

class GatheredNodes {
public:
    GatheredNodes() = default;
    GatheredNodes(const DemandBelief& belief, double batch_spread) { lay(belief, batch_spread); }

    /// Of another belief, in the place of the one before.
    void lay(const DemandBelief& belief, double batch_spread);

    /// Of ln(true k / library k) of a batch; weights: of all nodes, part after part. A cell keeps weight, mean and
    /// variance of its nodes.
    NormalMixture doubt(std::span<const double> weights) const;

private:
    struct Place {
        std::size_t cell;
        double off;    ///< c from the start of its cell
        double square; ///< off^2 and the variance of the normal about it
    };
    std::vector<Place> places_;   ///< of each node
    std::vector<double> origins_; ///< c at the start of each cell
};

} // namespace lakebound
