#pragma once
// What lies on the shelf, as a list to choose from.

#include <string>
#include <vector>

#include "lakebound/page/page.hpp"

namespace lakebound {

struct ListedThing {
    std::string id, name;
};
struct ListedKind {
    std::string kind; ///< "recipes", "pigments"
    std::vector<ListedThing> entries;
};

page::Page shelf_list_page(const std::vector<ListedKind>& groups);
std::string shelf_list_json(const std::vector<ListedKind>& groups);

} // namespace lakebound
