#pragma once
// Writing a file whole or not at all.

#include <string>
#include <string_view>

namespace lakebound {

enum class Overwrite { refuse, allow };

/// Writes the bytes to `path`: into a new file in the same folder, flushed to disk, then put in place in
/// one step. Whatever goes wrong, the old file stays as it was and nothing is left behind. An existing
/// file is refused unless overwriting is allowed, and then keeps its permissions; a symbolic link is
/// followed. A pipe or device (/dev/stdout) is written to as it is.
/// Throws InputError: write-exists, write-directory, write-folder (the folder is not there),
/// write-permission, write-failed (disk full and the like).
void safe_write(const std::string& path, std::string_view bytes, Overwrite overwrite = Overwrite::refuse);

} // namespace lakebound
