#pragma once
// A settling test from its file (kind: settling test; docs/file-formats.md).

#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"
#include "lakebound/shelf/record_places.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The settling test of a parsed file, and where it stands. Throws InputError with all that is wrong in it.
[[nodiscard]] PlacedSettlingTest read_settling_test(Document document, std::string id);
/// The same from a path ("-": standard input); the id is the file's stem.
[[nodiscard]] PlacedSettlingTest read_settling_test_file(const std::string& path);

/// Three heights of the interface at equal intervals, checked as fit_zone_settling wants them;
/// nothing, with a fault at `at`, when they are not.
[[nodiscard]] std::optional<InterfaceHeights> checked_heights(const Excerpt& at, const InterfaceHeights& heights,
                                                              Faults& faults);

} // namespace lakebound
