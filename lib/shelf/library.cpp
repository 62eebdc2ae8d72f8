#include "lakebound/shelf/library.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/bench_practice_file.hpp"
#include "lakebound/shelf/bench_test_file.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/file_kind.hpp"
#include "lakebound/shelf/fineness_target_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/laking_habits_file.hpp"
#include "lakebound/shelf/learning_habits_file.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/powder_habits_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/salt_file.hpp"
#include "lakebound/shelf/vessel_file.hpp"
#include "lakebound/shelf/wash_habits_file.hpp"
#include "folder_names.hpp"

namespace lakebound {
namespace {

const std::vector<std::string> no_names;

constexpr std::size_t longest_id = 64;

std::string without_slash(std::string path) {
    while (path.size() > 1 && path.back() == '/')
        path.pop_back();
    return path;
}

std::string place_of(const ShelfFolder& folder, ShelfKind kind) {
    std::string place = without_slash(folder.path);
    return place.append(place == "/" ? "" : "/").append(kind_folder(kind));
}

/// The stem that a file would have if its name were written as the shelf reads it: "Ultramarine.yml" means
/// ultramarine. Nothing for a name that is right, and for one that means no file of the shelf.
std::optional<std::string> nearly_yaml(std::string_view name) {
    std::string folded;
    for (const char c : name)
        folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == ' ' || c == '_' ? '-' : c;
    for (const std::string_view ending : {".yaml", ".yml", ".yaml.txt", ".yml.txt"}) {
        if (!folded.ends_with(ending) || folded.size() == ending.size() || folded.front() == '.') continue;
        std::string stem = folded.substr(0, folded.size() - ending.size());
        while (stem.size() > 1 && stem.back() == '-')
            stem.pop_back();
        while (stem.size() > 1 && stem.front() == '-')
            stem.erase(0, 1);
        if (is_id(stem) && name == stem + ".yaml") return std::nullopt;
        return stem;
    }
    return std::nullopt;
}

Diagnostic misnamed(const std::string& place, const std::string& name, const std::string& meant) {
    return whole_file_fault("shelf-near-miss", place + "/" + name,
                            "this file is not read: '" + meant + "' is looked for as '" + meant + ".yaml'",
                            "give it that name, or move it out of the shelf folder");
}

bool looks_like_path(const std::string& text) {
    return text == "-" || text.find('/') != std::string::npos ||
           (text.size() > 5 && text.compare(text.size() - 5, 5, ".yaml") == 0);
}

/// The cached thing, or the one that `read` makes of its file.
template <class T, class Read>
const T& cached(std::map<std::string, T, std::less<>>& cache, std::string_view id, Read read) {
    if (const auto found = cache.find(id); found != cache.end()) return found->second;
    return cache.emplace(std::string(id), read()).first->second;
}

} // namespace

std::string_view kind_word(ShelfKind kind) { return file_kind(kind).word; }
std::string_view kind_folder(ShelfKind kind) { return file_kind(kind).folder; }

bool is_id(std::string_view text) {
    if (text.empty() || text.size() > longest_id || text.front() == '-' || text.back() == '-') return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '-' && text[i - 1] == '-') return false;
        if (c != '-' && !(c >= 'a' && c <= 'z') && !(c >= '0' && c <= '9')) return false;
    }
    return true;
}

Library::Library(std::vector<ShelfFolder> folders) : folders_(std::move(folders)) {}

const std::vector<std::string>& Library::names_in(const std::string& place) const {
    const auto [entry, fresh] = names_.try_emplace(place);
    if (!fresh) return entry->second;
    try {
        entry->second = names_in_folder(place);
    } catch (...) {
        names_.erase(entry);
        throw;
    }
    return entry->second;
}

std::optional<std::string> Library::entry_of(const std::string& place, std::string_view stem) const {
    std::string path = place;
    path.append("/").append(stem).append(".yaml");
    if (is_entry(path)) return path; // a link that leads nowhere too: its reader says so
    for (const std::string& name : names_in(place))
        if (const auto meant = nearly_yaml(name); meant && *meant == stem)
            throw InputError(misnamed(place, name, *meant));
    return std::nullopt;
}

