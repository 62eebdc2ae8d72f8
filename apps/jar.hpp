#pragma once
// lakebound-jar: keeps the record of a jar, and tells what it teaches.

#include <span>
#include <string>

#include "common/streams.hpp"

namespace lakebound {

int run_jar(std::span<const std::string> arguments, Streams& streams);

} // namespace lakebound
