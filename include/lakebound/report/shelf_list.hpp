#pragma once
// What lies on the shelf, as a list to choose from.

#include <string>
#include <vector>

namespace lakebound {

struct ListedThing {
    std::string id, name;
};
struct ListedKind {
    std::string kind; ///< "recipes", "pigments"
    std::vector<ListedThing> entries;
};

std::string shelf_list_text(const std::vector<ListedKind>& groups);
std::string shelf_list_json(const std::vector<ListedKind>& groups);

} // namespace lakebound
