#include "lakebound/report/shelf_list.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "text_layout.hpp"

namespace lakebound {

std::string shelf_list_text(const std::vector<ListedKind>& groups) {
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

std::string shelf_list_json(const std::vector<ListedKind>& groups) {
    nlohmann::ordered_json json{{"schema_version", 1}, {"kind", "shelf_list"}};
    for (const auto& group : groups) {
        json[group.kind] = nlohmann::ordered_json::array();
        for (const auto& entry : group.entries)
            json[group.kind].push_back({{"id", entry.id}, {"name", entry.name}});
    }
    return json.dump(2) + "\n";
}

} // namespace lakebound