std::optional<std::string> Library::find(ShelfKind kind, std::string_view id) const {
    if (!is_id(id)) return std::nullopt; // so that no id can lead out of the shelf
    for (const ShelfFolder& folder : folders_) {
        if (!folder.present) continue;
        if (auto path = entry_of(place_of(folder, kind), id)) return path;
    }
    return std::nullopt;
}

std::vector<std::string> Library::ids(ShelfKind kind) const {
    std::set<std::string> found;
    for (const ShelfFolder& folder : folders_) {
        if (!folder.present) continue;
        for (const std::string& name : names_in(place_of(folder, kind)))
            if (name.ends_with(".yaml") && is_id(std::string_view(name).substr(0, name.size() - 5)))
                found.insert(name.substr(0, name.size() - 5));
    }
    return {found.begin(), found.end()};
}

std::string Library::own_file(const std::string& typed, std::string_view folder) const {
    if (typed.empty() || typed == "-" || typed.find('/') != std::string::npos || is_entry(typed)) return typed;
    for (const ShelfFolder& each : folders_) {
        if (!each.present) continue;
        std::string path = without_slash(each.path);
        path.append(path == "/" ? "" : "/").append(folder).append("/").append(typed);
        if (is_entry(path)) return path;
    }
    return typed;
}

std::optional<std::string> Library::find_bench() const {
    for (const ShelfFolder& folder : folders_)
        if (folder.present)
            if (auto path = entry_of(without_slash(folder.path), "bench")) return path;
    return std::nullopt;
}

std::string Library::describe_search() const {
    std::string text;
    for (const ShelfFolder& folder : folders_) {
        text.append(shown(folder.path))
            .append(folder.present ? "  (" : "  (not there; ")
            .append(folder.why)
            .append(")\n");
        if (!folder.present) continue;
        for (const auto& kind : file_kinds())
            for (const std::string& name : kind.shelf ? names_in(place_of(folder, *kind.shelf)) : no_names)
                if (const auto meant = nearly_yaml(name))
                    text.append("  not read: ")
                        .append(kind.folder)
                        .append("/")
                        .append(shown(name))
                        .append(is_id(*meant) ? "; its name must be " + *meant + ".yaml"
                                              : "; names are small letters, digits and single hyphens")
                        .append("\n");
    }
    return text.empty() ? "no folder was searched\n" : text;
}

Diagnostic Library::unknown(ShelfKind kind, std::string_view id) const {
    const auto lies_in = [this](ShelfKind which, std::string_view name) {
        try {
            return find(which, name).has_value();
        } catch (const InputError&) {
            return false; // of another kind or name than was asked for
        }
    };
    std::string message, hint;
    if (!is_id(id)) {
        message.append("'")
            .append(id.substr(0, longest_id))
            .append("' cannot be the name of a file in ")
            .append(kind_folder(kind));
        std::string folded;
        for (const char c : id.substr(0, longest_id)) {
            const char lower = c >= 'A' && c <= 'Z'   ? static_cast<char>(c - 'A' + 'a')
                               : c == ' ' || c == '_' ? '-'
                                                      : c;
            folded += lower;
        }
        if (lies_in(kind, folded))
            hint = "did you mean '" + folded + "'?";
        else
            hint = "names are file stems: small letters, digits and single hyphens, such as 'alumina-lake'";
        return whole_file_fault("id-form", command_line_path, std::move(message), std::move(hint));
    }
    message.append("there is no ").append(kind_word(kind)).append(" '").append(id).append("' on the shelf");
    const auto known = ids(kind);
    // Of the oil called linseed-oil the medium is linseed: a name that begins as the one typed is meant first.
    std::vector<std::string> near;
    for (const std::string& name : known)
        if (id.starts_with(name + "-") || name.starts_with(std::string(id) + "-")) near.push_back(name);
    if (near.empty()) near = nearest_names(id, known, 3);
    if (near.size() > 3) near.resize(3);
    for (const std::string& name : near)
        hint.append(hint.empty() ? "did you mean '" : ", '").append(name).append("'");
    if (!hint.empty()) hint += '?';
    for (const auto& other : file_kinds())
        if (hint.empty() && other.shelf && other.shelf != kind && lies_in(*other.shelf, id))
            hint.append("'").append(id).append("' lies in the folder ").append(other.folder);
    if (hint.empty() && !known.empty()) {
        constexpr std::size_t shown = 12;
        hint = "the shelf has ";
        for (std::size_t i = 0; i < known.size() && i < shown; ++i)
            hint.append(i == 0 ? "" : ", ").append(known[i]);
        if (known.size() > shown) hint += ", ...";
    }
    if (hint.empty()) hint = "no shelf was found that has any; name one with --shelf";
    return whole_file_fault("id-unknown", command_line_path, std::move(message), std::move(hint));
}

