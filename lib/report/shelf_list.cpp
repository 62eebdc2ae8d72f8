#include "lakebound/report/shelf_list.hpp"

#include <algorithm>

#include "json_pieces.hpp"
#include "page_builder.hpp"

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
    auto json = json_pieces::envelope("shelf_list", 1);
    for (const auto& group : groups) {
        json[group.kind] = json_pieces::Json::array();
        for (const auto& entry : group.entries)
            json[group.kind].push_back({{"id", entry.id}, {"name", entry.name}});
    }
    return json_pieces::json_text(json);
}

page::Page shelf_files_page(const std::string& id, const std::vector<ListedFile>& files) {
    layout::PageBuilder page({.kind = "On the shelf", .name = id});
    std::vector<std::string> sources; // told once, below
    const auto number_of = [&](const std::string& source) {
        const auto known = std::find(sources.begin(), sources.end(), source);
        const auto number = known - sources.begin() + 1;
        if (known == sources.end()) sources.push_back(source);
        return std::to_string(number);
    };
    for (const auto& file : files) {
        page.section(file.kind);
        page.paragraph(page::strong(file.name));
        page::Table table{.caption = file.name,
                          .columns = {{.head = "what", .align = page::Align::left},
                                      {.head = "as the file has it", .align = page::Align::left},
                                      {.head = "from", .align = page::Align::left}}};
        for (const auto& figure : file.figures) {
            std::string whence = figure.origin;
            if (!figure.source.empty())
                whence.append(whence.empty() ? "[" : " [").append(number_of(figure.source)).append("]");
            table.rows.push_back({.cells = {figure.key, page::code(figure.value), whence}});
        }
        page.add(std::move(table));
        if (!file.note.empty()) page.paragraph(file.note);
    }
    if (!sources.empty()) page.section("Sources");
    for (std::size_t i = 0; i < sources.size(); ++i)
        page.fact("[" + std::to_string(i + 1) + "]", sources[i]);
    page.section("Where it lies");
    for (const auto& file : files)
        page.add(page::Preformatted{{file.path}});
    return std::move(page).page();
}

std::string shelf_files_json(const std::string& id, const std::vector<ListedFile>& files) {
    using json_pieces::Json;
    const auto add = [](Json& to, const char* key, const std::string& text) {
        if (!text.empty()) to[key] = text;
    };
    auto json = json_pieces::envelope("shelf_files", 1);
    json["id"] = id;
    json["files"] = Json::array();
    for (const auto& file : files) {
        Json told{{"kind", file.kind}};
        add(told, "name", file.name);
        told["path"] = file.path;
        add(told, "note", file.note);
        told["figures"] = Json::array();
        for (const auto& figure : file.figures) {
            Json line{{"key", figure.key}};
            add(line, "text", figure.value);
            add(line, "origin", figure.origin);
            add(line, "source", figure.source);
            add(line, "note", figure.note);
            told["figures"].push_back(std::move(line));
        }
        json["files"].push_back(std::move(told));
    }
    return json_pieces::json_text(json);
}

} // namespace lakebound
