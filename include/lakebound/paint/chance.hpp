#pragma once
// Chance: how well k, PVC, CPVC and reduced PVC of one batch are known.
//
// The film_state of formulation.hpp is evaluated over the uncertain inputs: of every pigment the oil
// absorption, test-oil density, density, moisture and weighing (or its tapped volume); of the binder its
// index, solids, density and weighing; and the step from the oil rub-out to this binder. The budgets are of
// the logarithms (jcgm-100, first order); PVC and CPVC share the pigment density, so their correlation is
// kept, and the reduced PVC is known better than either.
//   ln(true k / k) = normal part + what is curved: a blend's demand is a sum of lognormals, and a binder
//   index stops at 1. The sum is matched by its moments (estimate/lognormal_sum.hpp), it and the index
//   are laid out on a grid (estimate/normal_mixture.hpp), the others stay in closed form; with one pigment
//   and an exact index the doubt is normal.
// Oil absorptions are correlated: rub-outs by the hand and oil of one maker share their variance
// hand_and_oil^2, guesses about pigments of one class share shared_guess^2 (material/bench_practice.hpp).
// Moisture: an oil absorption measured on this powder was taken as weighed, so that only the drift since
// then counts; else the moisture's own uncertainty does.
// Where a record of the jar is given (BatchRequest::learned_doubt), what it leaves open takes the place of oil
// absorption, test oil, moisture, transfer and binder index; solids and density of the binder, which it holds
// too, keep their own lines and are taken off it. The doubt is then that of the record and of the weighing.
// Monte Carlo (jcgm-101) draws the same function when asked for. Model error beyond these inputs
// (a film is not a rub-out) is only what `method_transfer` of the family says.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/judgement.hpp"
#include "lakebound/paint/spread.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ChanceOptions {
    std::size_t draws = 0; ///< of the Monte Carlo; 0: closed form only
    std::uint64_t seed = 1;
    Drawing drawing = Drawing::independent;
    unsigned threads = 1;
    double coverage = 0.95; ///< of the Monte Carlo's intervals
};

/// What the inputs are to the film.
enum class ChanceInput {
    oil_absorption,
    test_oil_density,
    pigment_density,
    moisture,
    pigment_weighing,
    binder_weighing,
    binder_index,
    binder_solids,
    binder_density,
    method_transfer,
    tapped_density, ///< of a pigment measured out by its volume
    spooning,       ///< how evenly a spoon is filled
    learned_demand, ///< what the record of the jar leaves open of its demand in this binder
};

struct DrawnFilm {
    SampleSummary k, pvc, cpvc, reduced_pvc;
    EstimatedProbability underbound, below_amber, below_green, above_green, above_amber;
    double pvc_cpvc_correlation = 0.0;
    std::size_t draws = 0, refused = 0;
};

struct BatchChance {
    std::vector<ChanceInput> kinds;    ///< of the lines of each budget
    std::vector<std::string> subjects; ///< id of the pigment or ingredient, empty for the whole binder
    /// First-order budgets of ln k, ln PVC, ln CPVC, ln reduced PVC; shares sum to 1.
    Budget ln_k, ln_pvc, ln_cpvc, ln_reduced_pvc;
    double sigma = 0.0; ///< standard deviation of `doubt`
    /// Standard uncertainties in the ratio itself: value x that of the logarithm.
    double k_uncertainty = 0.0, pvc_uncertainty = 0.0, cpvc_uncertainty = 0.0, reduced_pvc_uncertainty = 0.0;
    double pvc_cpvc_correlation = 0.0;                   ///< of the logarithms
    NormalMixture doubt;                                 ///< of ln(true k / k)
    BinderSufficiency k_for_5_percent, k_for_10_percent; ///< k to aim at for that chance of k < 1
    LogSpread spread;                                    ///< the same, gathered into the terms of spread.hpp
    std::optional<DrawnFilm> drawn;                      ///< when draws were asked for
};

/// Chances of a batch sized for the request. Throws DomainError as the estimate floor does.
[[nodiscard]] BatchChance batch_chance(const BatchRequest& request, const Batch& batch, const ChanceOptions& options = {});

/// Standard deviation of ln k by how this batch is weighed or spooned alone.
[[nodiscard]] double weighing_spread(const BatchChance& chance);

/// What this paint aims at: what the request or the recipe says or, where neither does, the k at which
/// landing in the window is likeliest. Errors as batch_of and batch_chance.
[[nodiscard]] Aim chosen_aim(const BatchRequest& request, Mass pigment);

} // namespace lakebound
