#pragma once
// lakebound-batch: what to weigh for a paint, and whether it will hold.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_batch(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
