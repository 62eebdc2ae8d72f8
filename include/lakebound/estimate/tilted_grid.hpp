#pragma once
// Tilted grid: the exact last step, a normal belief of one or two quantities times their trials, as nodes.
//
// One quantity: 141 nodes about the mode (threshold_site.hpp). Two: 37 x 37 nodes over +-6.5 sd of the
// moments found beforehand, laid along the axes of their covariance, without the corners that lie beyond sqrt(46) sd;
// nodes that together hold less than 1e-9 of the weight are left out. Steps of .36 sd are beyond need for normal
// weights; where up to twelve sharp trials contradict each other, means err by .005 sd and chances by 4e-4 at worst (400
// studios drawn at random, against steps of .07 sd). Whatever is normal given these quantities is then a mixture over the
// nodes.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/estimate/joint_normal.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct GridNode {
    double first = 0.0, second = 0.0; ///< second stays 0 where there is one quantity
    double weight = 0.0;              ///< all add up to 1
};

/// cavity: belief of one or two quantities without their own trials; trials: as many lists (may be empty);
/// about: belief with them, to lay the nodes by (used for two only). DomainError: another number of quantities,
/// trials that are none, variances not above 0.
[[nodiscard]] std::vector<GridNode> tilted_grid(const JointNormal& cavity, std::span<const LogisticTrials> trials,
                                                const JointNormal& about);

} // namespace lakebound
