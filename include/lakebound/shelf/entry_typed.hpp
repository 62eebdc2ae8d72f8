#pragma once
// Typed entries: what a maker types of a jar on the command line, as the text of an entry file.
//
// Every text is short and in the order of the hands: powder first, then what was put to it.
//   --rub-out "2.00 g, 1.56 g"                 powder, oil; or drops: "2.00 g, 43 drops" with a dropper
//   --swatch "0.20 g, 0.83 g"                  powder, medium; its sign may follow: "...: chalks"
//   --stroke "6.0 g, 4.6 g: chalks"            of the paint on the slab, that holds so much so far
//   --mixed "6.0 g, 9.8 g"                     a batch as it was really mixed
//   --saw "chalks", "2: does not chalk"        of the oldest swatch that waits, or of that number
//   --went "holds", "1 shines"                 of the last batch, or of that number

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/record/jar_story.hpp"
#include "lakebound/shelf/studio.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One entry to be written.
struct TypedEntry {
    std::string what;
    std::string text;
    std::string remark{}; ///< what was taken for granted in it; mostly nothing
};

/// Who, when and with what: shared by all.
struct EntryContext {
    std::string jar, date;
    std::optional<std::string> note, lot;
    Bench bench;
};

// option: for messages. Throws InputError entry-typed: the form is wrong, with how to write it.
[[nodiscard]] TypedEntry typed_weighed(const EntryContext& context, const std::string& text);
[[nodiscard]] TypedEntry typed_drawn(const EntryContext& context, const std::string& text);
/// A dropper whose drops were weighed for an earlier rub-out.
struct KnownDropper {
    DropCalibration calibration;
    std::string date;
};
/// That of the last rub-out by drops, of any jar.
[[nodiscard]] std::optional<KnownDropper> last_dropper(const Studio& studio);
/// dropper: as typed; in its place, for oil in drops, the one that is known.
[[nodiscard]] TypedEntry typed_rub_out(const EntryContext& context, const std::string& text, const std::optional<std::string>& dropper,
                         const std::optional<KnownDropper>& known = {});
/// "density: 1.86 +- 0.05 g/cm3".
[[nodiscard]] TypedEntry typed_measured(const EntryContext& context, const std::string& text);
[[nodiscard]] TypedEntry typed_swatch(const EntryContext& context, const std::string& text, std::string_view family,
                        std::string_view medium);
[[nodiscard]] TypedEntry typed_stroke(const EntryContext& context, const std::string& text, std::string_view family,
                        std::string_view medium);
/// A batch of so much powder and medium, without a sheet of ours. medium: that it was mixed with.
[[nodiscard]] TypedEntry typed_mixed(const EntryContext& context, const std::string& text, std::string_view family,
                       const Medium& medium);
/// path: of a sieve test's file, in any form it may have; the entry holds the test itself. Throws InputError as its reader.
[[nodiscard]] TypedEntry typed_sieving(const EntryContext& context, const std::string& path);
/// path: of a settling test of timed grains, held likewise.
[[nodiscard]] TypedEntry typed_settling(const EntryContext& context, const std::string& path);
/// The swatches that the card asks for.
[[nodiscard]] std::vector<TypedEntry> planned_swatches(const EntryContext& context, const JarStory& story);
[[nodiscard]] TypedEntry typed_sign(const EntryContext& context, const std::string& text, const JarStory& story);
[[nodiscard]] TypedEntry typed_outcome(const EntryContext& context, const std::string& text, const JarStory& story);
[[nodiscard]] TypedEntry typed_change(const EntryContext& context);
[[nodiscard]] TypedEntry typed_note(const EntryContext& context);
/// The name of the entry that is meant: "last" by day, a name, or that of its file.
[[nodiscard]] std::string entry_to_undo(const std::string& text, const JarStory& story);
[[nodiscard]] TypedEntry typed_undo(const EntryContext& context, const std::string& text, const JarStory& story);

/// Of a batch that was sized: its masses as the sheet lets them be weighed. part: index of the jar's pigment.
[[nodiscard]] TypedEntry kept_batch(const EntryContext& context, const BatchRequest& request, const Batch& batch, std::size_t part,
                      double weighing_spread);

/// The studio as it would be with these entries. Throws InputError as with_entry.
[[nodiscard]] Studio with_entries(Studio studio, const Jar& jar, const std::string& date, const std::vector<TypedEntry>& entries,
                    Library& library, std::chrono::sys_days today);
/// Writes them, once they were found to be sound. Returns the last one's path. Throws InputError as write_entry.
[[nodiscard]] std::string write_entries(const Studio& studio, const Jar& jar, const std::string& date,
                          const std::vector<TypedEntry>& entries);

} // namespace lakebound
