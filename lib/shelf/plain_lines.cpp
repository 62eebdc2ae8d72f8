#include "plain_lines.hpp"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

namespace lakebound {
namespace {

constexpr std::size_t most_keys = 96; ///< of a map; they are searched one by one
constexpr std::size_t deepest = 16;   ///< spaces before a line
constexpr std::size_t most_lines = 4096;       ///< the general parser counts what a longer file holds
constexpr std::size_t longest_brackets = 4096; ///< signs

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
    constexpr std::string_view harmless = " .,;+-/_()%='";
    return std::all_of(value.begin(), value.end(),
                       [&](char c) { return is_plain_letter(c) || harmless.find(c) != std::string_view::npos; });
}

/// Of a folded text: whatever can be seen, for nothing in it is interpreted.
bool is_seen(std::string_view text) {
    return !text.empty() && text.back() != ' ' &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

struct Line {
    std::size_t offset; ///< of its first sign
    std::size_t indent;
    std::string_view text; ///< from there to its end
};

/// Each function answers nothing where a line is not plain.
class PlainReader {
public:
    explicit PlainReader(const Source& source) : source_(source) {}

    std::optional<Node> read() {
        const std::string_view text = source_.text();
        for (std::size_t start = 0; start < text.size();) {
            const std::size_t end = std::min(text.find('\n', start), text.size());
            const std::string_view line = text.substr(start, end - start);
            const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
            if (lines_.size() == most_lines) return std::nullopt;
            lines_.push_back({start + indent, indent, line.substr(indent)});
            start = end + 1;
        }
        return map(0); // its lines go on to the last
    }

private:
    static bool says_nothing(const Line& line) { return line.text.empty() || line.text.front() == '#'; }
    void pass_over() {
        while (at_ < lines_.size() && says_nothing(lines_[at_]))
            ++at_;
    }
    Node node(Node::Kind kind, std::size_t offset, std::size_t length) const {
        Node node;
        node.kind = kind;
        node.source = &source_;
        node.offset = offset;
        node.length = length;
        return node;
    }
    Node scalar(std::size_t offset, std::string_view text) const {
        Node one = node(Node::Kind::scalar, offset, text.size());
        one.text = text;
        return one;
    }

    std::optional<Node> map(std::size_t indent) {
        pass_over();
        if (at_ == lines_.size() || indent > deepest) return std::nullopt;
        Node map = node(Node::Kind::map, lines_[at_].offset, lines_[at_].text.size());
        for (; at_ < lines_.size() && lines_[at_].indent >= indent; pass_over()) {
            const Line line = lines_[at_];
            const std::size_t colon = line.text.find(':');
            if (line.indent > indent || colon == std::string_view::npos || map.keys.size() == most_keys) return std::nullopt;
            const std::string_view key = line.text.substr(0, colon), rest = line.text.substr(colon + 1);
            if (!is_plain_key(key) || map.find_key(key) != nullptr) return std::nullopt;
            ++at_;
            auto value = rest.empty() ? beneath(indent) : rest.front() != ' ' ? std::nullopt : beside(line.offset + colon + 2, rest.substr(1), indent);
            if (!value) return std::nullopt;
            map.keys.push_back(scalar(line.offset, key));
            map.items.push_back(std::move(*value));
        }
        return map.keys.empty() ? std::nullopt : std::optional(std::move(map));
    }

    /// What stands under a key that has nothing beside it.
    std::optional<Node> beneath(std::size_t indent) {
        pass_over();
        if (at_ == lines_.size() || lines_[at_].indent != indent + 2) return std::nullopt;
        return lines_[at_].text.front() == '-' ? sequence(indent + 2) : map(indent + 2);
    }

    std::optional<Node> sequence(std::size_t indent) {
        Node list = node(Node::Kind::sequence, lines_[at_].offset, lines_[at_].text.size());
        for (; at_ < lines_.size() && lines_[at_].indent >= indent; pass_over()) {
            Line& line = lines_[at_];
            if (line.indent > indent || !line.text.starts_with("- ")) return std::nullopt;
            const std::string_view item = line.text.substr(2);
            std::optional<Node> one;
            if (const std::size_t colon = item.find(':'); colon != std::string_view::npos && is_plain_key(item.substr(0, colon))) {
                line = {line.offset + 2, line.indent + 2, item}; // a map that begins beside the dash
                one = map(indent + 2);
            } else {
                ++at_;
                one = beside(line.offset + 2, item, indent);
            }
            if (!one) return std::nullopt;
            list.items.push_back(std::move(*one));
        }
        return list;
    }

    /// On the line of its key or dash, or begun there.
    std::optional<Node> beside(std::size_t offset, std::string_view text, std::size_t indent) {
        if (text.empty()) return std::nullopt;
        if (text == ">-") return folded(offset, indent);
        if (text.front() == '{' || text.front() == '[') return in_brackets(offset, text);
        if (text.front() == '"') return in_quotes(offset, text);
        return is_plain_value(text) ? std::optional(scalar(offset, text)) : std::nullopt;
    }

    /// Of one line, without escapes.
    std::optional<Node> in_quotes(std::size_t offset, std::string_view text) {
        if (text.size() < 3 || text.find_first_of("\"\\", 1) != text.size() - 1 || !is_seen(text)) return std::nullopt;
        Node quoted = scalar(offset, text);
        quoted.style = Node::Style::quoted;
        quoted.text = text.substr(1, text.size() - 2);
        return quoted;
    }

    /// Lines of one indent, which fold to one text; a blank line among them would be a line end.
    std::optional<Node> folded(std::size_t offset, std::size_t indent) {
        Node text = scalar(offset, ">-");
        text.style = Node::Style::block;
        text.text.clear();
        for (; at_ < lines_.size() && lines_[at_].indent == indent + 2 && is_seen(lines_[at_].text); ++at_)
            text.text.append(text.text.empty() ? "" : " ").append(lines_[at_].text);
        if (text.text.empty()) return std::nullopt;
        pass_over();
        if (at_ < lines_.size() && lines_[at_].indent > indent) return std::nullopt;
        return text;
    }

    /// "{fixed: 0.6 g, share: 3 %}" or "[water, ethanol]", on one line and no deeper.
    std::optional<Node> in_brackets(std::size_t offset, std::string_view text) {
        const bool is_map = text.front() == '{';
        if (text.size() < 3 || text.size() > longest_brackets || text.back() != (is_map ? '}' : ']')) return std::nullopt;
        Node list = node(is_map ? Node::Kind::map : Node::Kind::sequence, offset, text.size());
        const std::string_view inside = text.substr(1, text.size() - 2);
        for (std::size_t start = 0; start < inside.size();) {
            const std::size_t end = std::min(inside.find(", ", start), inside.size());
            std::string_view item = inside.substr(start, end - start);
            std::size_t at = offset + 1 + start;
            if (is_map) {
                const std::size_t colon = item.find(": ");
                if (colon == std::string_view::npos) return std::nullopt;
                const std::string_view key = item.substr(0, colon);
                if (!is_plain_key(key) || list.find_key(key) != nullptr || list.keys.size() == most_keys) return std::nullopt;
                list.keys.push_back(scalar(at, key));
                item.remove_prefix(colon + 2);
                at += colon + 2;
            }
            if (!is_plain_value(item) || item.find(',') != std::string_view::npos) return std::nullopt;
            list.items.push_back(scalar(at, item));
            start = end + 2;
            if (end < inside.size() && start >= inside.size()) return std::nullopt; // a comma at the end
        }
        return list;
    }

    const Source& source_;
    std::vector<Line> lines_;
    std::size_t at_ = 0;
};

} // namespace

std::optional<Node> plain_lines(const Source& source) { return PlainReader(source).read(); }

} // namespace lakebound
