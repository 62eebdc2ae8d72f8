#pragma once
// lakebound-sieve: what a sieve test says, and whether the powder is fine enough.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_sieve(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
