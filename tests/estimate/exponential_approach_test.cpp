#include "lakebound/estimate/exponential_approach.hpp"

#include <catch2/catch.hpp>

using namespace lakebound;

TEST_CASE("an exponential through three readings gives itself back", "[identity]") {
    for (const double end : {-3.0, 0.0, 40.0})
        for (const double tau : {0.5, 3.0, 200.0}) {
            const auto at = [&](double t) { return end + 50 * std::exp(-t / tau); };
            const auto found = exponential_approach("height", at(0), at(2), at(4), 2, "mm");
            CHECK(found.end == Approx(end).epsilon(1e-6).margin(1e-9));
            CHECK(found.tau == Approx(tau).epsilon(1e-6));
        }
}

TEST_CASE("readings that tell no end are refused with what they are", "[errors]") {
    CHECK_THROWS_WITH(exponential_approach("height", 60, 50, 40, 2, "mm"),
                      Catch::Contains("height is 40 mm") && Catch::Contains("above 40 mm") && Catch::Contains("not begun to slow"));
    CHECK_THROWS_WITH(exponential_approach("height", 60, 60, 40, 2, "mm"), Catch::Contains("below the reading before it, 60 mm"));
    CHECK_THROWS_WITH(exponential_approach("height", 60, 50, 74.99999999999999, 2, "mm"), Catch::Contains("height is 75 mm"));
    CHECK_THROWS_AS(exponential_approach("height", 60, 50, 45, 0, "mm"), DomainError);
}
