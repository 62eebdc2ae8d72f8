#pragma once
// Objections in words: what stands against a paint whatever its k.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "will not bind": stands in place of the verdict.
[[nodiscard]] const char* objection_head(ObjectionKind kind) noexcept;
/// The objection, and what to do about it, in sentences.
[[nodiscard]] std::string objection_text(const Objection& objection, const BatchRequest& request, const Batch& batch);

} // namespace lakebound
