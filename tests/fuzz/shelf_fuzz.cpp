// Feeds bytes to the shelf as a file of each kind and holds it to its promises: every input is either
// read or refused with an InputError whose faults have known ids, places inside the text and a harmless
// rendering. Anything else (another exception, a crash, a report of the sanitizers) is a finding.
//
// Every input is read as a file and as the table of a sieve test; one that does not begin with "kind:" or
// "#" is also the body of eleven files, one of each kind.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "lakebound/shelf/check_file.hpp"
#include "lakebound/shelf/error_catalogue.hpp"
#include "lakebound/shelf/jar_file.hpp"
#include "lakebound/shelf/recipe_file.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"

namespace {

using namespace lakebound;

void demand(bool holds, const char* promise) {
    if (holds) return;
    std::fprintf(stderr, "broken promise: %s\n", promise);
    std::abort();
}

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

void check_excerpt(const Excerpt& at) {
    if (at.place.line == 0) return;
    demand(at.place.column >= 1, "columns count from one");
    demand(at.place.column <= characters(at.source_line) + 1, "the column lies in its line");
    demand(at.source_line.find('\n') == std::string::npos, "a line is one line");
}

void check_error(const InputError& error) {
    demand(!error.faults().empty() && error.faults().size() <= most_faults, "one to twenty faults");
    for (const Diagnostic& fault : error.faults()) {
        const auto& all = error_catalogue();
        demand(std::any_of(all.begin(), all.end(), [&](const CatalogueEntry& e) { return e.id == fault.id; }),
               "every id is in the catalogue");
        demand(!fault.message.empty(), "every fault has a message");
        check_excerpt(fault.at);
        if (fault.second) check_excerpt(fault.second->at);
    }
    for (const char c : error.text())
        demand(static_cast<unsigned char>(c) >= 0x20 || c == '\n', "no control character is printed");
}

void check_read(const std::string& bytes, Library& library, const Jar& jar) {
    try {
        Document document = load_document("/no-such-folder/fuzz.yaml", bytes);
        const std::string kind = document.kind();
        if (kind == "jar") {
            const Jar read = read_jar(std::move(document), "fuzz", library);
            const double mass = canonical(read.net_mass.value());
            demand(std::isfinite(mass) && mass >= 0.0, "a jar's mass is a number, not below zero");
        } else if (kind == "recipe") {
            const Recipe read = read_recipe(std::move(document), "fuzz", library, &jar);
            double sum = 0.0;
            for (const PigmentPart& part : read.pigments)
                sum += part.share.value();
            demand(std::fabs(sum - 1.0) < 1e-9, "shares sum to one");
        } else {
            check_document(std::move(document), "fuzz", library, &jar);
        }
    } catch (const InputError& error) {
        check_error(error);
    }
}

void check_table(const std::string& bytes) {
    try {
        (void)read_sieve_test_file("/no-such-folder/fuzz.csv", bytes);
    } catch (const InputError& error) {
        check_error(error);
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static Library library({{LAKEBOUND_TESTS_DIR "/errors/shelf", "fuzz", true}});
    static const Jar jar = [] { // as every jar of the shelf has one
        Jar stand_in;
        stand_in.pigment.oil_absorption = Estimate<OilAbsorption>::exact(OilAbsorption::of(0.65), {});
        return stand_in;
    }();
    const std::string bytes(reinterpret_cast<const char*>(data), size);
    check_read(bytes, library, jar);
    check_table(bytes);
    if (bytes.rfind("kind:", 0) == 0 || bytes.rfind('#', 0) == 0) return 0;
    for (const char* kind : {"pigment", "ingredient", "medium", "family", "vessel", "recipe", "jar", "bench",
                             "sieve test", "settling test", "fineness target"})
        check_read("kind: " + std::string(kind) + "\n" + bytes, library, jar);
    return 0;
}
