#include "lakebound/estimate/gauss_hermite.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/quantity/error.hpp"

using namespace lakebound;

TEST_CASE("Gauss-Hermite nodes of five", "[reference]") {
    // Abramowitz & Stegun 25.4.46, n = 5 (values from memory), rescaled: z = x sqrt 2, w = w/sqrt pi.
    const double x[] = {0.0, 0.958572464614, 2.020182870456}, w[] = {0.945308720483, 0.393619323152, 0.019953242059};
    const auto n = gauss_hermite_nodes(5);
    REQUIRE(n.size() == 5);
    for (int i = 0; i < 3; ++i)
        for (const int at : {2 - i, 2 + i}) {
            const auto& node = n[static_cast<std::size_t>(at)];
            CHECK(std::abs(node.z) == Approx(x[i] * std::sqrt(2)).margin(1e-11).epsilon(0));
            CHECK(node.weight == Approx(w[i] / std::sqrt(M_PI)).epsilon(1e-10));
        }
}

TEST_CASE("n nodes are exact for polynomials up to degree 2n - 1", "[identity]") {
    for (const int count : {1, 2, 3, 4, 7, 12, 20, 33, 64}) {
        INFO(count);
        const auto nodes = gauss_hermite_nodes(count);
        REQUIRE(nodes.size() == static_cast<std::size_t>(count));
        double moment = 1.0; // E Z^d = (d - 1)!!
        for (int d = 0; d < std::min(2 * count, 20); ++d) {
            double sum = 0.0;
            for (const auto& n : nodes)
                sum += n.weight * std::pow(n.z, d);
            if (d % 2 == 1) CHECK(sum == Approx(0).margin(1e-10 * moment * d));
            else {
                if (d > 0) moment *= d - 1;
                CHECK(sum == Approx(moment).epsilon(1e-10));
            }
        }
        for (std::size_t i = 1; i < nodes.size(); ++i)
            CHECK(nodes[i].z > nodes[i - 1].z);
    }
    CHECK_THROWS_AS(gauss_hermite_nodes(0), DomainError);
    CHECK_THROWS_AS(gauss_hermite_nodes(65), DomainError);
}
