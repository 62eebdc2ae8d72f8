#pragma once
// Reads one entry of a jar's record: a small YAML file that was written once (record/entry.hpp). Also writes its text.

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/record/entry.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What the words of entries stand for; shared by all entries of a studio.
struct EntryWords {
    std::vector<std::string> families;       ///< ids of those that were painted, numbered as they come
    std::map<std::string, std::size_t> lots; ///< of medium, numbered as they come
};

/// An entry as its file has it, with what only a reader wants of it.
struct ReadEntry {
    Entry entry;
    std::string note;   ///< its remark; of a drawn powder what for
    std::string medium; ///< of a paint, id of the medium; empty when not said
    std::string recipe; ///< of a batch, likewise
    std::string bottle; ///< of medium, where the paint names it
    Mass medium_mass{}; ///< of a paint, 0 when not said
    std::optional<DropCalibration> dropper; ///< of a rub-out by drops
    Excerpt at;         ///< of its `what`
};

/// id: of the entry; jar: the one it must be of. Throws InputError with every fault of the file.
[[nodiscard]] ReadEntry read_entry(Document document, std::string id, const Jar& jar, Library& library, EntryWords& words);

/// The text of an entry file, key by key.
class EntryText {
public:
    EntryText(std::string_view jar, std::string_view date, std::string_view what);
    /// Of another kind of file: its kind, the key of whose it is, whose; date and what where they are not empty.
    EntryText(std::string_view kind, std::string_view key, std::string_view whose, std::string_view date, std::string_view what);
    /// A value that needs no quotes: a quantity, a word, an id; empty where a map follows.
    EntryText& add(std::string_view key, std::string_view value);
    /// Whatever a person typed.
    EntryText& add_quoted(std::string_view key, std::string_view text);
    const std::string& text() const noexcept { return text_; }

private:
    std::string text_;
};

} // namespace lakebound
