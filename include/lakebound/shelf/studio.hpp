#pragma once
// Studio: a maker's own shelf with its jars and their records, read whole and folded into what is known today.
//
//   STUDIO/bench.yaml
//   STUDIO/jars/weld.yaml                               typed by the maker; never rewritten
//   STUDIO/records/weld/2026-05-03-01-swatch.yaml       written once by lakebound-jar and lakebound-batch
// Entries are read like any file, those typed by hand too. The name of an entry is its stem.

#include <chrono>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/record/studio_card.hpp"
#include "lakebound/shelf/entry_file.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The folder that a jar's record lies in: of `.../jars/weld.yaml` that above `jars`, else that of the file itself.
[[nodiscard]] std::string studio_of_jar(const std::string& jar_path);
/// Where the entries of a jar lie.
[[nodiscard]] std::string record_folder(const std::string& studio, std::string_view jar);

struct Studio {
    std::string folder;
    std::vector<Jar> jars; ///< by id
    std::vector<ReadEntry> entries;
    EntryWords words;
    std::vector<Family> families; ///< of the words, in their order
    StudioCard card;              ///< jars in the order of `jars`
    std::vector<std::string> missing; ///< "weld/2026-05-03-02": numbers of a day that were skipped, so that a file was lost
    bool has_records() const noexcept { return !entries.empty(); }
    std::optional<std::size_t> find(std::string_view jar) const;
};

/// Ids of the entries that were taken back; they live as long as the studio.
[[nodiscard]] std::set<std::string_view> undone_entries(const Studio& studio);

/// The name of its folder, as the person who made it called it.
[[nodiscard]] std::string studio_name(const Studio& studio);

/// Reads all jars of the studio and all entries, and folds them as of `today`. Throws InputError with what is wrong with
/// the files, and with entries that contradict: entry-contradicts (with both places), entry-jar, shelf-unusable.
/// also: a jar that lies elsewhere and keeps its record here; may be nullptr.
[[nodiscard]] Studio read_studio(const std::string& folder, Library& library, std::chrono::sys_days today, const Jar* also = nullptr);

/// The studio as it was at the end of that day: without the entries and the jars that came later.
[[nodiscard]] Studio as_of(Studio studio, std::chrono::sys_days day, Library& library);

/// The same with one more entry, as it would be once its text is written. Throws InputError: the faults of the text, at
/// the command line; entry-contradicts.
[[nodiscard]] Studio with_entry(const Studio& studio, Library& library, std::chrono::sys_days today, const Jar& jar,
                  const std::string& text, const std::string& stem);

/// A stem that no entry of the jar has: day, number of the day, what.
[[nodiscard]] std::string free_stem(const Studio& studio, std::string_view jar, std::string_view date, std::string_view what);

/// Writes the entry, whole and once; when its name was taken meanwhile, under the next one. Returns its path.
/// Throws InputError as safe_write, and write-folder when the record's folder cannot be made.
[[nodiscard]] std::string write_entry(const Studio& studio, std::string_view jar, std::string_view date, std::string_view what,
                        const std::string& text);

} // namespace lakebound
