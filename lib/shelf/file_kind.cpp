#include "lakebound/shelf/file_kind.hpp"

#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

#include "lakebound/shelf/bath_entry_file.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/bench_practice_file.hpp"
#include "lakebound/shelf/bench_reading_file.hpp"
#include "lakebound/shelf/bench_test_file.hpp"
#include "lakebound/shelf/entry_file.hpp"
#include "lakebound/shelf/family_file.hpp"
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
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/vessel_file.hpp"
#include "lakebound/shelf/wash_habits_file.hpp"

namespace lakebound {

namespace {

using Id = std::string;

/// An entry is read against its jar: the one given stands for it, else that of the shelf.
void check_entry(Document document, const std::string& id, Library& library, const Jar* stand_in) {
    const Node* name = document.root.find("jar");
    Jar jar;
    if (stand_in != nullptr) {
        jar = *stand_in;
        if (name != nullptr) jar.id = name->text;
        jar.reference_oil_absorption = jar.pigment.oil_absorption.value().value();
        jar.reference_test_oil = jar.pigment.test_oil_density.value();
    } else if (name != nullptr) {
        jar = library.jar(name->text);
    }
    EntryWords words;
    (void)read_entry(std::move(document), jar.id + "/" + id, jar, library, words);
}

constexpr FileKind kinds[] = {
    {"pigment", ShelfKind::pigment, "pigments", 2,
     [](Document file, const Id& id, Library& library, const Jar*) {
         (void)read_pigment(std::move(file), id, [&] { return library.practice().test_oil; });
     }},
    {"ingredient", ShelfKind::ingredient, "ingredients", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_ingredient(std::move(file), id); }},
    {"medium", ShelfKind::medium, "media", 3,
     [](Document file, const Id& id, Library& library, const Jar*) { (void)read_medium(std::move(file), id, library); }},
    {"family", ShelfKind::family, "families", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_family(std::move(file), id); }},
    {"vessel", ShelfKind::vessel, "vessels", 4,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_vessel(std::move(file), id); }},
    {"recipe", ShelfKind::recipe, "recipes", 1,
     [](Document file, const Id& id, Library& library, const Jar* jar) {
         (void)read_recipe(std::move(file), id, library, jar);
     }},
    {"jar", ShelfKind::jar, "jars", 5,
     [](Document file, const Id& id, Library& library, const Jar*) { (void)read_jar(std::move(file), id, library); }},
    {"bench", std::nullopt, "", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_bench(std::move(file)); }},
    {"fineness target", ShelfKind::fineness_target, "targets", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_fineness_target(std::move(file), id); }},
    {"sieve test", std::nullopt, "", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_sieve_test(std::move(file), id); }},
    {"settling test", std::nullopt, "", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_settling_test(std::move(file), id); }},
    {"bench test", ShelfKind::bench_test, "tests", 0,
     [](Document file, const Id& id, Library& library, const Jar*) { (void)read_bench_test(std::move(file), id, library); }},
    {"bench reading", std::nullopt, "", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_bench_reading(std::move(file)); }},
    {"bench practice", ShelfKind::bench_practice, "practice", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_bench_practice(std::move(file)); }},
    {"powder habits", ShelfKind::powder_habits, "habits", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_powder_habits(std::move(file)); }},
    {"learning habits", ShelfKind::learning_habits, "learning", 0,
     [](Document file, const Id&, Library& library, const Jar*) { (void)read_learning_habits(std::move(file), library.practice()); }},
    {"entry", std::nullopt, "", 0,
     [](Document file, const Id& id, Library& library, const Jar* jar) { check_entry(std::move(file), id, library, jar); }},
    {"salt", ShelfKind::salt, "salts", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_salt(std::move(file), id); }},
    {"laking habits", ShelfKind::laking_habits, "laking", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_laking_habits(std::move(file)); }},
    {"wash habits", ShelfKind::wash_habits, "washing", 0,
     [](Document file, const Id&, Library&, const Jar*) { (void)read_wash_habits(std::move(file)); }},
    {"bath", std::nullopt, "", 0,
     [](Document file, const Id&, Library& library, const Jar*) { (void)read_bath(std::move(file), library); }},
    {"bath entry", std::nullopt, "", 0,
     [](Document file, const Id& id, Library&, const Jar*) { (void)read_bath_entry(std::move(file), id, {}); }},
};

} // namespace

std::span<const FileKind> file_kinds() noexcept { return kinds; }

const FileKind& file_kind(ShelfKind kind) noexcept {
    return *std::find_if(std::begin(kinds), std::end(kinds), [kind](const FileKind& row) { return row.shelf == kind; });
}

std::string schema_file(const FileKind& kind) {
    std::string name(kind.word);
    std::replace(name.begin(), name.end(), ' ', '-');
    return name + ".schema.json";
}

std::span<const ShelfKind> listed_kinds() {
    static const std::vector<ShelfKind> listed = [] {
        std::vector<FileKind> rows;
        std::copy_if(std::begin(kinds), std::end(kinds), std::back_inserter(rows),
                     [](const FileKind& row) { return row.list_place > 0; });
        std::sort(rows.begin(), rows.end(),
                  [](const FileKind& a, const FileKind& b) { return a.list_place < b.list_place; });
        std::vector<ShelfKind> all;
        for (const auto& row : rows)
            all.push_back(row.shelf.value());
        return all;
    }();
    return listed;
}

} // namespace lakebound
