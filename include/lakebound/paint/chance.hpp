#pragma once
// Chance: how well k, PVC, CPVC and reduced PVC of one batch are known, and how likely it is underbound.
//
// The film_state of formulation.hpp is evaluated over the uncertain inputs: of every pigment the oil
// absorption, test-oil density, density, moisture and weighing; of the binder its index, solids,
// density and weighing; and the step from the oil rub-out to this binder. The budgets are of the
// logarithms (jcgm-100, first order); PVC and CPVC share the pigment density, so their correlation is
// kept, and the reduced PVC is known better than either.
//   sigma = standard deviation of ln k;   P(k < limit) = Phi(ln(limit / k) / sigma)
// Monte Carlo (jcgm-101) draws the same function when asked for. Model error beyond these inputs
// (a film is not a rub-out) is only what `method_transfer` of the family says.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/paint/batch.hpp"
#include "lakebound/paint/spread.hpp"

namespace lakebound {

/// Standard deviation of ln m by moisture where a pigment's was not measured (estimate).
inline constexpr double unmeasured_moisture_spread = 0.03;

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
};

struct WindowChances {
    Probability underbound;  ///< k < 1
    Probability below_amber; ///< fails under
    Probability below_green;
    Probability above_green;
    Probability above_amber; ///< fails over
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
    double sigma = 0.0; ///< of ln k
    /// Standard uncertainties in the ratio itself: value x that of the logarithm.
    double k_uncertainty = 0.0, pvc_uncertainty = 0.0, cpvc_uncertainty = 0.0, reduced_pvc_uncertainty = 0.0;
    double pvc_cpvc_correlation = 0.0;                   ///< of the logarithms
    WindowChances chances;                               ///< closed form
    BinderSufficiency k_for_5_percent, k_for_10_percent; ///< k to aim at for that chance of k < 1
    LogSpread spread;                                    ///< the same, gathered into the terms of spread.hpp
    std::optional<DrawnFilm> drawn;                      ///< when draws were asked for
};

/// Chances of a batch sized for the request. Throws DomainError as the estimate floor does.
BatchChance batch_chance(const BatchRequest& request, const Batch& batch, const ChanceOptions& options = {});

} // namespace lakebound
