#pragma once
// Bath record: a bath in the maker's own studio, its file and its entries, read whole.
//
//   STUDIO/baths/madder.yaml                          what is at hand; typed or begun by lakebound-bath, never rewritten
//   STUDIO/baths/madder/2026-05-03-01-poured.yaml     written once by lakebound-bath
// Entries are read like any file, those typed by hand too. The name of an entry is its stem.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/record/bath_story.hpp"
#include "lakebound/shelf/bath_entry_file.hpp"
#include "lakebound/shelf/entry_typed.hpp"
#include "lakebound/shelf/typed_bath.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct BathRecord {
    std::string id, path, folder; ///< path of its file, folder of its entries
    BathTexts texts;              ///< of its file
    std::vector<ReadBathEntry> entries;
};

/// The file of a bath that is named by its id, of the folder one stands in or of a shelf, or by its path. Throws
/// InputError id-unknown, id-form.
[[nodiscard]] std::string bath_path(const std::string& id_or_path, const Library& library);

/// Throws InputError with all that is wrong with the bath's file and the files of its entries.
[[nodiscard]] BathRecord read_bath_record(const std::string& path, Library& library);

/// The record folded as of `today`. Throws InputError entry-contradicts, with both places.
[[nodiscard]] BathStory told_bath(const BathRecord& record, const BathPlan& plan, const BathSetting& setting, std::chrono::sys_days today);

/// The wish with what the maker's other baths of this aluminium salt, in the same folder, teach of the hydroxides it takes
/// up: the end point of each that came to its stop. path: of the bath's own file, left out. Throws InputError as
/// read_bath_record and told_bath.
[[nodiscard]] BathWish with_own_end_points(BathWish wish, const std::string& path, Library& library, const LakingHabits& laking,
                                           const WashHabits& washing, const Bench& bench, std::chrono::sys_days today);

/// What an entry says beside its reading.
struct BathEntryContext {
    std::string date;
    std::optional<std::string> hour, note, undo;
};
/// The entries that these readings make, in the order of the work. Throws InputError: bath-typed; entry-typed for an undo of
/// what is not there.
[[nodiscard]] std::vector<TypedEntry> typed_bath_entries(const BathRecord& record, const BathTexts& texts,
                                                         const BathEntryContext& context);
/// That the bath went into this jar. net: as typed.
[[nodiscard]] TypedEntry jarred_entry(const BathRecord& record, const std::string& jar, const std::optional<std::string>& net,
                                      const BathEntryContext& context);
/// The record as it would be with these entries. Throws InputError with the faults of their texts.
[[nodiscard]] BathRecord with_bath_entries(BathRecord record, const std::string& date, const std::vector<TypedEntry>& entries);
/// Writes them, once they were found to be sound. Returns the last one's path. Throws InputError as write_entry_file.
[[nodiscard]] std::string write_bath_entries(const BathRecord& record, const std::string& date, const std::vector<TypedEntry>& entries);

/// Writes baths/ID.yaml of the folder one stands in from what is at hand, and returns its path. Throws InputError: id-form,
/// and as safe_write.
[[nodiscard]] std::string begin_bath_file(const std::string& id, const BathTexts& texts, const std::string& date);

} // namespace lakebound
