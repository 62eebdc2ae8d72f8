// shelf_check SHELF FILE...: reads files of any kind as the programs do, so that the JSON Schemas can be
// held to the loader (tests/reference/schema_check.py). Prints "read: FILE" or "refused: FILE" and the
// faults. Exit status: 0 all files read, 2 some file refused, 3 wrong call.
// shelf_check --units: prints "dimension<TAB>unit" for the whole vocabulary.

#include <iostream>
#include <string>
#include <string_view>

#include "lakebound/quantity/vocabulary.hpp"
#include "lakebound/shelf/check_file.hpp"

namespace {

using namespace lakebound;

void print_units() {
    for (const Dimension dimension : all_dimensions())
        for (const std::string_view unit : unit_names(dimension))
            std::cout << dimension_name(dimension) << '\t' << unit << '\n';
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
    Jar jar; // for recipes that take their pigment from one
    jar.pigment = library.pigment("alumina-lake");
    int status = 0;
    for (int i = 2; i < argc; ++i) {
        try {
            check_file(argv[i], library, &jar);
            std::cout << "read: " << argv[i] << '\n';
        } catch (const InputError& error) {
            std::cout << "refused: " << argv[i] << '\n' << error.what();
            status = 2;
        }
    }
    return status;
}
