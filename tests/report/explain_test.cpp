#include <catch2/catch.hpp>

#include <sstream>

#include "lakebound/report/explain.hpp"
#include "support/example_paint.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("The worked example shows symbols, numbers and results", "[unit]") {
    const auto text = explanation_text(batch_subject(example_request(Process::watercolour), example_tests()));
    // Lake M of docs/theory.md: q 0.73957 mL/g, CPVC 0.41834 (computed).
    CHECK_THAT(text, Catch::Contains("q = OA / (100 rho_o)") && Catch::Contains("= 68.78 / (100 x 0.93)") &&
                         Catch::Contains("= 0.73957 mL/g") && Catch::Contains("= 0.41834") &&
                         Catch::Contains("HOW SURE"));
}

TEST_CASE("The worked example fits 80 columns", "[unit]") {
    for (const auto process : {Process::watercolour, Process::oil, Process::egg_tempera}) {
        std::istringstream lines(explanation_text(batch_subject(example_request(process), example_tests())));
        for (std::string line; std::getline(lines, line);) {
            INFO(line);
            CHECK(line.size() <= 80);
        }
    }
}

TEST_CASE("Nothing is explained where nothing can be made", "[unit]") {
    BatchSubject subject;
    CHECK(explanation_text(subject).empty());
}
