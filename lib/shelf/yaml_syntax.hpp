#pragma once
// What yaml-cpp says about a text that is no YAML, in words for the person who typed it. Internal.

#include <string>

#include "lakebound/shelf/document.hpp"

namespace lakebound {

/// open_bracket: the innermost one still open, or nullptr; what, position: of the parser's exception, the
/// position in bytes, -1 when it knows none.
Diagnostic syntax_fault(const Source& source, const Node* open_bracket, const std::string& what, int position);

} // namespace lakebound
