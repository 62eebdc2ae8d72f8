#include "plain_lines.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace lakebound {
namespace {

constexpr std::size_t most_lines = 24; ///< of keys; longer files are no entries

bool is_small(char c) { return c >= 'a' && c <= 'z'; }
bool is_figure(char c) { return c >= '0' && c <= '9'; }
bool is_plain_letter(char c) { return is_small(c) || (c >= 'A' && c <= 'Z') || is_figure(c); }

bool is_plain_key(std::string_view key) {
    return !key.empty() && is_small(key.front()) && key != "null" &&
           std::all_of(key.begin(), key.end(), [](char c) { return is_small(c) || is_figure(c) || c == '_'; });
}

bool is_plain_value(std::string_view value) {
    if (value.empty() || !is_plain_letter(value.front()) || value.back() == ' ') return false;
    if (value == "null" || value == "Null" || value == "NULL") return false;
    constexpr std::string_view harmless = " .,;+-/_()%=";
    return std::all_of(value.begin(), value.end(),
                       [&](char c) { return is_plain_letter(c) || harmless.find(c) != std::string_view::npos; });
}

Node scalar(const Source& source, std::size_t offset, std::string_view text) {
    Node node;
    node.kind = Node::Kind::scalar;
    node.source = &source;
    node.offset = offset;
    node.length = text.size();
    node.text = text;
    return node;
}

} // namespace

std::optional<Node> plain_lines(const Source& source) {
    const std::string_view text = source.text();
    Node root;
    root.kind = Node::Kind::map;
    root.source = &source;
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        const std::string_view line = text.substr(start, end - start);
        const std::size_t at = std::exchange(start, end + 1);
        if (line.empty() || line.front() == '#') continue;
        const std::size_t colon = line.find(": ");
        if (colon == std::string_view::npos || root.keys.size() == most_lines) return std::nullopt;
        const std::string_view key = line.substr(0, colon), value = line.substr(colon + 2);
        if (!is_plain_key(key) || !is_plain_value(value) || root.find_key(key) != nullptr) return std::nullopt;
        if (root.keys.empty()) root.offset = at, root.length = line.size();
        root.keys.push_back(scalar(source, at, key));
        root.items.push_back(scalar(source, at + colon + 2, value));
    }
    if (root.keys.empty()) return std::nullopt;
    return root;
}

} // namespace lakebound
