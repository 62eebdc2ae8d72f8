#pragma once
// What lies on the shelf, as a list to choose from.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ListedThing {
    std::string id, name;
};
struct ListedKind {
    std::string kind; ///< "recipes", "pigments"
    std::vector<ListedThing> entries;
};

/// A figure of a file on the shelf, with where it is from.
struct ListedFigure {
    std::string key, value, origin, source, note;
};
struct ListedFile {
    std::string kind, name, path, note;
    std::vector<ListedFigure> figures;
};

[[nodiscard]] page::Page shelf_list_page(const std::vector<ListedKind>& groups);
[[nodiscard]] std::string shelf_list_json(const std::vector<ListedKind>& groups);

/// What is in them, figure by figure.
[[nodiscard]] page::Page shelf_files_page(const std::string& id, const std::vector<ListedFile>& files);
[[nodiscard]] std::string shelf_files_json(const std::string& id, const std::vector<ListedFile>& files);

} // namespace lakebound
