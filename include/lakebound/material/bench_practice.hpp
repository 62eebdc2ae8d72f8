#pragma once
// Bench practice: how far the work of a home bench scatters, where nobody has measured it, and how far a
// maker goes for very little. The figures come from the shelf (formulations/practice), with their origin; a
// maker lays better ones over them.
//
// Spreads are standard deviations of a logarithm. The initial zeros mean "no doubt from this side", which no
// bench deserves, and "this is not done": fill them in.

#include <cmath>
#include <limits>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What is expected of the scatter of rub-outs before any was seen.
struct RubOutPrior {
    double repeat_spread = 0.0; ///< of one rub-out about the mean of many by the same hand
    double repeat_weight = 0.0; ///< repeats that this expectation is worth (degrees of freedom)
    double hand_and_oil = 0.0;  ///< of that hand, oil and dropper about the truth: no repeat removes it
};

/// Standard deviation of ln OA of a single rub-out: repeat and hand together.
[[nodiscard]] inline double one_rub_out_spread(const RubOutPrior& prior) noexcept {
    return std::hypot(prior.repeat_spread, prior.hand_and_oil);
}

/// How far a maker goes to bring in what is too little to weigh (paint/weighing.hpp).
struct SmallAmountPractice {
    double drop_spread = 0.0;      ///< of one drop from one bottle, about the mean of many
    double most_drops = 0.0;       ///< that a person counts
    Mass most_medium_for_drops{};  ///< mixed for the sake of them
    double stock_share = 0.0;      ///< of an oil of the medium, that stocks may bring of it, 0 to 1
    double most_syringe_fills = 0.0; ///< for one liquid: beyond, the scale is quicker and errs less
    Mass least_stock{};            ///< of a stock solution that is worth mixing
    std::vector<MassFraction> stock_strengths{}; ///< that are mixed, the strongest first; none: no stock is made
};

/// From where on something is said, though it forbids nothing.
struct NoticeFrom {
    double unusual_dose = std::numeric_limits<double>::infinity(); ///< times the usual dose of an additive
    double rounding_shift = 0.0; ///< of k, relative, by the steps of the scale
    double large_loss = 0.0;     ///< of the pigment, on slab and muller, 0 to 1
    double fluid_paint = std::numeric_limits<double>::infinity(); ///< all liquid over what just fills the pigment
    double layers_alike = 0.0;   ///< difference in oil by volume of layers that count as equally fat, 0 to 1
};

/// What stands in for a bench that nobody described.
struct AssumedBench {
    Mass scale_step{}, slab_loss{};
    Share slab_loss_share; ///< besides slab_loss
    Share weighing_tolerance; ///< error in one weighing that a maker accepts
    RelativeHumidity humidity; ///< of the room
    Temperature temperature{}; ///< of the room and its water
};

/// What a figure typed without its uncertainty is good to.
struct TypedDoubts {
    double density = 0.0;
    double reading = 0.0; ///< of a moisture, a tapped density or a median size
    double bought_oil = 0.0; ///< of its density
};

struct BenchPractice {
    RubOutPrior rub_out;
    double moisture_drift = 0.0; ///< of the powder's mass, by damp or drying from one weighing to another
    double shared_guess = 0.0;   ///< of what guesses of one class of pigment have in common
    double spoon_filling = 0.0;  ///< of what a level spoon or a tapped measure of powder holds
    SmallAmountPractice small_amounts;
    NoticeFrom notice{};
    AssumedBench assumed_bench{};
    TypedDoubts typed{};
    Estimate<MassDensity> test_oil; ///< density of the oil of a rub-out, where neither pigment nor maker says
};

} // namespace lakebound
