#pragma once
// The names in a folder. Internal.

#include <string>
#include <vector>

namespace lakebound {

/// Whether something of that name is there, a link that leads nowhere included. What cannot be told from
/// here is told by looking into its folder.
bool is_entry(const std::string& path);

/// The names in the folder in alphabetical order; none when it is not there.
std::vector<std::string> names_in_folder(const std::string& folder);

/// Of a file that a person reads and writes: "weld.yaml", not ".weld.yaml".
bool is_entry_file(const std::string& name);

/// Those that `wanted` takes.
template <class Wanted> std::vector<std::string> names_in(const std::string& folder, Wanted wanted) {
    std::vector<std::string> names = names_in_folder(folder);
    std::erase_if(names, [&](const std::string& name) { return !wanted(name); });
    return names;
}

} // namespace lakebound
