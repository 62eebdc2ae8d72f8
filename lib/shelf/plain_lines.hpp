#pragma once
// Plain lines: a file of 'key: value' lines, read without the general parser. Internal.
//
// Reading YAML in full is most of a command's time, and nearly every file says little of what YAML can: maps by two
// spaces, lists by dashes, one line of brackets, a folded note. Only what leaves nothing to interpret is taken: lower-case
// keys, one space, texts of letters, figures and harmless signs, no key twice. Anything else, and so everything with a
// fault, is left to yaml_tree: whole, from its first line.

#include <optional>

#include "lakebound/shelf/document.hpp"

namespace lakebound {

/// The map that parse_tree would make of the text; nothing when one line is not plain.
std::optional<Node> plain_lines(const Source& source);

} // namespace lakebound
