#pragma once
// lakebound-bath: from plant to jar: a bath sheet, and where a bath stands by its readings.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

/// The command with these arguments (without its name); returns the exit status.
int run_bath(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
