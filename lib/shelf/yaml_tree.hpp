#pragma once
// From the events of yaml-cpp to our own tree. Internal: the one header that knows yaml-cpp.

#include "lakebound/shelf/document.hpp"

namespace lakebound {

/// Parses the source's text into `root`. Faults that let the reading go on are added to `faults`;
/// one that does not ends in InputError, which holds the others too.
void parse_tree(const Source& source, Node& root, Faults& faults);

/// A fault with its place: `length` bytes from `offset`.
Diagnostic located(const Source& source, std::size_t offset, std::size_t length, std::string_view id,
                   std::string message, std::string hint = {});

} // namespace lakebound
