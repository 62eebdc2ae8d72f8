#include "lakebound/shelf/search_path.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <set>
#include <string_view>
#include <utility>

#include <sys/stat.h>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/diagnostic.hpp"

#ifndef LAKEBOUND_SHIPPED_SHELF
#define LAKEBOUND_SHIPPED_SHELF ""
#endif

namespace lakebound {
namespace {

namespace fs = std::filesystem;

std::string from_environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string() : std::string(value);
}

/// One folder on the disk, whatever path leads to it.
using Identity = std::pair<dev_t, ino_t>;

/// The folder's identity; nothing when nothing is there. Throws shelf-unusable for what is there and no folder.
/// A parent that may not be searched hides what it holds: reported by `named`, passed over otherwise, for
/// it belongs to somebody else.
std::optional<Identity> folder_at(const std::string& path, bool named) {
    struct stat status {};
    if (::stat(path.c_str(), &status) == 0) {
        if (S_ISDIR(status.st_mode)) return Identity{status.st_dev, status.st_ino};
        throw InputError(unusable_folder(path, ENOTDIR));
    }
    const int reason = errno;
    struct stat link {};
    const bool something = ::lstat(path.c_str(), &link) == 0;
    if (something || (named && reason != ENOENT && reason != ENOTDIR))
        throw InputError(unusable_folder(path, reason));
    return std::nullopt;
}

std::vector<std::string> split(std::string_view list) {
    std::vector<std::string> parts;
    while (!list.empty()) {
        const std::size_t end = std::min(list.find(':'), list.size());
        if (end > 0) parts.emplace_back(list.substr(0, end));
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return parts;
}

bool may_be_studio(const std::string& name) { return name.find('/') == std::string::npos; }

/// The names of the studios on these shelves.
std::vector<std::string> studios_of(const std::vector<std::string>& shelves) {
    std::set<std::string> names;
    for (const std::string& shelf : shelves) {
        std::error_code none; // what cannot be read offers nothing
        for (fs::directory_iterator at(shelf + "/studios", none), end; !none && at != end; at.increment(none))
            if (at->is_directory(none)) names.insert(at->path().filename().string());
    }
    return {names.begin(), names.end()};
}

Diagnostic missing_shelf(const std::string& who, const std::string& path, const std::vector<std::string>& shelves) {
    if (who != "--shelf")
        return command_line_fault("shelf-missing",
                                  who + ", which is set in your environment, names a folder that is not there: '" + path + "'",
                                  "it counts beside --shelf: mend it, or take it away with 'unset " + who + "'");
    const std::string of_own = "a shelf of your own is a folder with pigments/, media/ and so on";
    const auto studios = may_be_studio(path) ? studios_of(shelves) : std::vector<std::string>();
    if (studios.empty())
        return command_line_fault("shelf-missing", who + " names a folder that is not there: '" + path + "'", "check the path; " + of_own);
    const auto near = nearest_names(path, studios, 1);
    return command_line_fault("shelf-missing", who + " names '" + path + "', and there is no folder and no studio of that name",
                              near.empty() ? (studios.size() == 1 ? "the studio is " : "the studios are ") + name_list(studios) + "; " + of_own
                                           : "did you mean '" + near.front() + "'?");
}

} // namespace

SearchInputs search_inputs(std::vector<std::string> shelf_options) {
    SearchInputs inputs;
    struct stat status {};
    if ((::stat("bench.yaml", &status) == 0 && S_ISREG(status.st_mode)) ||
        (::stat("jars", &status) == 0 && S_ISDIR(status.st_mode)))
        inputs.standing.assign(1, '.'); // so written, GCC 12 sees no overlap (its bug 105651)
    inputs.options = std::move(shelf_options);
    inputs.lakebound_shelf = from_environment("LAKEBOUND_SHELF");
    inputs.xdg_data_home = from_environment("XDG_DATA_HOME");
    inputs.xdg_data_dirs = from_environment("XDG_DATA_DIRS");
    inputs.home = from_environment("HOME");
    std::error_code ignored;
    const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
    if (!program.empty())
        inputs.shipped.push_back(
            (program.parent_path().parent_path() / "share/lakebound/formulations").string());
    if (std::string_view(LAKEBOUND_SHIPPED_SHELF) != "") inputs.shipped.emplace_back(LAKEBOUND_SHIPPED_SHELF);
    return inputs;
}

Diagnostic unusable_folder(const std::string& path, int reason) {
    std::string why;
    switch (reason) {
    case ENOTDIR:
        why = "this is no folder, and the shelf wants one here";
        break;
    case ENOENT:
        why = "this link leads to a folder that is not there";
        break;
    case ELOOP:
        why = "this link leads back to itself";
        break;
    case EACCES:
    case EPERM:
        why = "no permission to look into this folder of the shelf";
        break;
    default:
        why = std::string("cannot look into this folder of the shelf: ") + std::strerror(reason);
        break;
    }
    return whole_file_fault("shelf-unusable", path, std::move(why),
                            "mend it or take it away: what it should hold would be replaced in silence by "
                            "figures that are not yours");
}

std::vector<ShelfFolder> search_path(const SearchInputs& inputs) {
    std::vector<ShelfFolder> folders;
    std::set<std::string> paths;
    std::set<Identity> known;
    const auto add = [&](std::string path, const char* why, const std::optional<Identity>& identity) {
        if (!paths.insert(path).second || (identity && !known.insert(*identity).second)) return;
        folders.push_back({std::move(path), why, identity.has_value()});
    };
    // Shelves that may hold a studio one names: those of the environment, then the shipped one.
    std::vector<std::string> shelves = split(inputs.lakebound_shelf);
    shelves.insert(shelves.end(), inputs.shipped.begin(), inputs.shipped.end());
    const auto add_named = [&](std::string path, const char* who) {
        auto identity = folder_at(path, true);
        if (!identity && may_be_studio(path))
            for (const std::string& shelf : shelves) {
                const std::string studio = shelf + "/studios/" + path;
                identity = folder_at(studio, false);
                if (!identity) continue;
                path = studio;
                break;
            }
        if (!identity) throw InputError(missing_shelf(who, path, shelves));
        add(path, who, identity);
    };
    if (!inputs.standing.empty())
        if (const auto identity = folder_at(inputs.standing, true)) add(inputs.standing, "the studio you stand in", identity);
    for (const std::string& option : inputs.options)
        add_named(option, "--shelf");
    for (const std::string& path : split(inputs.lakebound_shelf))
        add_named(path, "LAKEBOUND_SHELF");
    std::vector<std::string> data;
    if (!inputs.xdg_data_home.empty())
        data.push_back(inputs.xdg_data_home);
    else if (!inputs.home.empty())
        data.push_back(inputs.home + "/.local/share");
    for (std::string& path :
         split(inputs.xdg_data_dirs.empty() ? "/usr/local/share:/usr/share" : inputs.xdg_data_dirs))
        data.push_back(std::move(path));
    for (const std::string& root : data) {
        if (root.front() != '/') continue; // the specification wants relative paths ignored
        const std::string folder = root + "/lakebound";
        const auto identity = folder_at(folder, false);
        add(folder, "XDG data folder", identity);
        if (!identity) continue;
        if (const auto inner = folder_at(folder + "/formulations", true))
            add(folder + "/formulations", "XDG data folder", inner);
    }
    for (const std::string& path : inputs.shipped) {
        const auto identity = folder_at(path, false);
        if (!identity) continue;
        add(path, "shipped with the program", identity);
        break;
    }
    return folders;
}

} // namespace lakebound
