#pragma once
// A bench reading from its file (kind: bench reading; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/material/bench_reading.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The reading of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] BenchReading read_bench_reading(Document document);
/// The same from a path ("-": standard input).
[[nodiscard]] BenchReading read_bench_reading_file(const std::string& path);

} // namespace lakebound
