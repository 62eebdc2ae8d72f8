#include <charconv>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/portable.hpp"
#include "lakebound/quantity/text.hpp"
#include "unit_table.hpp"

namespace lakebound {
namespace {

void require_finite(double x) {
    if (!std::isfinite(x))
        throw DomainError("number", std::isnan(x) ? "nan" : (x > 0.0 ? "inf" : "-inf"), "finite numbers");
}

bool is_zero(double x) { return std::fpclassify(x) == FP_ZERO; }

// Whether two doubles are the very same: the round trip is about bits, not about closeness.
bool same(double a, double b) { return !(a < b) && !(b < a); }

double read_back(const UnitRow& row, double x) { return (x + row.offset) * row.multiplier / row.divisor; }

/// The number in the row's unit that reads back to the canonical value: as few digits as will do it,
/// else the neighbour that comes nearest.
double in_unit_of(const UnitRow& row, double canonical_value) {
    // Shrinking by the divisor's side first keeps large values from overflowing on the way.
    const double straight = canonical_value / row.multiplier * row.divisor - row.offset;
    if (!std::isfinite(straight)) return straight;
    for (int digits = 15; digits <= 17; ++digits) {
        const double rounded = read_number(detail::chars_of(straight, std::chars_format::scientific, digits - 1));
        if (same(read_back(row, rounded), canonical_value)) return rounded;
    }
    double best = straight, below = straight, above = straight;
    for (int step = 0; step < 2; ++step) {
        below = std::nextafter(below, -HUGE_VAL);
        above = std::nextafter(above, HUGE_VAL);
        for (const double x : {below, above})
            if (std::fabs(read_back(row, x) - canonical_value) <
                std::fabs(read_back(row, best) - canonical_value))
                best = x;
    }
    return best;
}

} // namespace

std::string number_text(double x) {
    require_finite(x);
    if (is_zero(x)) return "0";
    // It alone would write 100000 as 1e+05, which no one at a slab wants to read.
    const double size = std::fabs(x);
    return detail::chars_of(x, size >= 1e-4 && size < 1e15 ? std::chars_format::fixed : std::chars_format::scientific);
}

std::string fixed_text(double x, int decimals) {
    require_finite(x);
    if (decimals < 0 || decimals > 30)
        throw DomainError("number of decimals", std::to_string(decimals), "0 to 30");
    // Rounds the decimal a person sees: 2.675 becomes 2.68, though its double lies just below.
    std::string digits = detail::chars_of(std::fabs(x), std::chars_format::fixed);
    std::size_t point = digits.find('.');
    if (point == std::string::npos) {
        point = digits.size();
        digits += '.';
    }
    const std::size_t wanted = point + 1 + static_cast<std::size_t>(decimals);
    const bool round_up = digits.size() > wanted && digits[wanted] >= '5';
    digits.resize(wanted, '0');
    bool carries = round_up;
    for (std::size_t i = wanted; carries && i-- > 0;) {
        if (digits[i] == '.') continue;
        carries = digits[i] == '9';
        digits[i] = carries ? '0' : static_cast<char>(digits[i] + 1);
    }
    if (carries) digits.insert(digits.begin(), '1');
    if (decimals == 0) digits.pop_back();
    const bool is_nothing = digits.find_first_of("123456789") == std::string::npos;
    return x < 0.0 && !is_nothing ? "-" + digits : digits;
}

double number_in_unit(double canonical_value, Dimension dimension, std::string_view unit) {
    if (dimension == Dimension::pure_number && unit.empty()) return canonical_value;
    require_finite(canonical_value);
    const TextParts parts{unit, 0, 0, 0, unit.size()};
    const UnitRow* row = find_unit(plain_unit(unit).view(), dimension);
    if (row == nullptr) refuse_unit(parts, dimension);
    if (row->size != UnitSize::fixed) refuse_uncalibrated(parts, row->size);
    const double number = in_unit_of(*row, canonical_value);
    if (!std::isfinite(number))
        throw QuantityTextError("number-overflow", 0, unit.size(),
                                "the quantity is too large to write in " + quoted(unit),
                                "write it in a larger unit");
    return number;
}

std::string quantity_text(double canonical_value, Dimension dimension, std::string_view unit) {
    const std::string number = number_text(number_in_unit(canonical_value, dimension, unit));
    return unit.empty() ? number : number + " " + std::string(unit);
}

std::string quantity_text(double canonical_value, Dimension dimension) {
    const auto usual = unit_rows(dimension);
    return quantity_text(canonical_value, dimension, usual.empty() ? std::string_view() : usual.begin()->name);
}

} // namespace lakebound
