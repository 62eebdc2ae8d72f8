#pragma once
// Plain lines: a small file of 'key: value' lines, read without the general parser. Internal.
//
// A studio holds thousands of entries, and nearly all are half a dozen such lines. Only what leaves nothing to
// interpret is taken: lower-case keys at the margin, one space, a text of letters, figures and harmless signs, no key
// twice. Anything else, and so everything with a fault, is left to yaml_tree.

#include <optional>

#include "lakebound/shelf/document.hpp"

namespace lakebound {

/// The map that parse_tree would make of the text; nothing when one line is not plain.
std::optional<Node> plain_lines(const Source& source);

} // namespace lakebound
