#pragma once
// A salt of the bath from its file (kind: salt; docs/file-formats.md).

#include <string>

#include "lakebound/bath/salt.hpp"
#include "lakebound/export.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The salt of a parsed file. Throws InputError with all that is wrong in it; salt-formula where the ions and the water
/// of crystallisation do not make up the formula.
[[nodiscard]] Salt read_salt(Document document, std::string id);
[[nodiscard]] Salt read_salt_file(const std::string& path);

} // namespace lakebound
