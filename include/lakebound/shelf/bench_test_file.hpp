#pragma once
// A test that a maker could do next, from its file (kind: bench test; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/paint/next_measurement.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

class Library;

/// The test of a parsed file; one that is a step of learning takes its cost from the learning
/// habits of the library. Throws InputError with all that is wrong in it.
[[nodiscard]] CandidateTest read_bench_test(Document document, std::string id, Library& library);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] CandidateTest read_bench_test_file(const std::string& path, Library& library);

} // namespace lakebound
