#pragma once
// The names in a folder, sorted. Internal.

#include <algorithm>
#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

#include "lakebound/shelf/diagnostic.hpp"
#include "lakebound/shelf/search_path.hpp"

namespace lakebound {

inline bool is_entry_file(const std::string& name) { return name.ends_with(".yaml") && name.front() != '.'; }

/// The names in a folder that `wanted` takes, sorted; none when it is not there.
template <class Wanted> std::vector<std::string> names_in(const std::string& folder, Wanted wanted) {
    std::vector<std::string> names;
    std::error_code error;
    std::filesystem::directory_iterator at(folder, error);
    if (error == std::errc::no_such_file_or_directory) return names;
    for (; !error && at != std::filesystem::directory_iterator(); at.increment(error))
        if (wanted(at->path().filename().string())) names.push_back(at->path().filename().string());
    if (error) throw InputError(unusable_folder(folder, error.value()));
    std::sort(names.begin(), names.end());
    return names;
}

} // namespace lakebound
