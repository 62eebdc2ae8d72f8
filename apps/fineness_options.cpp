#include "fineness_options.hpp"

#include "common/run_app.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"

namespace lakebound {

void add_fineness_options(CommandLine& line, FinenessTexts& options) {
    line.group("How fine is fine enough (one of the first two)");
    line.option(options.family, "--family", "FAMILY", "The target of a family of paints on the shelf");
    line.option(options.target, "--target", "SCREEN", "A screen of your choice, \"45 um\" or \"No. 325\"");
    line.option(options.residue, "--residue", "SHARE",
                "What may stay on it, \"1 %\"; else as the family says, or the shelf");
    line.exclusive({"--family", "--target"});
}

PlacedSieveTest read_sieve_test_or_input(const std::string& path, const Library& library, Streams& streams) {
    if (path != "-") return read_sieve_test_file(library.own_file(path, "sieve-tests"));
    return read_sieve_test_file(std::string(standard_input_path), read_all(streams));
}

} // namespace lakebound