std::string Library::path_of(ShelfKind kind, std::string_view id) const {
    if (auto path = find(kind, id)) return *path;
    throw InputError(unknown(kind, id));
}

std::string Library::path_or_id(ShelfKind kind, const std::string& id_or_path) const {
    return looks_like_path(id_or_path) ? id_or_path : path_of(kind, id_or_path);
}

const Pigment& Library::pigment(std::string_view id) {
    return cached(pigments_, id, [&] { return read_pigment_file(path_of(ShelfKind::pigment, id), [&] { return practice().test_oil; }); });
}
const Ingredient& Library::ingredient(std::string_view id) {
    return cached(ingredients_, id, [&] { return read_ingredient_file(path_of(ShelfKind::ingredient, id)); });
}
const Medium& Library::medium(std::string_view id) {
    return cached(media_, id, [&] { return read_medium_file(path_of(ShelfKind::medium, id), *this); });
}
const Family& Library::family(std::string_view id) {
    return cached(families_, id, [&] { return read_family_file(path_of(ShelfKind::family, id)); });
}
const Vessel& Library::vessel(std::string_view id) {
    return cached(vessels_, id, [&] { return read_vessel_file(path_of(ShelfKind::vessel, id)); });
}
const FinenessTarget& Library::fineness_target(std::string_view id) {
    return cached(fineness_targets_, id,
                  [&] { return read_fineness_target_file(path_of(ShelfKind::fineness_target, id)); });
}
PowderHabits Library::powder_habits() const {
    return read_powder_habits_file(path_of(ShelfKind::powder_habits, "powder"));
}
const LearningHabits& Library::learning_habits() {
    if (!learning_habits_)
        learning_habits_ = read_learning_habits_file(path_of(ShelfKind::learning_habits, "home"), practice());
    return *learning_habits_;
}
const Salt& Library::salt(std::string_view id) {
    return cached(salts_, id, [&] { return read_salt_file(path_of(ShelfKind::salt, id)); });
}
LakingHabits Library::laking_habits() const {
    return read_laking_habits_file(path_of(ShelfKind::laking_habits, "home"));
}
WashHabits Library::wash_habits() const {
    return read_wash_habits_file(path_of(ShelfKind::wash_habits, "home"));
}
Recipe Library::recipe(const std::string& id_or_path, const Jar* jar) {
    return read_recipe_file(path_or_id(ShelfKind::recipe, id_or_path), *this, jar);
}
BenchTests Library::bench_tests() {
    BenchTests tests{{}, measurement_rule(learning_habits())};
    for (const std::string& id : ids(ShelfKind::bench_test))
        tests.candidates.push_back(read_bench_test_file(path_of(ShelfKind::bench_test, id), *this));
    return tests;
}
std::vector<PreservativePart> Library::preservatives() {
    std::vector<PreservativePart> found;
    for (const std::string& id : ids(ShelfKind::ingredient))
        if (auto part = preservative_at_hand(ingredient(id))) found.push_back(std::move(*part));
    return found;
}
const BenchPractice& Library::practice() {
    if (!practice_) practice_ = read_bench_practice_file(path_of(ShelfKind::bench_practice, "home"));
    return *practice_;
}
std::string Library::jar_path(const std::string& id_or_path) const { return path_or_id(ShelfKind::jar, id_or_path); }
Jar Library::jar(const std::string& id_or_path) {
    return read_jar_file(path_or_id(ShelfKind::jar, id_or_path), *this);
}

} // namespace lakebound
