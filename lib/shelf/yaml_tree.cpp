#include "yaml_tree.hpp"

#include <algorithm>
#include <optional>
#include <sstream>
#include <unordered_map>
#include <utility>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include "scalar_text.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "yaml_syntax.hpp"

namespace lakebound {
namespace {

/// Thrown through yaml-cpp to end the parsing after a fault that leaves the rest unreadable.
struct Stop {};

constexpr std::size_t linear_search_up_to = 24;

struct Frame {
    Node node;
    bool flow = false;
    bool key_pending = false; ///< of a map: the key has come, its value has not
    bool dropped = false;     ///< the pending key was faulty: its value is read and forgotten
    Node key;
    std::unordered_map<std::string, std::size_t> index; ///< of long maps; short ones are searched
};

bool shows_control(const std::string& text) {
    for (std::size_t i = 0; i < text.size();) {
        const Character c = decode_character(text, i);
        if (c.length == 0 || is_control(c.code) || is_invisible(c.code)) return true;
        i += c.length;
    }
    return false;
}

class TreeBuilder final : public YAML::EventHandler {
public:
    TreeBuilder(const Source& source, Faults& faults)
        : source_(source), text_(source.text()), faults_(faults) {}

    bool has_root() const { return has_root_; }
    Node take_root() { return std::move(root_); }
    /// The innermost bracket still open.
    const Node* open_bracket() const {
        for (auto frame = stack_.rbegin(); frame != stack_.rend(); ++frame)
            if (frame->flow) return &frame->node;
        return nullptr;
    }

    void OnDocumentStart(const YAML::Mark&) override {}
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
        const std::size_t offset = at(mark);
        if (stack_.empty()) return; // an empty document; the caller says so
        Frame& top = stack_.back();
        Node node = new_node(Node::Kind::broken, offset, 1);
        if (top.node.kind == Node::Kind::sequence) {
            add(empty_item(offset), 1, "value-missing", "an item of this list is empty",
                "fill it in or delete it");
        } else if (top.key_pending) {
            if (!top.dropped)
                add(top.key.offset, top.key.length, "value-missing", "'" + top.key.text + "' has no value",
                    "give it one, or delete the line");
        }
        attach(std::move(node));
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        add(at(mark), word_length(at(mark)), "yaml-alias",
            "a value beginning with '*' refers to another one; that is not taken here",
            "write the value out; put quotes around a text that begins with '*'");
        attach(new_node(Node::Kind::broken, at(mark), 1));
    }

    void OnAnchor(const YAML::Mark& mark, const std::string&) override {
        add(at(mark), word_length(at(mark)), "yaml-anchor",
            "a value beginning with '&' names itself for reuse; that is not taken here",
            "delete the name; put quotes around a text that begins with '&'");
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        const std::size_t offset = at(mark);
        Node node = new_node(Node::Kind::scalar, offset, 1);
        node.text = value;
        const bool tagged = check_tag(tag, offset);
        if (tagged || anchor != 0)
            node.kind = Node::Kind::broken; // the mark is the tag's, not the text's
        else
            measure(node);
        attach(std::move(node));
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                         YAML::EmitterStyle::value) override {
        open(Node::Kind::sequence, at(mark), tag, '[');
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                    YAML::EmitterStyle::value) override {
        open(Node::Kind::map, at(mark), tag, '{');
    }
    void OnMapEnd() override { close(); }

private:
    const Source& source_;
    const std::string& text_;
    Faults& faults_;
    std::vector<Frame> stack_;
    std::size_t nodes_ = 0;
    Node root_;
    bool has_root_ = false;

    std::size_t at(const YAML::Mark& mark) const {
        return std::min(static_cast<std::size_t>(mark.pos), text_.size());
    }
    std::size_t word_length(std::size_t offset) const {
        return std::min(text_.find_first_of(" \n,]}", offset), text_.size()) - offset;
    }
    void add(std::size_t offset, std::size_t length, std::string_view id, std::string message,
             std::string hint) {
        faults_.add(located(source_, offset, length, id, std::move(message), std::move(hint)));
    }
    [[noreturn]] void stop(Diagnostic fault) {
        faults_.add(std::move(fault));
        throw Stop{};
    }

