#pragma once
// A sieve test from its file: YAML (kind: sieve test), CSV, or what lakebound-sieve --json wrote of it;
// docs/file-formats.md has them.

#include <memory>

#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"
#include "lakebound/shelf/record_places.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The sieve test of a parsed file, and where its parts stand. Masses are netted of their tares; a wet test gets
/// what passed by difference. Throws InputError with all that is wrong in it.
[[nodiscard]] PlacedSieveTest read_sieve_test(Document document, std::string id);

/// The tree that the same test would have in YAML, every cell at its own place.
/// Columns `screen,mass` or `screen,gross,tare`, a header first, quantities with units in the cells.
/// Throws InputError: csv-header, csv-columns, csv-separator, csv-quote, csv-row, number-comma.
[[nodiscard]] Document parse_sieve_csv(std::shared_ptr<const Source> source);

/// True when the path ends in .csv, or the first line that is no remark opens a CSV header.
[[nodiscard]] bool is_sieve_csv(const Source& source);

/// Reads any of the three forms ("-": standard input). Throws InputError, as sieve_test_of_answer besides.
[[nodiscard]] PlacedSieveTest read_sieve_test_file(const std::string& path);
/// The same from bytes already in memory.
[[nodiscard]] PlacedSieveTest read_sieve_test_file(const std::string& path, std::string bytes);

} // namespace lakebound
