// The functions of the kernel of chance, held against those of the C++ library.

#include "lib/paint/vector_functions.hpp"
#include "lib/paint/vector_random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

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

TEST_CASE("normal variates are those of Box and Muller to the last digits, all round the circle", "[reference]") {
    // Radius and angle by the C++ library in long double, from the words that the header names.
    std::vector<std::uint64_t> bits;
    constexpr std::uint64_t whole = std::uint64_t{1} << 52;
    std::vector<std::uint64_t> places{0, 1, whole - 1, whole / 2, whole / 2 - 1, whole / 4, whole / 8 * 7};
    for (std::uint64_t i = 0; i < 57; ++i)
        places.push_back((whole / 57) * i + 12345);
    std::vector<std::uint64_t> first, second;
    for (const std::uint64_t u : places)
        for (const std::uint64_t v : places)
            for (const std::uint64_t signs : {0u, 1u, 2u, 3u}) {
                first.push_back(u << 12);
                second.push_back(v << 12 | signs);
            }
    bits = first;
    bits.insert(bits.end(), second.begin(), second.end());
    std::vector<double> z(bits.size());
    lakebound::detail::bits_to_normals(bits.data(), z.data(), bits.size());
    const long double pi = std::acos(-1.0L);
    double worst = 0;
    for (std::size_t i = 0; i < first.size(); ++i) {
        const long double u = (static_cast<long double>(first[i] >> 12) + 0.5L) / whole;
        const long double v = (static_cast<long double>(second[i] >> 12) + 0.5L) / whole - 0.5L;
        const long double radius = std::sqrt(-2 * std::log(u)), angle = pi / 2 * v + pi / 4;
        const long double x = radius * std::cos(angle) * (second[i] & 1u ? -1 : 1);
        const long double y = radius * std::sin(angle) * (second[i] & 2u ? -1 : 1);
        worst = std::max(worst, static_cast<double>(std::abs(z[i] - x) / radius));
        worst = std::max(worst, static_cast<double>(std::abs(z[i + first.size()] - y) / radius));
    }
    CHECK(worst < 4e-14); // the next term of the sine is 2e-14 at an eighth of a turn, the rest of the logarithm 1e-14
}
