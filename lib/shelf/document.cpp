#include "lakebound/shelf/document.hpp"

#include <filesystem>
#include <utility>

#include "plain_lines.hpp"
#include "yaml_tree.hpp"

namespace lakebound {

const Node* Node::find_key(std::string_view key) const {
    for (const Node& candidate : keys)
        if (candidate.text == key) return &candidate;
    return nullptr;
}

const Node* Node::find(std::string_view key) const {
    const Node* at = find_key(key);
    return at == nullptr ? nullptr : &items[static_cast<std::size_t>(at - keys.data())];
}

Excerpt Node::part(std::size_t part_offset, std::size_t part_length) const {
    const std::size_t begin = offset + (style == Style::quoted ? 1 : 0);
    if (style == Style::block || source->text().compare(begin, text.size(), text) != 0) return excerpt();
    return source->excerpt(begin + part_offset, part_length);
}

std::string Document::kind() const {
    const Node* node = root.find("kind");
    return node != nullptr && node->kind == Node::Kind::scalar ? node->text : std::string();
}

Document parse_document(std::shared_ptr<const Source> source) {
    Document document;
    if (auto root = plain_lines(*source)) document.root = std::move(*root);
    else parse_tree(*source, document.root, document.faults);
    document.sources.push_back(std::move(source));
    return document;
}

namespace {

namespace fs = std::filesystem;

/// One link of the chain from the file named by the user to the file being read.
struct Link {
    fs::path identity; ///< canonical path; empty for standard input
    Excerpt include;   ///< where the link before asked for it; of no line for the first
};

class Includer {
public:
    explicit Includer(Document& document) : document_(document) {}

    /// Lays the files that `root` includes beneath it. root: of the file at the end of `chain`.
    void follow(Node& root, const std::string& path, std::vector<Link>& chain) {
        const Node* list = root.find("include");
        if (list == nullptr || list->kind == Node::Kind::broken) return;
        const Node* kind = root.find("kind");
        if (kind == nullptr || (kind->text != "jar" && kind->text != "bench")) return; // the reader says so
        if (list->kind != Node::Kind::sequence) {
            add(located(*list->source, list->offset, list->length, "include-list",
                        "include must be a list of file names", "write 'include: [other.yaml]'"));
            return;
        }
        Node merged;
        const std::vector<Node> names = list->items;
        for (const Node& name : names)
            take(name, kind->text, path, chain, merged);
        lay_over(merged, root);
        root.keys = std::move(merged.keys);
        root.items = std::move(merged.items);
    }

private:
    Document& document_;

    void add(Diagnostic fault) { document_.faults.add(std::move(fault)); }

    static void lay_over(Node& below, Node& above) {
        for (std::size_t i = 0; i < above.keys.size(); ++i) {
            if (const Node* key = below.find_key(above.keys[i].text)) {
                const auto at = static_cast<std::size_t>(key - below.keys.data());
                below.keys[at] = std::move(above.keys[i]);
                below.items[at] = std::move(above.items[i]);
            } else {
                below.keys.push_back(std::move(above.keys[i]));
                below.items.push_back(std::move(above.items[i]));
            }
        }
    }

    void take(const Node& name, const std::string& kind, const std::string& path, std::vector<Link>& chain,
              Node& merged) {
        if (name.kind == Node::Kind::broken) return;
        if (name.kind != Node::Kind::scalar || name.text.empty() || name.text == "-") {
            add(located(*name.source, name.offset, name.length, "include-list",
                        "include must be a list of file names", "write 'include: [other.yaml]'"));
            return;
        }
        const fs::path folder = path == standard_input_path ? fs::path() : fs::path(path).parent_path();
        const std::string other = (folder / name.text).string();
        std::error_code ignored;
        const fs::path identity = fs::weakly_canonical(other, ignored);
        for (std::size_t i = 0; i < chain.size(); ++i) {
            if (chain[i].identity.empty() || chain[i].identity != identity) continue;
            Diagnostic fault =
                located(*name.source, name.offset, name.length, "include-circle",
                        "'" + other + "' includes itself in a circle", "delete one of the includes");
            // The include that began the circle; when a file includes itself there is but one place.
            if (i + 1 < chain.size())
                fault.second = SecondPlace{chain[i + 1].include, "the circle begins here"};
            else
                fault.second = SecondPlace{Excerpt{{other, 0, 0}, {}, 1}, "the file that includes itself"};
            add(std::move(fault));
            return;
        }
        if (chain.size() > most_include_depth || document_.sources.size() > most_included_files) {
            add(located(*name.source, name.offset, name.length, "include-depth",
                        chain.size() > most_include_depth ? "files include each other more than 8 deep"
                                                          : "more than 64 files are included",
                        "put what they hold into fewer files"));
            return;
        }
        chain.push_back({identity, name.excerpt()});
        read(name, kind, other, chain, merged);
        chain.pop_back();
    }

    void read(const Node& name, const std::string& kind, const std::string& other, std::vector<Link>& chain,
              Node& merged) {
        Node root;
        std::shared_ptr<const Source> source;
        try {
            source = read_source(other);
        } catch (const InputError& error) {
            // What is wrong with a file that cannot be opened is told where it is asked for.
            for (Diagnostic fault : error.faults()) {
                if (fault.at.place.line == 0) {
                    const std::string message = "'" + other + "' cannot be included: " + fault.message;
                    SecondPlace second{fault.at, "the file looked for"};
                    fault.message = message;
                    if (fault.id == "file-missing") fault.id = "include-missing";
                    fault.at = name.excerpt();
                    fault.second = std::move(second);
                } else if (!fault.second) {
                    fault.second = SecondPlace{name.excerpt(), "included from here"};
                }
                add(std::move(fault));
            }
            return;
        }
        document_.sources.push_back(source);
        Faults own;
        try {
            parse_tree(*source, root, own);
            own.throw_if_any();
        } catch (const InputError& error) {
            for (Diagnostic fault : error.faults()) {
                if (!fault.second) fault.second = SecondPlace{name.excerpt(), "included from here"};
                add(std::move(fault));
            }
            if (root.kind != Node::Kind::map) return;
        }
        const Node* own_kind = root.find("kind");
        if (own_kind == nullptr || own_kind->text != kind) {
            Diagnostic fault =
                located(*name.source, name.offset, name.length, "include-kind",
                        "'" + other + "' is not a file of kind '" + kind + "'",
                        "include files of the same kind, with 'kind: " + kind + "' as their first line");
            fault.second =
                SecondPlace{own_kind == nullptr ? source->excerpt(root.offset, 1) : own_kind->excerpt(),
                            "the included file"};
            add(std::move(fault));
            return;
        }
        follow(root, other, chain);
        lay_over(merged, root);
    }
};

Document with_includes(std::shared_ptr<const Source> source) {
    Document document = parse_document(std::move(source));
    if (document.root.find("include") == nullptr) return document; // a canonical path costs as much as a short file
    std::error_code ignored;
    const std::string path = document.path();
    std::vector<Link> chain;
    chain.push_back({path == standard_input_path ? fs::path() : fs::weakly_canonical(path, ignored), {}});
    Includer(document).follow(document.root, path, chain);
    return document;
}

} // namespace

Document load_document(const std::string& path) { return with_includes(read_source(path)); }

Document load_document(const std::string& path, std::string bytes) {
    return with_includes(check_text(path, std::move(bytes)));
}

} // namespace lakebound
