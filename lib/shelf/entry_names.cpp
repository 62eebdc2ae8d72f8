#include "lakebound/shelf/entry_names.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>

#include "folder_names.hpp"
#include "lakebound/shelf/safe_write.hpp"

namespace lakebound {

std::string iso_text(std::chrono::sys_days day) {
    const std::chrono::year_month_day date(day);
    const auto padded = [](std::string number, std::size_t width) { return std::string(width - std::min(width, number.size()), '0') + number; };
    return padded(std::to_string(static_cast<int>(date.year())), 4) + "-" + padded(std::to_string(static_cast<unsigned>(date.month())), 2) +
           "-" + padded(std::to_string(static_cast<unsigned>(date.day())), 2);
}

std::vector<std::string> entry_files(const std::string& folder) { return names_in(folder, is_entry_file); }

std::vector<std::string> missing_entries(std::span<const std::string> names) {
    constexpr std::size_t day_length = std::string_view("2026-05-03-").size();
    constexpr int most_of_a_day = 100; // a number above is one that a person chose
    std::map<std::string_view, std::set<int>> numbers; // of each day
    for (const std::string& name : names)
        if (name.size() > day_length) numbers[std::string_view(name).substr(0, day_length)].insert(std::atoi(name.c_str() + day_length));
    std::vector<std::string> missing;
    for (const auto& day : numbers)
        for (int i = 1; i < std::min(*day.second.rbegin(), most_of_a_day); ++i)
            if (!day.second.contains(i)) missing.push_back(std::string(day.first) + (i < 10 ? "0" : "") + std::to_string(i));
    return missing;
}

void check_entry_name(std::chrono::sys_days date, std::string_view what, std::string_view stem, const std::string& path) {
    const std::string day = iso_text(date), begins = day + "-", ends = "-" + std::string(what);
    const bool long_enough = stem.size() > begins.size() + ends.size();
    const auto number = long_enough ? stem.substr(begins.size(), stem.size() - begins.size() - ends.size()) : std::string_view();
    if (long_enough && stem.starts_with(begins) && stem.ends_with(ends) &&
        std::all_of(number.begin(), number.end(), [](char c) { return c >= '0' && c <= '9'; }))
        return;
    throw InputError(whole_file_fault("entry-name", path, "this entry is of " + day + " and tells '" + ends.substr(1) +
                                                              "', and its name says otherwise",
                                      "call it " + day + "-01" + ends + ".yaml, with a number of its own; or is it a copy?"));
}

std::string free_entry_stem(std::span<const std::string> stems, std::string_view date, std::string_view what) {
    const std::string start = std::string(date) + "-";
    int last = 0;
    for (const std::string& stem : stems)
        if (stem.starts_with(start) && stem.size() > start.size() + 2) last = std::max(last, std::atoi(stem.c_str() + start.size()));
    std::string number = std::to_string(last + 1);
    if (number.size() < 2) number.insert(number.begin(), '0');
    return std::string(date) + "-" + number + "-" + std::string(what);
}

std::string write_entry_file(const std::string& folder, std::string_view date, std::string_view what, const std::string& text) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error)
        throw InputError(whole_file_fault(
            error == std::errc::permission_denied || error == std::errc::read_only_file_system ? "write-permission"
                                                                                               : "write-failed",
            folder, "the folder of the record cannot be made: " + error.message(), "nothing was written"));
    // What another command wrote meanwhile keeps its name.
    for (int tries = 0;; ++tries) {
        std::vector<std::string> stems = entry_files(folder);
        for (std::string& name : stems)
            name.resize(name.size() - 5);
        const std::string path = folder + "/" + free_entry_stem(stems, date, what) + ".yaml";
        try {
            safe_write(path, text);
            return path;
        } catch (const InputError& fault) {
            if (fault.faults().front().id != "write-exists" || tries > 100) throw;
        }
    }
}

InputError as_typed(const InputError& error) {
    std::vector<Diagnostic> faults = error.faults();
    for (Diagnostic& fault : faults) {
        if (fault.at.place.path != command_line_path) continue;
        Diagnostic told = command_line_fault(fault.id, fault.message, fault.hint);
        told.second = std::move(fault.second);
        fault = std::move(told);
    }
    return InputError(std::move(faults));
}

} // namespace lakebound
