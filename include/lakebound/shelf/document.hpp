#pragma once
// Document: a YAML file as a tree that remembers where everything stands.
//
// Only the plain part of YAML is taken: maps with text keys, sequences, text. Everything that hides
// something from the reader of the file is refused: aliases, anchors, tags, merge keys, duplicate
// keys, a second document, values left empty, quotes left open, keys swallowed by a folded text.
// Every scalar is text; what it means is decided by the reader that knows the key.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/shelf/diagnostic.hpp"
#include "lakebound/shelf/source.hpp"

namespace LAKEBOUND_EXPORT lakebound {

inline constexpr std::size_t most_depth = 64;      ///< nesting of maps and sequences
inline constexpr std::size_t most_nodes = 100'000; ///< keys, texts, maps and sequences of a file
inline constexpr std::size_t most_include_depth = 8;
inline constexpr std::size_t most_included_files = 64;

struct Node {
    enum class Kind {
        broken, ///< its fault is already reported; readers pass over it in silence
        scalar,
        sequence,
        map,
    };
    enum class Style { plain, quoted, block };

    Kind kind = Kind::broken;
    Style style = Style::plain;
    const Source* source = nullptr; ///< owned by the document
    std::size_t offset = 0;         ///< first byte in source->text()
    std::size_t length = 0;         ///< bytes; of a map or sequence: of its first line
    std::string text;               ///< of a scalar
    std::vector<Node> items;        ///< of a sequence; of a map: the values
    std::vector<Node> keys;         ///< of a map: scalars, one per item

    const Node* find(std::string_view key) const; ///< value of a map's key; nullptr when absent
    const Node* find_key(std::string_view key) const;
    Excerpt excerpt() const { return source->excerpt(offset, length); }
    /// The excerpt of `part_length` bytes at `part_offset` of `text`; the whole scalar when the text
    /// is not written in the file as it reads (folded or with escapes).
    Excerpt part(std::size_t part_offset, std::size_t part_length) const;
};

struct Document {
    std::vector<std::shared_ptr<const Source>> sources; ///< the file itself, then what it includes
    Node root;                                          ///< a map
    Faults faults; ///< those found so far that did not stop the reading; readers add theirs

    const std::string& path() const { return sources.front()->path(); }
    /// The text of the key `kind`, empty when there is none.
    std::string kind() const;
};

/// Parses one source. Throws InputError when the text cannot be read to its end; lesser faults are
/// left in `faults`. `include` is not followed.
[[nodiscard]] Document parse_document(std::shared_ptr<const Source> source);

/// Reads and parses the file (path as typed, "-" for standard input) and, where its kind is jar or
/// bench, the files it includes: keys of the including file win, later includes win over earlier.
[[nodiscard]] Document load_document(const std::string& path);
/// The same from bytes already in memory; includes are sought beside `path`.
[[nodiscard]] Document load_document(const std::string& path, std::string bytes);

} // namespace lakebound
