#include "lakebound/quantity/error.hpp"

#include <cmath>

#include "lakebound/quantity/portable.hpp"

namespace lakebound {
namespace {

std::string shortest(double x) {
    if (std::isnan(x)) return "not a number";
    if (std::isinf(x)) return x > 0 ? "infinity" : "minus infinity";
    return detail::chars_of(x);
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
    std::string text = shortest(value);
    if (*unit != '\0') text.append(" ").append(unit);
    throw DomainError(quantity, text, valid);
}

} // namespace lakebound
