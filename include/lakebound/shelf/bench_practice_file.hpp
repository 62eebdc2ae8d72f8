#pragma once
// How far the work of a bench scatters, from its file (kind: bench practice; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Throws InputError with every fault of the file.
[[nodiscard]] BenchPractice read_bench_practice(Document document);
[[nodiscard]] BenchPractice read_bench_practice_file(const std::string& path);

} // namespace lakebound
