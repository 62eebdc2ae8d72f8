// The functions of the kernel of chance, held against those of the C++ library.

#include "lib/paint/vector_functions.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

TEST_CASE("the kernel's exponential, logarithm and normal distribution are the library's", "[reference]") {
    namespace detail = lakebound::detail;
    double of_exp = 0, of_log = 0, of_phi = 0;
    for (double x = -700; x <= 700; x += .0937)
        of_exp = std::max(of_exp, std::abs(detail::vector_exp(x) / std::exp(x) - 1));
    for (double x = -1; x <= 1; x += 1.03e-3)
        of_exp = std::max(of_exp, std::abs(detail::vector_exp(x) / std::exp(x) - 1));
    for (double x = -300; x <= 300; x += .0517) { // and about 1, where the logarithm is small
        const double y = std::pow(10.0, x), near_one = 1.0 + x / 400;
        of_log = std::max(of_log, std::abs(detail::vector_log(y) / std::log(y) - 1));
        if (std::abs(near_one - 1) > 1e-9) of_log = std::max(of_log, std::abs(detail::vector_log(near_one) / std::log(near_one) - 1));
    }
    for (double z = -37; z <= 9; z += .0113) {
        const double phi = .5 * std::erfc(-z / std::sqrt(2.0));
        of_phi = std::max(of_phi, std::abs(detail::vector_normal_cdf(z) / phi - 1));
    }
    CHECK(of_exp < 2e-14); // as the header says
    CHECK(of_log < 1e-13); // and rounding
    CHECK(of_phi < 1.5e-12);
    // Beyond the ends it stays there.
    CHECK(detail::vector_exp(-800) == detail::vector_exp(-708));
    CHECK(detail::vector_exp(800) == detail::vector_exp(708));
}
