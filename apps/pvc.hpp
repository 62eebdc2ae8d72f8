#pragma once
// lakebound-pvc: on which side of its limits a paint lies, how sure that is, and what to do about it.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_pvc(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
