#pragma once
// Internal face of process.cpp: what a batch has besides its masses and its film, by the way it is made up: pans in the room's air, the cured oil,
// the eggs to open.

#include <optional>

#include "lakebound/paint/batch.hpp"

namespace lakebound::detail {

/// The air that the dry paint takes water from; only gum media are modelled in it.
std::optional<RelativeHumidity> room_air(const BatchRequest& request);

/// Sets the extras of the batch's process from all else in it. Throws DomainError for a million eggs.
void add_process_extras(const BatchRequest& request, Batch& batch);

} // namespace lakebound::detail
