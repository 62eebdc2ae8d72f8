#include "lakebound/quantity/error.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "lakebound/quantity/portable.hpp"

namespace lakebound {
namespace {

/// Digits of a number's mantissa, from the first to the last that is not 0.
std::ptrdiff_t digits_of(std::string_view number) {
    number = number.substr(0, number.find('e'));
    const auto first = number.find_first_of("123456789"), last = number.find_last_of("123456789");
    if (first == number.npos) return 0;
    number = number.substr(first, last - first + 1);
    return std::count_if(number.begin(), number.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Six digits tell a person enough of what was reckoned. All of them where six would round to a simpler figure, which
/// may be the very limit that was passed.
std::string told(double x) {
    if (std::isnan(x)) return "not a number";
    if (std::isinf(x)) return x > 0 ? "infinity" : "minus infinity";
    const std::string rounded = detail::chars_of(x, std::chars_format::general, 6);
    return digits_of(rounded) == 6 ? rounded : detail::chars_of(x);
}

std::string sentence(std::string_view quantity, std::string_view value, std::string_view valid,
                     std::string_view mend) {
    std::string text;
    text.append(quantity).append(" is ").append(value).append("; valid: ").append(valid);
    if (!mend.empty()) text.append("; ").append(mend);
    return text;
}

} // namespace

DomainError::DomainError(std::string_view quantity, std::string_view value, std::string_view valid,
                         std::string_view mend)
    : std::runtime_error(sentence(quantity, value, valid, mend)), quantity_(quantity), value_(value),
      valid_(valid), mend_(mend) {}

void throw_out_of_range(const char* quantity, double value, const char* unit, const char* valid) {
    std::string text = told(value);
    if (*unit != '\0') text.append(" ").append(unit);
    throw DomainError(quantity, text, valid);
}

} // namespace lakebound
