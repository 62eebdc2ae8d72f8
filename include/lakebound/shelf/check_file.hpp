#pragma once
// Checking a file of any kind, as its own `kind` says.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/material/jar.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Reads the document as the kind that it names and forgets the result. jar: for recipes that take
/// their pigment from one; may be nullptr. Throws InputError with all that is wrong in it.
void check_document(Document document, const std::string& id, Library& library, const Jar* jar);
/// The same from a path ("-": standard input), following includes.
void check_file(const std::string& path, Library& library, const Jar* jar = nullptr);

} // namespace lakebound
