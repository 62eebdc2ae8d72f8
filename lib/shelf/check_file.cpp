#include "lakebound/shelf/check_file.hpp"

#include <utility>

#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/bench_practice_file.hpp"
#include "lakebound/shelf/bench_reading_file.hpp"
#include "lakebound/shelf/bench_test_file.hpp"
#include "lakebound/shelf/entry_file.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/fineness_target_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/learning_habits_file.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/powder_habits_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/settling_test_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/vessel_file.hpp"

namespace lakebound {

namespace {

/// An entry is read against its jar: the one given stands for it, else that of the shelf.
void check_entry(Document document, const std::string& id, Library& library, const Jar* stand_in) {
    const Node* name = document.root.find("jar");
    Jar jar;
    if (stand_in != nullptr) {
        jar = *stand_in;
        if (name != nullptr) jar.id = name->text;
        jar.reference_oil_absorption = jar.pigment.oil_absorption.value();
        jar.reference_test_oil = jar.pigment.test_oil_density.value();
    } else if (name != nullptr) {
        jar = library.jar(name->text);
    }
    EntryWords words;
    words.families = library.ids(ShelfKind::family);
    read_entry(std::move(document), jar.id + "/" + id, jar, library, words);
}

} // namespace

void check_document(Document document, const std::string& id, Library& library, const Jar* jar) {
    const std::vector<std::string_view> kinds{"pigment",         "ingredient", "medium",       "family",
                                              "vessel",          "recipe",     "jar",          "bench",
                                              "fineness target", "sieve test", "settling test",
                                              "bench test", "bench reading", "bench practice", "powder habits",
                                              "learning habits", "entry"};
    const Node* kind = document.root.find("kind");
    if (kind == nullptr) require_kind(document, "jar"); // the commonest of a maker's files; always throws
    const auto which = read_word(*kind, "kind", kinds, document.faults);
    if (!which) document.faults.throw_if_any();
    switch (which.value_or(kinds.size())) {
    case 0:
        read_pigment(std::move(document), id);
        break;
    case 1:
        read_ingredient(std::move(document), id);
        break;
    case 2:
        read_medium(std::move(document), id, library);
        break;
    case 3:
        read_family(std::move(document), id);
        break;
    case 4:
        read_vessel(std::move(document), id);
        break;
    case 5:
        read_recipe(std::move(document), id, library, jar);
        break;
    case 6:
        read_jar(std::move(document), id, library);
        break;
    case 7:
        read_bench(std::move(document));
        break;
    case 8:
        read_fineness_target(std::move(document), id);
        break;
    case 9:
        read_sieve_test(std::move(document), id);
        break;
    case 10:
        read_settling_test(std::move(document), id);
        break;
    case 11:
        read_bench_test(std::move(document), id);
        break;
    case 12:
        read_bench_reading(std::move(document));
        break;
    case 13:
        read_bench_practice(std::move(document));
        break;
    case 14:
        read_powder_habits(std::move(document));
        break;
    case 15:
        read_learning_habits(std::move(document));
        break;
    case 16:
        check_entry(std::move(document), id, library, jar);
        break;
    default:
        break;
    }
}

void check_file(const std::string& path, Library& library, const Jar* jar) {
    check_document(load_document(path), id_of_path(path), library, jar);
}

} // namespace lakebound
