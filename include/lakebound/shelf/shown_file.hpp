#pragma once
// Shown file: what a file of the shelf holds, figure by figure, each with where it is from; for people to look at.
//
// As it is written: nothing is converted, checked or left out. What a file means is told by its own reader.

#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ShownFigure {
    std::string key;    ///< "window: green low", "parts"
    std::string value;  ///< as typed
    std::string origin; ///< "published", "memory" ...; empty where the file does not say
    std::string source; ///< where from; may be empty
    std::string note;   ///< may be empty
};
struct ShownFile {
    std::string kind, name, path;
    std::vector<ShownFigure> figures; ///< in the order of the file
    std::string note;                 ///< of the file as a whole
};

/// Every thing of that id on the shelves, of whatever kind: a family and a target may share one. Throws InputError:
/// id-unknown with the nearest names, and what the reading of a file throws.
[[nodiscard]] std::vector<ShownFile> shown_files(const Library& library, std::string_view id);
/// The ids of all that shown_files knows, each once, in alphabetical order.
[[nodiscard]] std::vector<std::string> shown_ids(const Library& library);
/// One file. Throws InputError as load_document.
[[nodiscard]] ShownFile shown_file(const std::string& path);

} // namespace lakebound
