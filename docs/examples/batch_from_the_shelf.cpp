// A batch from the shipped shelf and a studio's jar, and the weigh sheet as text. Arguments: the shelf (in CMake
// ${lakebound_SHELF_DIR}, in a shell `pkg-config --variable=shelfdir lakebound-shelf`).
// Prints:
//   6.0 g of oil medium for 6 g of pigment: should hold
//   the sheet has its list to weigh by
//   [id-unknown] there is no recipe 'lake-oil-tub' on the shelf; did you mean 'lake-oil-tube'?
#include <cstdio>
#include <lakebound/paint/batch_subject.hpp>
#include <lakebound/report/weigh_sheet.hpp>
#include <lakebound/shelf/library.hpp>
#include <lakebound/shelf/maker_files.hpp>
using namespace lakebound;

int main(int, char** arguments) {
    const std::string shelf = arguments[1], studio = shelf + "/studios/reedmere";
    // Folders searched first come first: the studio lies over the shelf.
    Library library({{studio, "the studio"}, {shelf, "shipped"}});
    try {
        const Jar jar = library.jar("weld");
        BatchRequest request;
        request.recipe = library.recipe("lake-oil-tube", &jar);
        request.jar = JarOnHand{jar_in_recipe(request.recipe, jar), jar.net_mass.value()};
        request.bench = find_bench(std::nullopt, library).bench;
        request.practice = library.practice();
        request.amount = grams(6.0);
        const BatchSubject answer = batch_subject(std::move(request), library.bench_tests());
        std::printf("%.1f g of oil medium for 6 g of pigment: %s\n", in_grams(answer.answer.batch->medium),
                    is_good(answer) ? "should hold" : "will not do");
        const std::string sheet = weigh_sheet_text(answer);
        std::printf("the sheet has %s\n", sheet.find("\nWEIGH\n") != std::string::npos ? "its list to weigh by" : "no list");

        library.recipe("lake-oil-tub", &jar); // no such recipe
    } catch (const InputError& error) {       // what a person typed: every fault with place, id and hint
        for (const auto& fault : error.faults())
            std::printf("[%s] %s; %s\n", fault.id.c_str(), fault.message.c_str(), fault.hint.c_str());
    }
}
