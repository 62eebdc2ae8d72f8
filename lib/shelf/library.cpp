#include "lakebound/shelf/library.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>

#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/bench_practice_file.hpp"
#include "lakebound/shelf/bench_test_file.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/fineness_target_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/powder_habits_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/vessel_file.hpp"

namespace lakebound {
namespace {

namespace fs = std::filesystem;

constexpr ShelfKind all_kinds[] = {ShelfKind::pigment, ShelfKind::ingredient,     ShelfKind::medium,
                                   ShelfKind::family,  ShelfKind::vessel,         ShelfKind::recipe,
                                   ShelfKind::jar,     ShelfKind::fineness_target,
                                   ShelfKind::bench_test, ShelfKind::bench_practice, ShelfKind::powder_habits};

constexpr std::size_t longest_id = 64;

bool looks_like_path(const std::string& text) {
    return text == "-" || text.find('/') != std::string::npos ||
           (text.size() > 5 && text.compare(text.size() - 5, 5, ".yaml") == 0);
}

/// Whether something of that name is there, be it unreadable, a link to nowhere or in a locked folder: then it is
/// for the reader to say what is wrong, and never passed over for a file of ours.
bool is_there(const fs::path& path) {
    std::error_code error;
    const auto type = fs::symlink_status(path, error).type();
    return type != fs::file_type::not_found;
}

/// A file that its maker thinks is read: "Ultramarine.yaml", "ultramarine.yml" where "ultramarine" is wanted.
void refuse_near_miss(const std::string& folder, std::string_view id) {
    std::error_code error;
    for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
        std::string name = entry->path().filename().string();
        for (char& c : name)
            c = c == '_' || c == ' ' ? '-' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        if (name != std::string(id) + ".yaml" && name != std::string(id) + ".yml") continue;
        throw InputError(whole_file_fault(
            "shelf-near-miss", entry->path().string(),
            "this file is not read: '" + std::string(id) + "' is looked for as '" + std::string(id) + ".yaml'",
            "give it that name, or move it out of the shelf folder"));
    }
}

/// The cached thing, or the one that `read` makes of its file.
template <class T, class Read>
const T& cached(std::map<std::string, T, std::less<>>& cache, std::string_view id, Read read) {
    if (const auto found = cache.find(id); found != cache.end()) return found->second;
    return cache.emplace(std::string(id), read()).first->second;
}

} // namespace

std::string_view kind_word(ShelfKind kind) {
    switch (kind) {
    case ShelfKind::pigment:
        return "pigment";
    case ShelfKind::ingredient:
        return "ingredient";
    case ShelfKind::medium:
        return "medium";
    case ShelfKind::family:
        return "family";
    case ShelfKind::vessel:
        return "vessel";
    case ShelfKind::recipe:
        return "recipe";
    case ShelfKind::jar:
        return "jar";
    case ShelfKind::fineness_target:
        return "fineness target";
    case ShelfKind::bench_test:
        return "bench test";
    case ShelfKind::bench_practice:
        return "bench practice";
    case ShelfKind::powder_habits:
        return "powder habits";
    }
    return "";
}

std::string_view kind_folder(ShelfKind kind) {
    switch (kind) {
    case ShelfKind::pigment:
        return "pigments";
    case ShelfKind::ingredient:
        return "ingredients";
    case ShelfKind::medium:
        return "media";
    case ShelfKind::family:
        return "families";
    case ShelfKind::vessel:
        return "vessels";
    case ShelfKind::recipe:
        return "recipes";
    case ShelfKind::jar:
        return "jars";
    case ShelfKind::fineness_target:
        return "targets";
    case ShelfKind::bench_test:
        return "tests";
    case ShelfKind::bench_practice:
        return "practice";
    case ShelfKind::powder_habits:
        return "habits";
    }
    return "";
}

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

std::optional<std::string> Library::find(ShelfKind kind, std::string_view id) const {
    if (!is_id(id)) return std::nullopt; // so that no id can lead out of the shelf
    for (const ShelfFolder& folder : folders_) {
        if (!folder.present) continue;
        std::string path = folder.path;
        if (!path.empty() && path.back() != '/') path += '/';
        path.append(kind_folder(kind));
        const std::string file = path + "/" + std::string(id) + ".yaml";
        if (is_there(file)) return file;
        refuse_near_miss(path, id);
    }
    return std::nullopt;
}

std::vector<std::string> Library::ids(ShelfKind kind) const {
    std::set<std::string> found;
    for (const ShelfFolder& folder : folders_) {
        if (!folder.present) continue;
        std::error_code error;
        const fs::path place = fs::path(folder.path) / kind_folder(kind);
        for (fs::directory_iterator entry(place, error), end; !error && entry != end; entry.increment(error)) {
            if (entry->path().extension() != ".yaml") continue;
            std::string id = entry->path().stem().string();
            if (is_id(id)) found.insert(std::move(id));
        }
    }
    return {found.begin(), found.end()};
}

std::optional<std::string> Library::find_bench() const {
    for (const ShelfFolder& folder : folders_) {
        if (!folder.present) continue;
        const fs::path path = fs::path(folder.path) / "bench.yaml";
        if (is_there(path)) return path.string();
        refuse_near_miss(folder.path, "bench");
    }
    return std::nullopt;
}

std::string Library::describe_search() const {
    std::string text;
    for (const ShelfFolder& folder : folders_)
        text.append(shown(folder.path))
            .append(folder.present ? "  (" : "  (not there; ")
            .append(folder.why)
            .append(")\n");
    return text.empty() ? "no folder was searched\n" : text;
}

Diagnostic Library::unknown(ShelfKind kind, std::string_view id) const {
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
        if (find(kind, folded))
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
    for (const ShelfKind other : all_kinds)
        if (hint.empty() && other != kind && find(other, id))
            hint.append("'").append(id).append("' lies in the folder ").append(kind_folder(other));
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
    return cached(pigments_, id, [&] { return read_pigment_file(path_of(ShelfKind::pigment, id)); });
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
Recipe Library::recipe(const std::string& id_or_path, const Jar* jar) {
    return read_recipe_file(path_or_id(ShelfKind::recipe, id_or_path), *this, jar);
}
std::vector<CandidateTest> Library::bench_tests() const {
    std::vector<CandidateTest> tests;
    for (const std::string& id : ids(ShelfKind::bench_test))
        tests.push_back(read_bench_test_file(path_of(ShelfKind::bench_test, id)));
    return tests;
}
const BenchPractice& Library::practice() {
    if (!practice_) practice_ = read_bench_practice_file(path_of(ShelfKind::bench_practice, "home"));
    return *practice_;
}
Jar Library::jar(const std::string& id_or_path) {
    return read_jar_file(path_or_id(ShelfKind::jar, id_or_path), *this);
}

} // namespace lakebound
