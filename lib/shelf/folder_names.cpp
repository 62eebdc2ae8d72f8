#include "folder_names.hpp"

#include <algorithm>
#include <cerrno>
#include <string_view>

#include <dirent.h>
#include <sys/stat.h>

#include "lakebound/shelf/diagnostic.hpp"
#include "lakebound/shelf/search_path.hpp"

namespace lakebound {

bool is_entry(const std::string& path) {
    struct stat ignored {};
    return ::lstat(path.c_str(), &ignored) == 0;
}

std::vector<std::string> names_in_folder(const std::string& path) {
    std::vector<std::string> names;
    DIR* folder = ::opendir(path.c_str());
    if (folder == nullptr) {
        const int reason = errno;
        if (reason == ENOENT && !is_entry(path)) return names;
        throw InputError(unusable_folder(path, reason));
    }
    for (;;) {
        errno = 0;
        const dirent* entry = ::readdir(folder);
        if (entry == nullptr) break;
        const std::string_view name = entry->d_name;
        if (name != "." && name != "..") names.emplace_back(name);
    }
    const int reason = errno;
    ::closedir(folder);
    if (reason != 0) throw InputError(unusable_folder(path, reason));
    std::sort(names.begin(), names.end());
    return names;
}

bool is_entry_file(const std::string& name) { return name.ends_with(".yaml") && name.front() != '.'; }

} // namespace lakebound
