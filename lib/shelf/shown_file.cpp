#include "lakebound/shelf/shown_file.hpp"

#include <algorithm>
#include <utility>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/shelf/document.hpp"

namespace lakebound {
namespace {

/// "green_low": "green low".
std::string in_words(std::string key) {
    std::replace(key.begin(), key.end(), '_', ' ');
    return key;
}

std::string text_of(const Node* node) { return node ? node->text : std::string(); }

/// What says where figures are from: in the map of a figure itself, or under `evidence` for all beside it.
struct Whence {
    std::string origin, source, note;
};

Whence whence(const Node& map) {
    if (const Node* evidence = map.find("evidence"); evidence && evidence->kind == Node::Kind::map)
        return {text_of(evidence->find("origin")), text_of(evidence->find("source")), text_of(evidence->find("note"))};
    return {text_of(map.find("origin")), text_of(map.find("source")), text_of(map.find("note"))};
}

bool says_whence(const std::string& key) {
    return key == "origin" || key == "source" || key == "note" || key == "evidence";
}

/// A map or a list inside a list, in one line: "ingredient gum-arabic, parts 1".
std::string one_line(const Node& node) {
    if (node.kind == Node::Kind::scalar) return node.text;
    std::string text;
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        if (i > 0) text += ", ";
        if (node.kind == Node::Kind::map) text.append(in_words(node.keys[i].text)).append(" ");
        text += one_line(node.items[i]);
    }
    return text;
}

constexpr ShelfKind shown_kinds[] = {ShelfKind::recipe, ShelfKind::medium, ShelfKind::family, ShelfKind::fineness_target,
                                     ShelfKind::pigment, ShelfKind::ingredient, ShelfKind::vessel, ShelfKind::jar,
                                     ShelfKind::bench_test};

void gather(const Node& node, const std::string& key, const Whence& around, std::vector<ShownFigure>& figures) {
    const auto add = [&](const std::string& value, const Whence& from) {
        figures.push_back({key, value, from.origin, from.source, from.note});
    };
    if (node.kind == Node::Kind::scalar) return add(node.text, around);
    if (node.kind == Node::Kind::sequence) {
        for (const auto& item : node.items)
            if (item.kind == Node::Kind::map && item.find("origin"))
                gather(item, key, {}, figures);
            else
                add(one_line(item), around);
        return;
    }
    const Whence here = whence(node);
    const bool has_own = !here.origin.empty() || !here.source.empty();
    if (const Node* value = node.find("value"); value && value->kind == Node::Kind::scalar) {
        add(value->text, has_own ? here : around);
        for (std::size_t i = 0; i < node.items.size(); ++i)
            if (const auto& name = node.keys[i].text; name != "value" && !says_whence(name))
                gather(node.items[i], key + ": " + in_words(name), {}, figures);
        return;
    }
    bool any = false;
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        const auto& name = node.keys[i].text;
        if (says_whence(name)) continue;
        any = true;
        gather(node.items[i], key.empty() ? in_words(name) : key + ": " + in_words(name), has_own ? here : around, figures);
    }
    if (!any && has_own) add({}, here); // a source of the whole
}

} // namespace

ShownFile shown_file(const std::string& path) {
    const Document document = load_document(path);
    document.faults.throw_if_any();
    ShownFile shown{document.kind(), text_of(document.root.find("name")), path, {}, text_of(document.root.find("note"))};
    Whence all; // what stands at the top speaks for every figure that does not speak for itself
    if (const Node* evidence = document.root.find("evidence"); evidence && evidence->kind == Node::Kind::map)
        all = whence(document.root);
    for (std::size_t i = 0; i < document.root.items.size(); ++i) {
        const auto& key = document.root.keys[i].text;
        if (key == "kind" || key == "name" || key == "note" || key == "evidence") continue;
        gather(document.root.items[i], in_words(key), all, shown.figures);
    }
    return shown;
}

std::vector<std::string> shown_ids(const Library& library) {
    std::vector<std::string> known;
    for (const auto kind : shown_kinds)
        for (auto& each : library.ids(kind))
            known.push_back(std::move(each));
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    return known;
}

std::vector<ShownFile> shown_files(const Library& library, std::string_view id) {
    std::vector<ShownFile> found;
    if (is_id(id))
        for (const auto kind : shown_kinds)
            if (const auto path = library.find(kind, id)) found.push_back(shown_file(*path));
    if (!found.empty()) return found;
    const auto near = nearest_names(id, shown_ids(library), 3);
    std::string hint = "'lakebound-batch --list' shows what there is";
    for (std::size_t i = 0; i < near.size(); ++i)
        hint = (i == 0 ? std::string("did you mean '") : hint + ", '") + near[i] + "'";
    throw InputError(command_line_fault("id-unknown", "--show " + std::string(id) + ": nothing of that name is on the shelf",
                                        near.empty() ? hint : hint + "?"));
}

} // namespace lakebound
