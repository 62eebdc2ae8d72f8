#pragma once
// What some standard libraries lack, in one place: libc++ before 14 has neither std::bit_cast nor
// std::to_chars for double, and none before 20 offers std::jthread unasked.
//
// For the library's own sources; programs that use Lakebound have no need of it.

#include <charconv>
#include <cstddef>
#include <exception>
#include <string>
#include <system_error>
#include <thread>
#include <type_traits>
#include <utility>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace detail {

/// The same bits as another type, as std::bit_cast: a builtin of g++ 11, clang 9 and later, which vectorises.
template <class To, class From>
    requires(sizeof(To) == sizeof(From) && std::is_trivially_copyable_v<To> && std::is_trivially_copyable_v<From>)
[[gnu::always_inline]] constexpr To bits_as(const From& from) noexcept {
    return __builtin_bit_cast(To, from);
}

/// A finite number as std::to_chars writes it: the fewest digits that read back to x, as plain or in powers of ten,
/// whichever is shorter.
[[nodiscard]] std::string chars_of(double x);
/// The same in one of the forms, fixed or scientific.
[[nodiscard]] std::string chars_of(double x, std::chars_format format);
/// With that many digits, as printf's %.*e and %.*g write them in the C locale; precision 0 to 40; format scientific or
/// general.
[[nodiscard]] std::string chars_of(double x, std::chars_format format, int precision);

/// The same three without std::to_chars, from printf and strtod: what is taken where it is lacking, and held against
/// it by a test where it is not.
namespace printed {
[[nodiscard]] std::string chars_of(double x);
[[nodiscard]] std::string chars_of(double x, std::chars_format format);
[[nodiscard]] std::string chars_of(double x, std::chars_format format, int precision);
} // namespace printed

/// Threads that are waited for where this goes out of scope.
class JoinedThreads {
public:
    JoinedThreads() = default;
    JoinedThreads(const JoinedThreads&) = delete;
    JoinedThreads& operator=(const JoinedThreads&) = delete;
    ~JoinedThreads() {
        for (auto& each : threads_)
            each.join();
    }
    /// Throws std::system_error where the system has no thread to spare.
    template <class Work> void start(Work&& work) { threads_.emplace_back(std::forward<Work>(work)); }

private:
    std::vector<std::thread> threads_;
};

/// Does both, `beside` on a thread of its own where there is one to spare; what either throws is thrown, that of `here`
/// first. Neither may write what the other reads.
template <class Here, class Beside> void side_by_side(Here&& here, Beside&& beside) {
    std::exception_ptr thrown;
    const auto caught = [&] {
        try {
            beside();
        } catch (...) {
            thrown = std::current_exception();
        }
    };
    bool started = false;
    {
        JoinedThreads other;
        try {
            other.start(caught);
            started = true;
        } catch (const std::system_error&) {
            // done below
        }
        here();
    }
    if (!started) caught();
    if (thrown) std::rethrow_exception(thrown);
}

} // namespace detail
} // namespace lakebound