    Node new_node(Node::Kind kind, std::size_t offset, std::size_t length) {
        if (++nodes_ > most_nodes)
            stop(located(source_, offset, 1, "too-many-nodes",
                         "the file holds more than 100 000 keys and values", "is this the right file?"));
        Node node;
        node.kind = kind;
        node.source = &source_;
        node.offset = offset;
        node.length = length;
        return node;
    }

    // The place of an empty list item is that of what follows it; go back to its dash or comma.
    std::size_t empty_item(std::size_t offset) const {
        std::size_t i = offset;
        while (i > 0 && (text_[i - 1] == ' ' || text_[i - 1] == '\n'))
            --i;
        return i > 0 && text_[i - 1] == '-' ? i - 1 : std::min(offset, text_.size() - 1);
    }

    bool check_tag(const std::string& tag, std::size_t offset) {
        if (tag.empty() || tag == "?") return false;
        if (text_[offset] != '!') return false; // a quoted text has '!' too; or an anchor came first and is reported
        add(offset, word_length(offset), "yaml-tag",
            "a value beginning with '!' names a YAML type; that is not taken here",
            "delete the type; put quotes around a text that begins with '!'");
        return true;
    }

    // Finds the end of the scalar and what it may have swallowed.
    void measure(Node& node) {
        const char first = text_[node.offset]; // 0 at the end
        std::size_t end = node.offset;
        if (first == '"' || first == '\'') {
            node.style = Node::Style::quoted;
            end = quoted_end(text_, node.offset);
            const bool folded = end == not_closed || text_.find('\n', node.offset) < end;
            const bool swallows =
                folded && (end == not_closed || !quote_ends_well(text_, end) ||
                           swallowed_line(text_, node.offset, end, true, false) != not_closed);
            if (swallows)
                stop(located(source_, node.offset, text_.size(), "quote-open",
                             "this quote is not closed on its line and swallows the lines that follow",
                             std::string("close it with ") + first));
            if (shows_control(node.text)) {
                add(node.offset, end - node.offset, "text-control",
                    "this text holds a control character written as an escape", "delete the escape");
                node.kind = Node::Kind::broken;
            }
        } else if (first == '|' || first == '>') {
            node.style = Node::Style::block;
            end = std::min(text_.find('\n', node.offset), text_.size());
        } else {
            end = plain_end(text_, node.offset, node.text);
            const std::size_t line = swallowed_line(text_, node.offset, end, false, true);
            if (line != not_closed) report_swallowed(node, line);
        }
        node.length = end - node.offset;
    }

    void report_swallowed(Node& node, std::size_t line) {
        if (const Node* bracket = open_bracket()) {
            Diagnostic fault =
                located(source_, bracket->offset, 1, "bracket-open",
                        "this bracket is not closed, or a comma is missing",
                        std::string("close it with ") + (text_[bracket->offset] == '[' ? "']'" : "'}'"));
            fault.second = SecondPlace{source_.excerpt(line, text_.size()), // to the end of the line
                                       "this line was read as part of the text before it"};
            stop(std::move(fault));
        }
        Diagnostic fault =
            located(source_, line, text_.size(), "line-swallowed",
                    "this line was read as a continuation of the value above it",
                    "begin it in the column of the key above it, and write a space after the colon; "
                    "put quotes around a text of several lines");
        fault.second = SecondPlace{source_.excerpt(node.offset, text_.size()), "the value above"};
        faults_.add(std::move(fault));
        node.kind = Node::Kind::broken;
    }

    void open(Node::Kind kind, std::size_t offset, const std::string& tag, char bracket) {
        check_tag(tag, offset);
        const std::size_t line_end = std::min(text_.find('\n', offset), text_.size());
        Node node = new_node(kind, offset, line_end - offset);
        if (stack_.size() >= most_depth)
            stop(located(source_, offset, 1, "nesting-depth", "maps and lists nest deeper than 64 levels here",
                         "a file of the shelf needs four levels at most"));
        Frame frame;
        frame.flow = text_[offset] == bracket;
        frame.node = std::move(node);
        stack_.push_back(std::move(frame));
    }

    void close() {
        Node node = std::move(stack_.back().node);
        stack_.pop_back();
        attach(std::move(node));
    }

