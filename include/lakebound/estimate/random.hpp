#pragma once
// Random numbers that are the same on every machine.
//
// The standard library leaves std::normal_distribution to each maker of a compiler, so the same
// seed would give another answer elsewhere. Here the engine and the normal variate are both ours,
// and the compiler makes the tables; only the far tail asks the machine for a logarithm.

#include <array>
#include <cstdint>
#include <limits>
#include <span>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// xoshiro256++, a generator of 64-bit integers with period 2^256 - 1.
/// Source: blackman-vigna-2021 (the algorithm xoshiro256++ 1.0, jump polynomial included); seeded
/// from one integer by splitmix64, as its authors advise. Not for secrets.
class RandomEngine {
public:
    using result_type = std::uint64_t;

    /// Any seed is good, 0 included.
    explicit constexpr RandomEngine(std::uint64_t seed) noexcept {
        for (auto& word : state_) {
            seed += 0x9e3779b97f4a7c15u;
            std::uint64_t z = seed;
            z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
            z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
            word = z ^ (z >> 31);
        }
    }
    /// The state itself, not all zero.
    explicit constexpr RandomEngine(const std::array<std::uint64_t, 4>& state) noexcept : state_(state) {}

    [[nodiscard]] static constexpr result_type min() noexcept { return 0; }
    [[nodiscard]] static constexpr result_type max() noexcept { return std::numeric_limits<result_type>::max(); }

    constexpr result_type operator()() noexcept {
        const std::uint64_t result = rotate(state_[0] + state_[3], 23) + state_[0];
        const std::uint64_t t = state_[1] << 17;
        state_[2] ^= state_[0];
        state_[3] ^= state_[1];
        state_[1] ^= state_[2];
        state_[0] ^= state_[3];
        state_[2] ^= t;
        state_[3] = rotate(state_[3], 45);
        return result;
    }

    /// Moves on by 2^128 draws: engines one jump apart give streams that never meet.
    constexpr void jump() noexcept {
        constexpr std::array<std::uint64_t, 4> polynomial{0x180ec6d33cfd0abau, 0xd5a61266f0c9392cu,
                                                          0xa9582618e03fc9aau, 0x39abdc4529b1661cu};
        std::array<std::uint64_t, 4> jumped{};
        for (const auto word : polynomial)
            for (int bit = 0; bit < 64; ++bit) {
                if ((word >> bit) & 1u)
                    for (std::size_t i = 0; i < 4; ++i)
                        jumped[i] ^= state_[i];
                (*this)();
            }
        state_ = jumped;
    }

    friend constexpr bool operator==(const RandomEngine&, const RandomEngine&) = default;

private:
    [[nodiscard]] static constexpr std::uint64_t rotate(std::uint64_t x, int k) noexcept {
        return (x << k) | (x >> (64 - k));
    }
    std::array<std::uint64_t, 4> state_{};
};

/// The middle of one of 2^52 equal cells of (0, 1), chosen by the high bits: never 0, never 1.
[[nodiscard]] constexpr double uniform_from_bits(std::uint64_t bits) noexcept {
    return (static_cast<double>(bits >> 12) + 0.5) * 0x1p-52;
}
/// Uniform on the open interval (0, 1).
[[nodiscard]] constexpr double uniform(RandomEngine& engine) noexcept { return uniform_from_bits(engine()); }

/// One standard normal variate (mean 0, standard deviation 1) by the ziggurat of 256 layers
/// (marsaglia-tsang-2000), layer and value from different bits (doornik-2005).
[[nodiscard]] double standard_normal(RandomEngine& engine);
/// Fills the span with what as many calls of standard_normal would give, faster.
void fill_standard_normal(RandomEngine& engine, std::span<double> out);

} // namespace lakebound
