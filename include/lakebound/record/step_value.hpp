#pragma once
// Step value: the chance of landing in the window that is expected after one more measurement.
//
//   value of a belief = greatest chance of the window over where to mix (judgement.hpp)
//   value of a step   = sum over its outcomes of chance x value after it; the aim is sought anew after each
// Without seeking the aim anew a first swatch on a bare jar is undervalued by 1.4 points. Weights and normal parts of
// the belief's nodes are carried on exactly; what a node leaves open of the rich edge widens its step. In the search for the
// aim nodes that lie within .7 sd stand as one normal, and after outcomes less likely than 1e-5 no further swatch is
// reckoned with: together within 1e-4 of a value (docs/performance.md).

#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/family.hpp"
#include "lakebound/record/demand_belief.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What is aimed at: a window of k, and the ln-sd of a batch from its weighing.
struct PaintGoal {
    SufficiencyWindow window;
    double batch_spread = 0.0;
};

/// How swatches are weighed and looked at.
struct SwatchTest {
    double weighing_spread = 0.0; ///< ln-sd of a swatch's k
    bool watched = false;         ///< for shine, cracks and stickiness too, not only rubbed
};

/// Where to mix, by the library's k, and the chance of the window there.
struct MixingPoint {
    BinderSufficiency library_k;
    Probability chance;
};
/// DomainError as judgement.hpp and DemandBelief::doubt, for all of this header.
[[nodiscard]] MixingPoint best_mixing_point(const DemandBelief& belief, const PaintGoal& goal);

/// Expected value after swatches at these library k, all painted at once (1 to 6, else a DomainError).
/// Where they are watched and being rich has a chance above 1 in 1000 it is an outcome of its own.
[[nodiscard]] Probability value_after_swatches(const DemandBelief& belief, const PaintGoal& goal,
                                               const std::vector<BinderSufficiency>& at, const SwatchTest& test);
/// After one more rub-out, by 7 values of its reading.
[[nodiscard]] Probability value_after_rub_out(const DemandBelief& belief, const PaintGoal& goal);
/// After the solids of the medium are tested, likewise.
[[nodiscard]] Probability value_after_solids_test(const DemandBelief& belief, const PaintGoal& goal);
/// After two swatches, the second where the first's outcome makes it an even bet.
[[nodiscard]] Probability value_after_two_in_turn(const DemandBelief& belief, const PaintGoal& goal, const SwatchTest& test);

/// Where to paint `count` swatches at once: 1, 2 or 4 about the even bet (at 0; -.25, +.25; -.9, -.3, +.3, +.9 sd of
/// z), rising. DomainError: another count.
[[nodiscard]] std::vector<BinderSufficiency> swatches_about(const DemandBelief& belief, std::size_t count, const SwatchTest& test);

} // namespace lakebound
