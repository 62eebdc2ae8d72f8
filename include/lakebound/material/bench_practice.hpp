#pragma once
// Bench practice: how far the work of a home bench scatters, where nobody has measured it. The figures
// come from the shelf (formulations/practice), with their origin; a maker lays better ones over them.
//
// All are standard deviations of a logarithm, but for the weight. The initial zeros mean "no doubt from
// this side", which no bench deserves: fill them in.

#include <cmath>

namespace lakebound {

/// What is expected of the scatter of rub-outs before any was seen.
struct RubOutPrior {
    double repeat_spread = 0.0; ///< of one rub-out about the mean of many by the same hand
    double repeat_weight = 0.0; ///< repeats that this expectation is worth (degrees of freedom)
    double hand_and_oil = 0.0;  ///< of that hand, oil and dropper about the truth: no repeat removes it
};

/// Standard deviation of ln OA of a single rub-out: repeat and hand together.
inline double one_rub_out_spread(const RubOutPrior& prior) noexcept {
    return std::hypot(prior.repeat_spread, prior.hand_and_oil);
}

struct BenchPractice {
    RubOutPrior rub_out;
    double moisture_drift = 0.0; ///< of the powder's mass, by damp or drying from one weighing to another
    double shared_guess = 0.0;   ///< of what guesses of one class of pigment have in common
    double spoon_filling = 0.0;  ///< of what a level spoon or a tapped measure of powder holds
};

} // namespace lakebound
