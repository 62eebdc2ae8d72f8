#pragma once
// A bench from its file (kind: bench; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The bench of a parsed file. Throws InputError with all that is wrong in it.
[[nodiscard]] Bench read_bench(Document document);
/// The same from a path ("-": standard input), following its includes.
[[nodiscard]] Bench read_bench_file(const std::string& path);

} // namespace lakebound
