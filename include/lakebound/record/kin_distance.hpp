#pragma once
// Kin distance: how far a jar's rub-outs lie from what the studio's other jars foretell.
//
//   distance = (mean y of the jar - mean foretold by the others) / sd of that mean foretold
// with the spread between jars weighed over its values (learned_demand.hpp). Beyond 2 it is worth saying, beyond 2.5
// the jar is better taken out of its kin (estimate).

#include <cmath>

#include "lakebound/export.hpp"
#include "lakebound/record/demand_priors.hpp"
#include "lakebound/record/demand_record.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct KinDistance {
    std::size_t readings = 0; ///< of the jar; with none the rest is 0
    double reading = 0.0;     ///< mean y of the jar
    double expected = 0.0;    ///< from the others
    double expected_spread = 0.0;
    double in_spreads = 0.0; ///< the distance

    /// Times the oil absorption foretold that the jar was read to have.
    double times_expected() const noexcept { return std::exp(reading - expected); }
};

/// DomainError as learned_demand.
[[nodiscard]] KinDistance kin_distance(const DemandWorld& world, const DemandRecord& record, std::size_t jar);

} // namespace lakebound
