#include "lakebound/report/library_figure.hpp"

#include <catch2/catch.hpp>

#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("A reading that stands alone is said to be taken as it was read", "[unit]") {
    auto request = example_request(Process::oil);
    auto& pigment = request.recipe.pigments.front().pigment;
    const std::vector<std::string> alone{
        "Weld lake: the oil absorption 68.8 x/ 1.06 g/100 g is taken as it was read; the library expects nothing of "
        "this powder."};
    CHECK(taken_as_read_lines(request) == alone);

    // Weighed with what the library expects: that is another line, and not taken as it was read.
    auto weighed = request;
    weighed.recipe.pigments.front().pigment.oil_absorption_belief = {pigment.oil_absorption.value(), pigment.oil_absorption.value()};
    CHECK(taken_as_read_lines(weighed).empty());

    // A figure of the library was read by nobody here.
    pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35, library());
    CHECK(taken_as_read_lines(request).empty());
    pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(grams_per_100_grams(65.0), 1.35,
                                                                {Origin::published, "book", false});
    CHECK(taken_as_read_lines(request).empty());
}
