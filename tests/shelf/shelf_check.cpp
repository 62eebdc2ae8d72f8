// shelf_check SHELF FILE...: reads files of any kind as the programs do, so that the JSON Schemas can be
// held to the loader (tests/reference/schema_check.py). Prints "read: FILE" or "refused: FILE" and the
// faults. Exit status: 0 all files read, 2 some file refused, 3 wrong call.
// shelf_check --units: prints "dimension<TAB>unit" for the whole vocabulary.

#include <iostream>
#include <string>
#include <string_view>

#include "lakebound/quantity/vocabulary.hpp"
#include "lakebound/shelf/bench_file.hpp"
#include "lakebound/shelf/family_file.hpp"
#include "lakebound/shelf/ingredient_file.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/vessel_file.hpp"

namespace {

using namespace lakebound;

void print_units() {
    for (const Dimension dimension : all_dimensions())
        for (const std::string_view unit : unit_names(dimension))
            std::cout << dimension_name(dimension) << '\t' << unit << '\n';
}

void read_any(const std::string& path, Library& library) {
    Document document = load_document(path);
    const std::string kind = document.kind();
    std::string id = id_of_path(path);
    if (kind == "pigment") read_pigment(std::move(document), std::move(id));
    else if (kind == "ingredient") read_ingredient(std::move(document), std::move(id));
    else if (kind == "medium") read_medium(std::move(document), std::move(id), library);
    else if (kind == "family") read_family(std::move(document), std::move(id));
    else if (kind == "vessel") read_vessel(std::move(document), std::move(id));
    else if (kind == "jar") read_jar(std::move(document), std::move(id), library);
    else if (kind == "bench") read_bench(std::move(document));
    else if (kind == "recipe") {
        Jar jar;
        jar.pigment = library.pigment("alumina-lake");
        read_recipe(std::move(document), std::move(id), library, &jar);
    } else {
        document.faults.throw_if_any();
        throw InputError(whole_file_fault("kind-wrong", path, "no file has the kind '" + kind + "'"));
    }
}

} // namespace

int main(int argc, char** argv) {
    if (argc == 2 && std::string_view(argv[1]) == "--units") {
        print_units();
        return 0;
    }
    if (argc < 3) {
        std::cerr << "usage: shelf_check SHELF FILE... | shelf_check --units\n";
        return 3;
    }
    Library library({{argv[1], "--shelf", true}});
    int status = 0;
    for (int i = 2; i < argc; ++i) {
        try {
            read_any(argv[i], library);
            std::cout << "read: " << argv[i] << '\n';
        } catch (const InputError& error) {
            std::cout << "refused: " << argv[i] << '\n' << error.what();
            status = 2;
        }
    }
    return status;
}
