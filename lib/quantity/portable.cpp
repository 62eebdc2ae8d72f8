#include "lakebound/quantity/portable.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <version>

namespace lakebound::detail {

#if defined(_LIBCPP_VERSION) && _LIBCPP_VERSION < 14000

std::string chars_of(double x) { return printed::chars_of(x); }
std::string chars_of(double x, std::chars_format format) { return printed::chars_of(x, format); }
std::string chars_of(double x, std::chars_format format, int precision) {
    return printed::chars_of(x, format, precision);
}

#else

namespace {

// Room for the longest fixed form of a double: 309 digits before the point, or 324 zeros and 17 digits.
using Room = std::array<char, 400>;

template <class... How> std::string standard_chars(double x, How... how) {
    Room room;
    return {room.data(), std::to_chars(room.data(), room.data() + room.size(), x, how...).ptr};
}

} // namespace

std::string chars_of(double x) { return standard_chars(x); }
std::string chars_of(double x, std::chars_format format) { return standard_chars(x, format); }
std::string chars_of(double x, std::chars_format format, int precision) { return standard_chars(x, format, precision); }

#endif

namespace printed {
namespace {

/// As printf writes it, with a point whatever the locale.
std::string by_printf(const char* form, int precision, double x) {
    std::array<char, 400> room;
    const int written = std::snprintf(room.data(), room.size(), form, precision, x);
    std::string text(room.data(), static_cast<std::size_t>(written));
    const auto odd = text.find_first_not_of("0123456789+-e");
    if (odd == std::string::npos) return text;
    const auto end = text.find_first_of("0123456789", odd); // a locale's mark may take several bytes
    text.erase(odd, end - odd);
    text.insert(odd, 1, '.');
    return text;
}

/// The fewest digits, in the scientific form, that read back to x.
std::string fewest(double x) {
    for (int precision = 0; precision < 17; ++precision) {
        std::array<char, 40> room;
        std::snprintf(room.data(), room.size(), "%.*e", precision, x);
        const double back = std::strtod(room.data(), nullptr); // of the same locale as the text
        if (!(back < x) && !(back > x)) return by_printf("%.*e", precision, x);
    }
    return by_printf("%.*e", 16, x);
}

/// The digits of a scientific form laid out without its power.
std::string without_power(double x, const std::string& scientific) {
    if (std::fabs(x) >= 0x1p53) return by_printf("%.*f", 0, x); // whole: all its digits are meant
    const auto e = scientific.find('e');
    const int power = std::atoi(scientific.c_str() + e + 1);
    const bool negative = scientific.front() == '-';
    std::string digits;
    for (std::size_t at = 0; at < e; ++at)
        if (scientific[at] >= '0' && scientific[at] <= '9') digits += scientific[at];
    std::string text(negative ? 1 : 0, '-');
    if (power < 0) {
        text.append("0.").append(static_cast<std::size_t>(-power - 1), '0').append(digits);
        return text;
    }
    const auto whole = static_cast<std::size_t>(power) + 1;
    if (digits.size() <= whole) return text.append(digits).append(whole - digits.size(), '0');
    return text.append(digits, 0, whole).append(1, '.').append(digits, whole);
}

} // namespace

std::string chars_of(double x, std::chars_format format) {
    const auto scientific = fewest(x);
    return format == std::chars_format::fixed ? without_power(x, scientific) : scientific;
}

std::string chars_of(double x) {
    const auto scientific = fewest(x), fixed = without_power(x, scientific);
    return fixed.size() <= scientific.size() ? fixed : scientific;
}

std::string chars_of(double x, std::chars_format format, int precision) {
    return by_printf(format == std::chars_format::general ? "%.*g" : "%.*e", precision, x);
}

} // namespace printed
} // namespace lakebound::detail
