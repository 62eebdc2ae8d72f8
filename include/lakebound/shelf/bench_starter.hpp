#pragma once
// Bench starter: a maker's first bench.yaml, from the steps of her scales.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The text of a bench file; steps: "0.1 g, 0.01 g", the smallest difference each scale shows. All else is what is
/// assumed of a bench that nobody has described, with a remark on how to measure it. Throws InputError: quantity faults,
/// out-of-range where a step is not above 0.
[[nodiscard]] std::string bench_starter(const std::string& steps, const AssumedBench& assumed);

/// Writes it as bench.yaml of the folder one stands in, and returns that path. Throws InputError also as safe_write.
[[nodiscard]] std::string begin_bench_file(const std::string& steps, const AssumedBench& assumed);

} // namespace lakebound
