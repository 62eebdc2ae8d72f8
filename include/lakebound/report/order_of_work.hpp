#pragma once
// The order of work at the slab, as numbered steps.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Steps from the first weighing to the label, with the amounts of the weigh sheet.
[[nodiscard]] std::vector<std::string> order_of_work(const BatchRequest& request, const Batch& batch);

} // namespace lakebound
