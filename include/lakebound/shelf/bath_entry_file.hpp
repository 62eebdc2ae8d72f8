#pragma once
// Reads one entry of a bath's record, a small YAML file that was written once (record/bath_entry.hpp), and writes its text.

#include <optional>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/record/bath_entry.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// An entry as its file has it, with what only a reader wants of it.
struct ReadBathEntry {
    BathEntry entry;
    std::string reading; ///< as it was typed; of a jar its name
    std::string note;
    Excerpt at; ///< of its `what`
};

/// id: of the entry; bath: the one it must be of; empty: any. Throws InputError with every fault of the file.
[[nodiscard]] ReadBathEntry read_bath_entry(Document document, std::string id, std::string_view bath);

} // namespace lakebound
