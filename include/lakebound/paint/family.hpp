#pragma once
// Family: a kind of paint, the window of binder sufficiency k in which it works, and how it is made.

#include <limits>
#include <string>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/sorption.hpp"
#include "lakebound/paint/process.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Limits of k. Inside green: works. Between amber and green: works with care. Outside amber: will
/// not hold. amber_low <= green_low <= green_high <= amber_high.
struct SufficiencyWindow {
    BinderSufficiency amber_low, green_low, green_high, amber_high;

    /// False of a matt paint, which holds with a little air in it.
    bool wants_voids_filled() const noexcept { return green_low > BinderSufficiency::from_proven(1.0); }
};

/// Least shares of the dry binder that must bind (cohesion.hpp): below `none_below` it does not hold, below
/// `weak_below` it holds weakly. 0 asks for nothing.
struct CohesionLimits {
    VolumeFraction none_below, weak_below;
};

/// Plasticiser to dry gum by mass, as practice has it. The initial limits ask for nothing.
struct PlasticiserRange {
    double least = 0.0, most = std::numeric_limits<double>::infinity();
};

/// What a drying oil loses of its volume as it cures.
struct CuringLoss {
    Share least, most;
};

struct Family {
    std::string id;
    std::string name;
    Process process = Process::watercolour;
    BinderSufficiency start; ///< the k to begin with when the recipe names no aim
    SufficiencyWindow window;
    CohesionLimits cohesion;
    Provenance cohesion_evidence;
    PlasticiserRange plasticiser; ///< of a gum paint
    Provenance plasticiser_evidence;
    SoftShareLimits soft_share; ///< of a gum paint
    Provenance soft_share_evidence;
    /// Of an oil paint: water beyond its air-dry state that a powder may hold, of its mass as weighed.
    MassFraction most_excess_water = MassFraction::from_proven(1.0);
    CuringLoss cured_oil_loses; ///< of an oil paint
    Provenance cured_oil_evidence;
    Time medium_keeps{}; ///< of egg tempera
    /// 1 exactly for oil and dissolved gum, and until another is set.
    Estimate<BinderIndex> binder_index = Estimate<BinderIndex>::exact(BinderIndex::of(1.0), {});
    /// Standard deviation of ln k that the step from the oil rub-out to this binder adds.
    double method_transfer = 0.0;
    /// Standard deviation of ln k that the spread of binder solids and binder density adds.
    double binder_solids_spread = 0.0;
    double binder_density_spread = 0.0;
    Provenance evidence; ///< of the window
    std::string note;
};

} // namespace lakebound
