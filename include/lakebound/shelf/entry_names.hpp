#pragma once
// The files of a record, of a jar as of a bath: their folder, their names, and how a new one is written.
//
//   FOLDER/2026-05-03-01-swatch.yaml    day, number of the day, what happened
// Each is written once, whole, under a name that nobody else has taken meanwhile.

#include <chrono>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// "2026-05-03".
[[nodiscard]] std::string iso_text(std::chrono::sys_days day);

/// The entry files of a folder, by name; none when the folder is not there. Throws InputError shelf-unusable.
[[nodiscard]] std::vector<std::string> entry_files(const std::string& folder);

/// Of these files "2026-05-03-02", where an entry of that day has a higher number and none has this: numbers are given
/// without a gap, so that a file was taken away.
[[nodiscard]] std::vector<std::string> missing_entries(std::span<const std::string> names);

/// Throws InputError entry-name unless the stem is that of an entry of this day that tells this; a copy would count twice.
void check_entry_name(std::chrono::sys_days day, std::string_view what, std::string_view stem, const std::string& path);

/// A stem that none of these has: day, number of the day, what.
[[nodiscard]] std::string free_entry_stem(std::span<const std::string> stems, std::string_view date, std::string_view what);

/// Writes the entry, whole and once; when its name was taken meanwhile, under the next one. Returns its path.
/// Throws InputError as safe_write, and write-permission or write-failed when the folder cannot be made.
[[nodiscard]] std::string write_entry_file(const std::string& folder, std::string_view date, std::string_view what,
                                           const std::string& text);

/// The faults of a text that was never a file: told of the command line, not of lines that nobody typed.
[[nodiscard]] InputError as_typed(const InputError& error);

} // namespace lakebound