    void attach(Node node) {
        if (stack_.empty()) {
            root_ = std::move(node);
            has_root_ = true;
            return;
        }
        Frame& top = stack_.back();
        if (top.node.kind == Node::Kind::sequence) {
            top.node.items.push_back(std::move(node));
        } else if (!top.key_pending) {
            top.key_pending = true;
            top.dropped = !check_key(top, node);
            top.key = std::move(node);
        } else {
            top.key_pending = false;
            if (top.dropped) return;
            if (top.node.keys.size() >= linear_search_up_to)
                top.index.emplace(top.key.text, top.node.keys.size());
            top.node.keys.push_back(std::move(top.key));
            top.node.items.push_back(std::move(node));
        }
    }

    bool check_key(const Frame& top, const Node& key) {
        if (key.kind != Node::Kind::scalar || key.text.empty()) {
            // A broken scalar has its text and is reported already; an empty place, a list or a map is not.
            if (key.text.empty())
                add(key.offset, key.length, "key-not-text", "a key must be a word", "write 'key: value'");
            return false;
        }
        if (key.text == "<<") {
            add(key.offset, key.length, "yaml-merge-key", "the merge key '<<' is not taken here",
                "write the values out");
            return false;
        }
        const Node* first = nullptr;
        const std::size_t searched = std::min(top.node.keys.size(), linear_search_up_to);
        for (std::size_t i = 0; i < searched && first == nullptr; ++i)
            if (top.node.keys[i].text == key.text) first = &top.node.keys[i];
        if (const auto found = top.index.find(key.text); first == nullptr && found != top.index.end())
            first = &top.node.keys[found->second];
        if (first == nullptr) return true;
        Diagnostic fault = located(source_, key.offset, key.length, "key-duplicate",
                                   "'" + key.text + "' is given twice", "delete one of the two");
        fault.second = SecondPlace{first->excerpt(), "given first here"};
        faults_.add(std::move(fault));
        return false;
    }
};

/// Refuses whatever comes after the first document.
class NothingMore final : public YAML::EventHandler {
public:
    std::optional<YAML::Mark> start;
    void OnDocumentStart(const YAML::Mark& mark) override {
        start = mark;
        throw Stop{};
    }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
    void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
    void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t, const std::string&) override {}
    void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                         YAML::EmitterStyle::value) override {}
    void OnSequenceEnd() override {}
    void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    }
    void OnMapEnd() override {}
};

} // namespace

Diagnostic located(const Source& source, std::size_t offset, std::size_t length, std::string_view id,
                   std::string message, std::string hint) {
    Diagnostic fault = whole_file_fault(id, source.path(), std::move(message), std::move(hint));
    fault.at = source.excerpt(offset, length);
    return fault;
}

void parse_tree(const Source& source, Node& root, Faults& faults) {
    TreeBuilder tree(source, faults);
    NothingMore rest;
    std::istringstream stream(source.text());
    try {
        YAML::Parser parser(stream);
        parser.HandleNextDocument(tree);
        parser.HandleNextDocument(rest);
    } catch (const Stop&) {
        if (rest.start) {
            const auto offset = static_cast<std::size_t>(rest.start->pos);
            faults.add(located(source, offset, 3, "second-document",
                               "a second document begins here; a file holds one thing",
                               "put it in a file of its own"));
        }
        faults.throw_if_any();
    } catch (const YAML::Exception& error) {
        // What was found before it is mostly its cause: an anchor on a key, a swallowed line. But for a bracket still
        // open: of "[b" at the end the parser makes a key without a value first.
        if (faults.none() || tree.open_bracket() != nullptr) faults.add(syntax_fault(source, tree.open_bracket(), error.msg, error.mark.pos));
        faults.throw_if_any();
    }
    if (!tree.has_root() && faults.none())
        faults.add(whole_file_fault("file-empty", source.path(), "the file holds nothing but comments",
                                    "its first line must be 'kind: ' and what it describes"));
    root = tree.take_root();
    if (tree.has_root() && root.kind != Node::Kind::map)
        faults.add(located(source, root.offset, root.length, "not-a-map",
                           "the file must consist of lines 'key: value'",
                           "begin with 'kind: ' and what the file describes"));
    if (root.kind != Node::Kind::map) faults.throw_if_any();
}

} // namespace lakebound
