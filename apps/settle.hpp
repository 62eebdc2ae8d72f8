#pragma once
// lakebound-settle: parting grains in water by the clock, and when to decant a fresh lake.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_settle(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
