#pragma once
// Writing a file whole or not at all.

#include <span>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class Overwrite { refuse, allow };

/// Writes the bytes to `path`: into a new file in the same folder, flushed to disk, then put in place in
/// one step. Whatever goes wrong, the old file stays as it was and nothing is left behind. An existing
/// file is refused unless overwriting is allowed, and then keeps its permissions but for those to run as its
/// owner; a symbolic link is followed. Signals that end a program wait until the file is in place. A pipe or
/// device (/dev/stdout) is written to as it is, unless nobody reads the pipe.
/// inputs: files that the same command reads. These, and files of the shelf (a line "kind: ..."), which a person
/// typed, are never overwritten; what is no file of that name is passed over.
/// Throws InputError: write-exists, write-input, write-directory, write-folder (the folder is not there),
/// write-permission, write-failed (disk full and the like).
void safe_write(const std::string& path, std::string_view bytes, Overwrite overwrite = Overwrite::refuse,
                std::span<const std::string> inputs = {});

/// What can be told beforehand of writing there, so that of two files none is written where one would be refused.
/// True when something is there. Throws InputError as safe_write does, but for what only writing shows.
[[nodiscard]] bool check_target(const std::string& path, Overwrite overwrite = Overwrite::refuse,
                                std::span<const std::string> inputs = {});

} // namespace lakebound
