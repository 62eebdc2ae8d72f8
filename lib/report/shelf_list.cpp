#include "lakebound/report/shelf_list.hpp"

#include "json_pieces.hpp"

namespace lakebound {

page::Page shelf_list_page(const std::vector<ListedKind>& groups) {
    page::Page page;
    page.title = {.kind = "On the shelf"};
    for (const auto& group : groups) {
        page::Table table{.caption = group.kind, .columns = {{.align = page::Align::left}, {.align = page::Align::left}}};
        for (const auto& entry : group.entries)
            table.rows.push_back({.cells = {page::code(entry.id), entry.name}});
        page.sections.push_back({.heading = group.kind, .blocks = {std::move(table)}});
    }
    return page;
}

std::string shelf_list_json(const std::vector<ListedKind>& groups) {
    nlohmann::ordered_json json{{"schema_version", 1}, {"kind", "shelf_list"}};
    for (const auto& group : groups) {
        json[group.kind] = nlohmann::ordered_json::array();
        for (const auto& entry : group.entries)
            json[group.kind].push_back({{"id", entry.id}, {"name", entry.name}});
    }
    return json_pieces::json_text(json);
}

} // namespace lakebound
