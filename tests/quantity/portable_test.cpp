// What stands in for a standard library's lack is held against the standard library that has it.

#include <catch2/catch.hpp>

#include <atomic>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

#include "lakebound/quantity/portable.hpp"

using namespace lakebound::detail;

namespace {

std::vector<double> numbers_to_write() {
    std::vector<double> numbers{0.0,     1.0,    -1.0,   0.1,    2.675,  1e-4,  9.5e-5, 123456.0, 1e5,
                                99999.5, 1e15,   1e16,   1e17,   0x1p52, 0x1p53, 0x1p-1022,
                                std::numeric_limits<double>::min(), std::numeric_limits<double>::max(),
                                std::numeric_limits<double>::denorm_min(), std::numeric_limits<double>::epsilon()};
    std::mt19937_64 engine(20);
    for (int i = 0; i < 2000; ++i) {
        const double any = std::bit_cast<double>(engine()); // over all powers
        if (std::isfinite(any)) numbers.push_back(any);
        numbers.push_back(std::ldexp(static_cast<double>(engine() % 100000), -static_cast<int>(engine() % 12)));
    }
    return numbers;
}

} // namespace

TEST_CASE("Numbers are written without to_chars as to_chars writes them", "[unit][reference]") {
    for (const double x : numbers_to_write()) {
        INFO(x);
        CHECK(printed::chars_of(x) == chars_of(x));
        CHECK(printed::chars_of(x, std::chars_format::fixed) == chars_of(x, std::chars_format::fixed));
        CHECK(printed::chars_of(x, std::chars_format::scientific) == chars_of(x, std::chars_format::scientific));
        for (const int precision : {0, 4, 14, 16}) {
            CHECK(printed::chars_of(x, std::chars_format::scientific, precision) ==
                  chars_of(x, std::chars_format::scientific, precision));
            CHECK(printed::chars_of(x, std::chars_format::general, precision) ==
                  chars_of(x, std::chars_format::general, precision));
        }
    }
}

TEST_CASE("Numbers are written in the form that is named", "[unit]") {
    CHECK(chars_of(0.25) == "0.25");
    CHECK(chars_of(-1e30) == "-1e+30");
    CHECK(chars_of(100000.0, std::chars_format::fixed) == "100000");
    CHECK(chars_of(0.00025, std::chars_format::scientific) == "2.5e-04");
    CHECK(chars_of(1.23456789, std::chars_format::general, 5) == "1.2346");
}

TEST_CASE("Bits are taken over as they are", "[unit]") {
    static_assert(bits_as<std::uint64_t>(1.0) == 0x3ff0000000000000u); // IEEE 754, binary64
    CHECK(bits_as<double>(std::uint64_t{0x4009'21fb'5444'2d18}) == Approx(3.141592653589793));
}

TEST_CASE("Two works are done side by side, and what either throws comes through", "[unit]") {
    int here = 0, beside = 0;
    lakebound::detail::side_by_side([&] { here = 1; }, [&] { beside = 2; });
    CHECK(here + beside == 3);
    const auto fails = [](int with) { return [with] { throw with; }; };
    const auto thrown = [](auto a, auto b) {
        try {
            lakebound::detail::side_by_side(a, b);
        } catch (int with) {
            return with;
        }
        return 0;
    };
    CHECK(thrown([] {}, fails(2)) == 2);
    CHECK(thrown(fails(1), [] {}) == 1);
    CHECK(thrown(fails(1), fails(2)) == 1);
    CHECK(thrown([] {}, [] {}) == 0);
}

TEST_CASE("Threads are waited for at the end of their scope", "[unit]") {
    std::atomic<int> done{0};
    {
        JoinedThreads threads;
        for (int i = 0; i < 4; ++i)
            threads.start([&done] {
                std::this_thread::yield();
                ++done;
            });
    }
    CHECK(done == 4);
}
