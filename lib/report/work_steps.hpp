#pragma once
// The steps at the slab, by what binds the paint; process_words says which are whose. Internal.

#include <string>
#include <vector>

#include "lakebound/paint/batch_subject.hpp"

namespace lakebound::layout {

using OrderOfWork = std::vector<std::string> (*)(const BatchRequest& request, const Batch& batch);

std::vector<std::string> work_in_gum(const BatchRequest& request, const Batch& batch);
std::vector<std::string> work_in_oil(const BatchRequest& request, const Batch& batch);
std::vector<std::string> work_in_yolk(const BatchRequest& request, const Batch& batch);

} // namespace lakebound::layout
