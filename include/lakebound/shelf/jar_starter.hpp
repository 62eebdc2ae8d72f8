#pragma once
// Starter of a jar's file: begun from what is in it and how much, to be edited by its maker from then on.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/shelf/entry_typed.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The path of a new jar's file in the folder one stands in, jars/ID.yaml; the folder is made. Throws InputError write-exists.
[[nodiscard]] std::string new_jar_path(const std::string& id);
/// Writes the file of a new jar, jars/ID.yaml of the folder one stands in, from "alumina-lake, 24.0 g", and returns its
/// path. Throws InputError: jar-typed, id-form, id-unknown, and as safe_write.
[[nodiscard]] std::string begin_jar_file(const std::string& id, const std::string& text, const EntryContext& context, Library& library);

} // namespace lakebound
