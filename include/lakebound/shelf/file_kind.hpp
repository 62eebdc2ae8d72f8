#pragma once
// The kinds of file, one row each: the word in the file, the folder on the shelf, the schema, the reader. Library,
// check_file, the list of the shelf and the hints of faults read this table and nothing else.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct FileKind {
    std::string_view word;          ///< of the key `kind`: "fineness target"
    std::optional<ShelfKind> shelf; ///< empty for what has no folder on the shelf: bench, tests, readings
    std::string_view folder;        ///< "targets"; empty where there is none
    int list_place;                 ///< where --list shows it, from 1; 0: it does not
    /// Reads a document of this kind and forgets the result. Throws InputError.
    void (*read)(Document document, const std::string& id, Library& library, const Jar* jar);
};

/// All kinds, in the order in which a hint names them.
[[nodiscard]] std::span<const FileKind> file_kinds() noexcept;

/// The row of a kind that has a folder.
[[nodiscard]] const FileKind& file_kind(ShelfKind kind) noexcept;

/// "fineness-target.schema.json", in the folder `schema` of the shipped shelf.
[[nodiscard]] std::string schema_file(const FileKind& kind);

/// The kinds that --list shows, in that order.
[[nodiscard]] std::span<const ShelfKind> listed_kinds();

} // namespace lakebound
