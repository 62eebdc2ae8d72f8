#include "lakebound/shelf/studio.hpp"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <exception>
#include <filesystem>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

#include "lakebound/quantity/portable.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "folder_names.hpp"

namespace lakebound {
namespace {

namespace fs = std::filesystem;

JarStart start_of(const Jar& jar, std::size_t plant) {
    JarStart start{.id = jar.id, .plant = plant, .reference = jar.reference_oil_absorption.value()};
    start.day = std::chrono::year_month_day{std::chrono::year(1900), std::chrono::month(1), std::chrono::day(1)};
    if (jar.since) start.day = day_of_iso(*jar.since).value();
    start.net = WeighedEntry{jar.net_mass.value(), jar.net_mass.standard_uncertainty()};
    if (const auto& belief = jar.pigment.oil_absorption_belief) {
        const double oil = jar.reference_test_oil / jar.pigment.test_oil_density.value();
        const double relative = belief->reading.relative_uncertainty();
        start.oil_absorption = StatedOilAbsorption{OilAbsorption::of(belief->reading.value().value() * oil), relative};
    }
    return start;
}

std::string said(const EntryFault& fault) {
    switch (fault.kind) {
    case Contradiction::unknown_jar:
        return "this entry is of a jar that is not in the studio";
    case Contradiction::before_its_jar:
        return "this happened before its jar was there";
    case Contradiction::in_the_future:
        return "this has not happened yet";
    case Contradiction::same_id:
        return "there are two entries of this name";
    case Contradiction::unknown_paint:
        return "this jar has no swatch and no batch of that name";
    case Contradiction::unknown_entry:
        return "there is no entry of that name to undo";
    case Contradiction::drawn_beyond_all:
        return "with this more was taken than there was in the jar";
    }
    return "";
}

const char* mended(Contradiction kind) {
    switch (kind) {
    case Contradiction::before_its_jar:
        return "mend the date, or 'since' in the jar's file";
    case Contradiction::drawn_beyond_all:
        return "weigh the jar and enter that, or undo what was entered twice";
    case Contradiction::in_the_future:
        return "check day, month and year";
    default:
        return "mend the name, or take the file away";
    }
}

void throw_contradictions(const Studio& studio) {
    if (studio.card.faults.empty()) return;
    Faults faults;
    for (const EntryFault& each : studio.card.faults) {
        Diagnostic fault;
        fault.id = "entry-contradicts";
        fault.message = said(each);
        fault.at = studio.entries[each.entry].at;
        fault.hint = mended(each.kind);
        if (each.other) fault.second = SecondPlace{studio.entries[*each.other].at, "against this entry"};
        faults.add(std::move(fault));
    }
    faults.throw_if_any();
}

/// ASCII capitals made small.
std::string small_letters(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

/// Reads those that its entries name, and no others: a card need not wait for families that nobody paints.
void know_families(Studio& studio, Library& library) {
    while (studio.families.size() < studio.words.families.size())
        studio.families.push_back(library.family(studio.words.families[studio.families.size()]));
}

void fold(Studio& studio, std::chrono::sys_days today) {
    std::vector<std::string> plants;
    std::vector<JarStart> starts;
    for (const Jar& jar : studio.jars) {
        const std::string name = small_letters(jar.plant); // Weld and weld are one plant
        auto plant = std::find(plants.begin(), plants.end(), name);
        if (plant == plants.end()) plant = plants.insert(plants.end(), name);
        starts.push_back(start_of(jar, static_cast<std::size_t>(plant - plants.begin())));
    }
    std::vector<const Entry*> entries;
    entries.reserve(studio.entries.size());
    for (const ReadEntry& read : studio.entries)
        entries.push_back(&read.entry);
    studio.card = studio_card_of(starts, entries, today);
    throw_contradictions(studio);
}

/// The files of all records, opened in their order by as many threads as call `open_one`, each file once.
class RecordFiles {
public:
    RecordFiles(const Studio& studio, std::vector<std::string>& missing) {
        std::size_t count = 0;
        for (const Jar& jar : studio.jars) {
            folders_.push_back({record_folder(studio.folder, jar.id), {}, count});
            folders_.back().names = entry_files(folders_.back().path);
            count += folders_.back().names.size();
            for (std::string& name : missing_entries(folders_.back().names))
                missing.push_back(jar.id + "/" + std::move(name));
        }
        files_ = std::vector<File>(count);
    }

    std::size_t size() const { return files_.size(); }
    std::size_t size_of(std::size_t jar) const { return folders_[jar].names.size(); }
    std::string path(std::size_t jar, std::size_t i) const { return folders_[jar].path + "/" + folders_[jar].names[i]; }
    std::string stem(std::size_t jar, std::size_t i) const {
        const std::string& name = folders_[jar].names[i];
        return name.substr(0, name.size() - 5);
    }

    /// Opens the next file that no thread has taken; false when there is none.
    bool open_one() {
        const std::size_t taken = taken_++;
        if (taken >= files_.size()) return false;
        const auto after = std::upper_bound(folders_.begin(), folders_.end(), taken, [](std::size_t at, const Folder& folder) { return at < folder.first; });
        const auto jar = static_cast<std::size_t>(after - folders_.begin()) - 1;
        File& file = files_[taken];
        try {
            file.document = load_document(path(jar, taken - folders_[jar].first));
        } catch (...) {
            file.thrown = std::current_exception();
        }
        file.opened.store(true, std::memory_order_release);
        file.opened.notify_one();
        return true;
    }

    /// File `i` of a jar, given away; what its opening threw is thrown. Where it is not open yet, the caller opens others.
    Document take(std::size_t jar, std::size_t i) {
        File& file = files_[folders_[jar].first + i];
        while (!file.opened.load(std::memory_order_acquire))
            if (!open_one()) file.opened.wait(false, std::memory_order_acquire);
        if (file.thrown) std::rethrow_exception(file.thrown);
        Document given = std::move(*file.document);
        file.document.reset();
        return given;
    }

private:
    struct Folder {
        std::string path;
        std::vector<std::string> names;
        std::size_t first; ///< place of its first file among all
    };
    struct File {
        std::optional<Document> document;
        std::exception_ptr thrown;
        std::atomic<bool> opened{false};
    };
    std::vector<Folder> folders_;
    std::vector<File> files_;
    std::atomic<std::size_t> taken_{0};
};

constexpr std::size_t files_worth_a_thread = 64; // fewer are opened before a second thread has started

/// To open the files takes as long as to understand what is in them: of a large studio a second thread opens them ahead.
void read_records(Studio& studio, Library& library, Faults& faults) {
    RecordFiles files(studio, studio.missing);
    studio.entries.reserve(files.size());
    const auto understand = [&] {
        for (std::size_t jar = 0; jar < studio.jars.size(); ++jar)
            for (std::size_t i = 0; i < files.size_of(jar); ++i)
                try {
                    const std::string stem = files.stem(jar, i);
                    auto read = read_entry(files.take(jar, i), studio.jars[jar].id + "/" + stem, studio.jars[jar], library, studio.words);
                    check_entry_name(read.entry.day, word_of(read.entry.kind()), stem, files.path(jar, i));
                    studio.entries.push_back(std::move(read));
                } catch (const InputError& error) {
                    faults.add_all(error);
                }
    };
    if (files.size() < files_worth_a_thread) return understand();
    detail::side_by_side(understand, [&] {
        while (files.open_one()) {}
    });
}

} // namespace

std::string studio_of_jar(const std::string& jar_path) {
    const fs::path folder = fs::path(jar_path).parent_path();
    const fs::path studio = folder.filename() == "jars" ? folder.parent_path() : folder;
    return studio.empty() ? "." : studio.string();
}

std::set<std::string_view> undone_entries(const Studio& studio) {
    std::set<std::string_view> undone;
    for (const ReadEntry& read : studio.entries)
        if (const auto* undo = std::get_if<UndoEntry>(&read.entry.what)) undone.insert(undo->entry);
    return undone;
}

std::string studio_name(const Studio& studio) {
    std::error_code error;
    const std::string name = fs::weakly_canonical(studio.folder, error).filename().string();
    return error || name.empty() ? studio.folder : name;
}

std::string record_folder(const std::string& studio, std::string_view jar) {
    return (studio == "." ? "" : studio + "/") + "records/" + std::string(jar);
}

std::optional<std::size_t> Studio::find(std::string_view jar) const {
    for (std::size_t i = 0; i < jars.size(); ++i)
        if (jars[i].id == jar) return i;
    return std::nullopt;
}

Studio read_studio(const std::string& folder, Library& library, std::chrono::sys_days today, const Jar* also) {
    Studio studio;
    studio.folder = folder;
    Faults faults;
    for (const std::string& name : names_in(folder + "/jars", is_entry_file)) {
        const std::string stem = name.substr(0, name.size() - 5);
        if (!is_id(stem)) continue;
        if (also != nullptr && also->id == stem) continue;
        try {
            studio.jars.push_back(read_jar_file(folder + "/jars/" + name, library));
        } catch (const InputError& error) {
            faults.add_all(error);
        }
    }
    if (also != nullptr) studio.jars.push_back(*also);
    std::sort(studio.jars.begin(), studio.jars.end(), [](const Jar& a, const Jar& b) { return a.id < b.id; });
    read_records(studio, library, faults);
    // A record whose jar is not there would be lost in silence.
    for (const std::string& name : names_in(folder + "/records", is_id))
        if (!studio.find(name))
            faults.add(whole_file_fault("entry-jar", record_folder(folder, name),
                                        "this record is of a jar that is not in the studio",
                                        "put its file back as jars/" + name + ".yaml, or move the record away"));
    faults.throw_if_any();
    know_families(studio, library);
    fold(studio, today);
    return studio;
}

Studio as_of(Studio studio, std::chrono::sys_days day, Library& library) {
    std::erase_if(studio.jars, [&](const Jar& jar) { return jar.since && day < std::chrono::sys_days(day_of_iso(*jar.since).value()); });
    std::erase_if(studio.entries, [&](const ReadEntry& read) { return day < read.entry.day || (!read.entry.jar.empty() && !studio.find(read.entry.jar)); });
    know_families(studio, library);
    fold(studio, day);
    return studio;
}

Studio with_entry(const Studio& studio, Library& library, std::chrono::sys_days today, const Jar& jar,
                  const std::string& text, const std::string& stem) {
    try {
        Studio next = studio;
        next.entries.push_back(read_entry(load_document(std::string(command_line_path), text), jar.id + "/" + stem, jar,
                                          library, next.words));
        know_families(next, library);
        fold(next, today);
        return next;
    } catch (const InputError& error) {
        throw as_typed(error);
    }
}

std::string free_stem(const Studio& studio, std::string_view jar, std::string_view date, std::string_view what) {
    std::vector<std::string> stems;
    const std::string start = std::string(jar) + "/";
    for (const ReadEntry& read : studio.entries)
        if (read.entry.id.starts_with(start)) stems.push_back(read.entry.id.substr(start.size()));
    return free_entry_stem(stems, date, what);
}

std::string write_entry(const Studio& studio, std::string_view jar, std::string_view date, std::string_view what,
                        const std::string& text) {
    return write_entry_file(record_folder(studio.folder, jar), date, what, text);
}

} // namespace lakebound
