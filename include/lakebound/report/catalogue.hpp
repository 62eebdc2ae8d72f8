#pragma once
// What lies on the shelf, as a list to choose from.

#include <string>
#include <vector>

namespace lakebound {

struct CatalogueEntry {
    std::string id, name;
};
struct CatalogueGroup {
    std::string kind; ///< "recipes", "pigments"
    std::vector<CatalogueEntry> entries;
};

std::string catalogue_text(const std::vector<CatalogueGroup>& groups);
std::string catalogue_json(const std::vector<CatalogueGroup>& groups);

} // namespace lakebound
