#include "lakebound/report/catalogue.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "text_layout.hpp"

namespace lakebound {

std::string catalogue_text(const std::vector<CatalogueGroup>& groups) {
    layout::Page page(false);
    std::size_t width = 0;
    for (const auto& group : groups)
        for (const auto& entry : group.entries)
            width = std::max(width, layout::columns(entry.id));
    for (const auto& group : groups) {
        page.heading(group.kind);
        for (const auto& entry : group.entries)
            page.item(layout::padded(entry.id, width + 1), entry.name);
    }
    return page.text();
}

std::string catalogue_json(const std::vector<CatalogueGroup>& groups) {
    nlohmann::ordered_json json{{"schema_version", 1}, {"kind", "catalogue"}};
    for (const auto& group : groups) {
        json[group.kind] = nlohmann::ordered_json::array();
        for (const auto& entry : group.entries)
            json[group.kind].push_back({{"id", entry.id}, {"name", entry.name}});
    }
    return json.dump(2) + "\n";
}

} // namespace lakebound
