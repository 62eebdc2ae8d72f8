#pragma once
// A screen named in a file: "75 um", "No. 200", "nylon 200 mesh thread 50 um". Internal.

#include <optional>
#include <string_view>

#include "lakebound/particle/sieve_series.hpp"
#include "lakebound/shelf/document.hpp"

namespace lakebound {

/// The screen at the node; nothing, with a fault, when it cannot be read as one.
std::optional<Sieve> read_screen(const Node& node, std::string_view name, Faults& faults);

} // namespace lakebound
