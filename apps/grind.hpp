#pragma once
// lakebound-grind: how long to grind, in how many rounds, and when to stop.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_grind(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
