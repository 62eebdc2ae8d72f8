#pragma once
// Objections in words: what stands against a paint whatever its k.

#include <string>

#include "lakebound/paint/batch.hpp"

namespace lakebound {

/// "will not bind": stands in place of the verdict.
const char* objection_head(ObjectionKind kind) noexcept;
/// The objection, and what to do about it, in sentences.
std::string objection_text(const Objection& objection, const BatchRequest& request, const Batch& batch);
/// snake_case key of JSON.
const char* objection_key(ObjectionKind kind) noexcept;

} // namespace lakebound
