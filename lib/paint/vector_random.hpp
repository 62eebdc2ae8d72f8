#pragma once
// Interleaved random streams and their normal variates, written so that compilers make vector
// code of them. Internal to the paint room.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "lakebound/quantity/portable.hpp"
#include "vector_clones.hpp"
#include "vector_functions.hpp"

namespace lakebound::detail {

/// More than any vector unit holds: a short inner loop would be unrolled instead of made vector code.
inline constexpr std::size_t random_lanes = 64;

/// Many xoshiro256++ engines side by side (blackman-vigna-2021), each seeded by splitmix64.
struct LaneStreams {
    alignas(64) std::uint64_t s[4][random_lanes];

    explicit LaneStreams(std::uint64_t seed) noexcept {
        for (auto& word : s)
            for (auto& lane : word) {
                seed += 0x9e3779b97f4a7c15u;
                std::uint64_t z = seed;
                z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
                z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
                lane = z ^ (z >> 31);
            }
    }
};

/// n words, n a multiple of the lanes.
LAKEBOUND_INTO_CLONES void fill_bits(LaneStreams& streams, std::uint64_t* __restrict out, std::size_t n) {
    std::uint64_t* const __restrict s0 = streams.s[0];
    std::uint64_t* const __restrict s1 = streams.s[1];
    std::uint64_t* const __restrict s2 = streams.s[2];
    std::uint64_t* const __restrict s3 = streams.s[3];
    for (std::size_t i = 0; i < n; i += random_lanes)
        for (std::size_t l = 0; l < random_lanes; ++l) {
            const std::uint64_t a = s0[l], b = s1[l], c = s2[l] ^ a, d = s3[l] ^ b, sum = a + s3[l];
            out[i + l] = ((sum << 23) | (sum >> 41)) + a;
            s0[l] = a ^ d;
            s1[l] = b ^ c;
            s2[l] = c ^ (b << 17);
            s3[l] = (d << 45) | (d >> 19);
        }
}

inline constexpr double sine_series[] = {
    1.0, -1.0 / 6.0, 1.0 / 120.0, -1.0 / 5040.0, 1.0 / 362880.0, -1.0 / 39916800.0, 1.0 / 6227020800.0};
inline constexpr double cosine_series[] = {1.0,
                                           -0.5,
                                           1.0 / 24.0,
                                           -1.0 / 720.0,
                                           1.0 / 40320.0,
                                           -1.0 / 3628800.0,
                                           1.0 / 479001600.0,
                                           -1.0 / 87178291200.0};

/// n standard normal variates from n random words, n even: word i and word i + n/2 make variates i and
/// i + n/2 by Box and Muller. The angle is drawn within a quarter turn and two random signs spread it
/// over the circle.
LAKEBOUND_INTO_CLONES void bits_to_normals(const std::uint64_t* __restrict bits, double* __restrict z,
                                           std::size_t n) {
    constexpr double root_half = 0.70710678118654752, quarter_turn = 1.5707963267948966;
    constexpr std::uint64_t sign = 0x8000000000000000u, one = 0x3ff0000000000000u;
    const std::size_t half = n / 2;
    for (std::size_t i = 0; i < half; ++i) {
        const std::uint64_t first = bits[i], second = bits[i + half];
        // The middle of one of 2^52 cells: 1.mantissa - (1 - half a cell), never 0 and never 1.
        const double u = bits_as<double>((first >> 12) | one) - (1.0 - 0x1p-53);
        const double v = bits_as<double>((second >> 12) | one) - (1.5 - 0x1p-53); // -1/2 to 1/2
        const double radius = std::sqrt(-2.0 * vector_log(u)) * root_half;
        const double angle = quarter_turn * v, square = angle * angle;
        const double s = angle * polynomial(sine_series, square), c = polynomial(cosine_series, square);
        // cos and sin of angle + 45 degrees, both positive; the low bits of the second word give signs.
        const double x = radius * (c - s), y = radius * (c + s);
        z[i] = bits_as<double>(bits_as<std::uint64_t>(x) | ((second << 63) & sign));
        z[i + half] = bits_as<double>(bits_as<std::uint64_t>(y) | ((second << 62) & sign));
    }
}

} // namespace lakebound::detail
