#pragma once
// Whether a world and a record can be reckoned with at all.

#include "lakebound/record/demand_priors.hpp"
#include "lakebound/record/demand_record.hpp"

namespace lakebound {

/// DomainError naming the first figure that cannot be.
void check_spread(double spread, const char* what, bool may_be_zero = true);
void check_index(std::size_t index, std::size_t count, const char* what);
void check_record(const DemandWorld& world, const DemandRecord& record);

} // namespace lakebound
