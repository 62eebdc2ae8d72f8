#include "lakebound/shelf/search_path.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <string_view>
#include <utility>

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

bool is_folder(const std::string& path) {
    std::error_code ignored;
    return fs::is_directory(path, ignored);
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

Diagnostic missing(std::string_view who, const std::string& path) {
    std::string message(who);
    message.append(" names a folder that is not there: '").append(path).append("'");
    return command_line_fault("shelf-missing", std::move(message),
                              "check the path; a shelf is a folder with pigments/, media/ and so on");
}

} // namespace

SearchInputs search_inputs(std::vector<std::string> shelf_options) {
    SearchInputs inputs;
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

std::vector<ShelfFolder> search_path(const SearchInputs& inputs) {
    std::vector<ShelfFolder> folders;
    const auto add = [&](std::string path, const char* why, bool present) {
        std::error_code ignored;
        for (const ShelfFolder& known : folders)
            if (known.path == path || (present && known.present && fs::equivalent(known.path, path, ignored)))
                return;
        folders.push_back({std::move(path), why, present});
    };
    for (const std::string& option : inputs.options) {
        if (!is_folder(option)) throw InputError(missing("--shelf", option));
        add(option, "--shelf", true);
    }
    for (const std::string& path : split(inputs.lakebound_shelf)) {
        if (!is_folder(path)) throw InputError(missing("LAKEBOUND_SHELF", path));
        add(path, "LAKEBOUND_SHELF", true);
    }
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
        add(folder, "XDG data folder", is_folder(folder));
        if (is_folder(folder + "/formulations")) add(folder + "/formulations", "XDG data folder", true);
    }
    for (const std::string& path : inputs.shipped) {
        if (!is_folder(path)) continue;
        add(path, "shipped with the program", true);
        break;
    }
    return folders;
}

} // namespace lakebound
