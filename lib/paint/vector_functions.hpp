#pragma once
// Branch-free logarithm, exponential and normal distribution, which compilers turn into vector code.
//
// Internal to the paint room: the functions of <cmath> are exact to the last bit but are called one
// value at a time, and they would be nine tenths of the time of a sweep (docs/performance.md).
// Relative accuracy against <cmath> (tests/paint/sweep_test.cpp): log and exp 1e-14, Phi 1e-12 down to
// Phi(-37). Only additions, multiplications, divisions and bit operations, so that every machine gives
// the same bits if the compiler does not fuse multiply and add.

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "lakebound/quantity/portable.hpp"
#include "vector_clones.hpp"

namespace lakebound::detail {

/// x, x^2, x^4, x^8, x^16.
struct Powers {
    double p[5];
    explicit Powers(double x) : p{x, x * x, (x * x) * (x * x), 0.0, 0.0} {
        p[3] = p[2] * p[2];
        p[4] = p[3] * p[3];
    }
};

/// Polynomial by Estrin's scheme, coefficients from the constant term up: pairs are summed side by
/// side, for Horner's rule waits for every step and would take twice the time.
template <std::size_t first, std::size_t count, std::size_t total>
LAKEBOUND_INTO_CLONES double polynomial(const double (&c)[total], const Powers& x) {
    if constexpr (count == 1)
        return c[first];
    else {
        constexpr std::size_t half = std::bit_floor(count - 1);
        return polynomial<first, half>(c, x) +
               x.p[std::bit_width(half) - 1] * polynomial<first + half, count - half>(c, x);
    }
}
template <std::size_t total> LAKEBOUND_INTO_CLONES double polynomial(const double (&c)[total], double x) {
    return polynomial<0, total>(c, Powers(x));
}

inline constexpr double log_series[] = {1.0,       1.0 / 3.0,  1.0 / 5.0,  1.0 / 7.0,
                                        1.0 / 9.0, 1.0 / 11.0, 1.0 / 13.0, 1.0 / 15.0};
inline constexpr double exp_series[] = {
    1.0,         1.0,          1.0 / 2.0,     1.0 / 6.0,      1.0 / 24.0,      1.0 / 120.0,
    1.0 / 720.0, 1.0 / 5040.0, 1.0 / 40320.0, 1.0 / 362880.0, 1.0 / 3628800.0, 1.0 / 39916800.0};
/// H(t) of vector_normal_cdf.
inline constexpr double tail_series[] = {0.7691930497500643,     -0.6653825028952256,    0.4953056159793762,
                                         -0.3135331564221785,    0.16502036571575202,    -0.06911864221940127,
                                         0.020795073219780028,   -0.002993354405082763,  -0.0007979103319764274,
                                         0.0005448228948033823,  -5.923611378107738e-05, -4.961335213998862e-05,
                                         1.6407192442964742e-05, 3.8083829859134812e-06, -2.454629000770675e-06,
                                         -2.217833059315836e-07, 2.2941853872879526e-07};

/// ln x for normal x above 0 (not checked). x = 2^e m, m in [sqrt(1/2), sqrt 2); ln m = 2 artanh s with
/// s = (m-1)/(m+1), by its series to s^15, whose rest is below 1e-14 of it.
LAKEBOUND_INTO_CLONES double vector_log(double x) {
    const auto bits = bits_as<std::uint64_t>(x);
    // Shifts the border of the exponent from 1 to sqrt(1/2): a carry out of the mantissa raises it.
    const std::uint64_t shifted = bits + (0x3ff0000000000000u - 0x3fe6a09e667f3bcdu);
    // An integer below 2^52 becomes a double when its bits stand below the exponent of 2^52.
    const double e = bits_as<double>((shifted >> 52) | 0x4330000000000000u) - (0x1p52 + 1023.0);
    const double m = bits_as<double>((shifted & 0x000fffffffffffffu) + 0x3fe6a09e667f3bcdu);
    const double s = (m - 1.0) / (m + 1.0);
    return e * 0.6931471805599453 + 2.0 * s * polynomial(log_series, s * s);
}

/// e^x; below -708 it stays at e^-708, above 708 at e^708. x = n ln 2 + r, |r| <= ln 2 / 2, e^r by its
/// series to r^11, whose rest is below 1e-14.
LAKEBOUND_INTO_CLONES double vector_exp(double x) {
    x = x < -708.0 ? -708.0 : x;
    x = x > 708.0 ? 708.0 : x;
    constexpr double round_off = 0x1.8p52; // adding it leaves the nearest integer in the low bits
    const double shifted = x * 1.4426950408889634 + round_off;
    const double n = shifted - round_off;
    // ln 2 in two parts, so that n ln 2 keeps its last digits.
    const double r = (x - n * 6.93147180369123816490e-01) - n * 1.90821492927058770002e-10;
    const std::uint64_t scale = (bits_as<std::uint64_t>(shifted) << 52) + 0x3ff0000000000000u;
    return polynomial(exp_series, r) * bits_as<double>(scale);
}

/// Phi(z), the standard normal distribution. With a = |z| the lower tail is e^(-a^2/2) H(t)/(a + 5),
/// t = (a - 5)/(a + 5); H: Chebyshev fit of degree 16 to the scaled complementary error function
/// (independent library) over all a, 5e-13; the rounding of a^2 adds up to 3e-13 at a = 37.
LAKEBOUND_INTO_CLONES double vector_normal_cdf(double z) {
    double a = std::fabs(z);
    a = a > 37.5 ? 37.5 : a;
    const double inverse = 1.0 / (a + 5.0), t = (a - 5.0) * inverse;
    const double tail = vector_exp(-0.5 * a * a) * polynomial(tail_series, t) * inverse;
    return z < 0.0 ? tail : 1.0 - tail;
}

} // namespace lakebound::detail
