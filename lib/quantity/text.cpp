#include "lakebound/quantity/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <version>

#if !defined(__cpp_lib_to_chars)
#include <cstdlib>
#endif

#include "lakebound/quantity/possible.hpp"
#include "unit_table.hpp"

namespace lakebound {
namespace {

using Limits = std::numeric_limits<double>;

bool is_digit(std::string_view text, std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
}
bool is_char(std::string_view text, std::size_t at, char c) { return at < text.size() && text[at] == c; }
bool is_text(std::string_view text, std::size_t at, std::string_view wanted) {
    return text.substr(at, wanted.size()) == wanted;
}

std::size_t skip_blanks(std::string_view text, std::size_t at) {
    while (const std::size_t bytes = blank_at(text, at))
        at += bytes;
    return at;
}

std::size_t skip_digits(std::string_view text, std::size_t at) {
    while (is_digit(text, at))
        ++at;
    return at;
}

/// One past the last byte that is not blank.
std::size_t trimmed_end(std::string_view text) {
    std::size_t end = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t bytes = blank_at(text, at);
        at += bytes == 0 ? 1 : bytes;
        if (bytes == 0) end = at;
    }
    return end;
}

[[noreturn]] void refuse(const char* id, std::size_t offset, std::size_t length, const std::string& message,
                         std::string hint) {
    throw QuantityTextError(id, offset, length, message, std::move(hint));
}

/// The text does not begin with a number: says which of the known slips it is.
[[noreturn]] void refuse_start(std::string_view text, std::size_t begin, std::size_t end) {
    const std::string_view rest = text.substr(begin, end - begin);
    const std::size_t length = end - begin;
    if (rest.empty()) refuse("number-missing", begin, 0, "a number is wanted, and there is none", "");
    std::string word; // without sign and point: ".nan", "-inf", "+Infinity"
    for (const char c : rest) {
        const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        if (lower >= 'a' && lower <= 'z')
            word += lower;
        else if (!word.empty() || (c != '+' && c != '-' && c != '.'))
            break;
    }
    if (word == "nan" || word == "inf" || word == "infinity")
        refuse("number-not-finite", begin, length, "a number must be finite, got " + quoted(rest),
               "write the number itself, or leave the line out");
    if (is_char(rest, 0, ',') && is_digit(rest, 1))
        refuse("number-comma", begin, length, "a decimal has a point, not a comma, got " + quoted(rest),
               "write '0." + std::string(rest.substr(1)) + "'");
    if (is_text(rest, 0, "\u2212"))
        refuse("number-missing", begin, length, "the sign of a number is the plain '-', got " + quoted(rest),
               "write '-" + std::string(rest.substr(3)) + "'");
    refuse("number-missing", begin, length, "a number must come first, got " + quoted(rest), "");
}

[[noreturn]] void refuse_comma(std::string_view text, std::size_t begin, std::size_t comma) {
    std::size_t end = comma;
    while (is_digit(text, end) || is_char(text, end, ',') || is_char(text, end, '.'))
        ++end;
    const std::string_view typed = text.substr(begin, end - begin);
    std::string pointed, plain;
    for (const char c : typed) {
        pointed += c == ',' ? '.' : c;
        if (c != ',') plain += c;
    }
    if (text.size() <= 60) { // with what stands around it, so that the hint can be typed as it is
        std::string after(text.substr(end));
        for (std::size_t at = 1; at + 1 < after.size(); ++at)
            if (after[at] == ',' && is_digit(after, at - 1) && is_digit(after, at + 1)) after[at] = '.';
        const std::string before(text.substr(0, begin));
        pointed = before + pointed + after;
        plain = before + plain + after;
    }
    const bool one = typed.find_first_of(",.") == typed.find_last_of(",.");
    const bool thousands = end - comma == 4; // "1,000" may be meant either way; say both
    refuse("number-comma", begin, end - begin, "a decimal has a point, not a comma, got " + quoted(typed),
           !one        ? "write '" + plain + "'; thousands have no separator"
           : thousands ? "write '" + pointed + "' or '" + plain + "', whichever is meant"
                       : "write '" + pointed + "'");
}

/// Whether a number beyond double's range is too large rather than too small; `typed` is well formed.
bool is_too_large(std::string_view typed) {
    const std::size_t e = std::min(typed.find_first_of("eE"), typed.size());
    const std::size_t point = std::min(typed.find('.'), e);
    long power = static_cast<long>(point) - static_cast<long>(typed.find_first_of("123456789"));
    long written = 0;
    for (std::size_t at = e + 1; at < typed.size(); ++at)
        if (is_digit(typed, at) && written < 1'000'000'000) written = written * 10 + (typed[at] - '0');
    power += is_char(typed, e + 1, '-') ? -written : written;
    return power > 0;
}

/// The one place where characters become a double; `typed` holds sign, digits, point, exponent only.
bool convert(std::string_view typed, double& x) {
#if defined(__cpp_lib_to_chars)
    return std::from_chars(typed.data(), typed.data() + typed.size(), x).ec == std::errc{};
#else
    // Trap: strtod obeys the locale; the library never sets one, nor may a program that needs this.
    x = std::strtod(std::string(typed).c_str(), nullptr);
    return std::isfinite(x);
#endif
}

struct Number {
    double value;
    std::size_t end;
};

/// Reads the number that begins at `begin`; `end` bounds what a message quotes.
Number scan_number(std::string_view text, std::size_t begin, std::size_t end) {
    const bool has_sign = is_char(text, begin, '-') || is_char(text, begin, '+');
    const std::size_t first = begin + (has_sign ? 1U : 0U);
    if (!is_digit(text, first) && !(is_char(text, first, '.') && is_digit(text, first + 1)))
        refuse_start(text, begin, end);
    if (text[first] == '0' && (is_char(text, first + 1, 'x') || is_char(text, first + 1, 'X')))
        refuse("number-hex", begin, end - begin,
               "a number must be decimal, got " + quoted(text.substr(begin, end - begin)),
               "write it in digits 0 to 9");
    std::size_t at = skip_digits(text, first);
    if (text[first] == '0' && at > first + 1) {
        const std::size_t zeros = text.find_first_not_of('0', first);
        const std::size_t digits = zeros < at ? zeros : at - 1;
        refuse("number-octal", begin, at - begin,
               "a number must not begin with a needless zero, got " + quoted(text.substr(begin, at - begin)),
               "write '" + std::string(text.substr(digits, at - digits)) + "'");
    }
    if (is_char(text, at, '.')) at = skip_digits(text, at + 1);
    if (is_char(text, at, 'e') || is_char(text, at, 'E')) {
        const std::size_t sign = is_char(text, at + 1, '-') || is_char(text, at + 1, '+') ? 1U : 0U;
        if (is_digit(text, at + 1 + sign)) at = skip_digits(text, at + 1 + sign);
    }
    if (is_char(text, at, ',') && is_digit(text, at + 1)) refuse_comma(text, begin, at);
    const std::size_t from = text[begin] == '+' ? first : begin; // from_chars knows no plus sign
    const std::string_view typed = text.substr(from, at - from);
    const std::string_view mantissa = typed.substr(0, typed.find_first_of("eE"));
    double x = 0.0;
    const bool fits = convert(typed, x);
    const bool vanished = fits && std::fpclassify(x) == FP_ZERO;
    if (!fits || vanished) {
        if (mantissa.find_first_of("123456789") == std::string_view::npos) return {0.0, at};
        if (!vanished && is_too_large(typed))
            refuse("number-overflow", begin, at - begin, "the number is too large, got " + quoted(typed),
                   "the largest is about 1.8e308");
        refuse("number-underflow", begin, at - begin,
               "the number is too small to tell from zero, got " + quoted(typed), "write 0 if zero is meant");
    }
    return {x, at};
}

[[noreturn]] void refuse_left_over(std::string_view text, std::size_t at, std::size_t end) {
    const std::string_view rest = text.substr(at, end - at);
    std::string hint = "write one number, with a point for the decimal and nothing between the digits";
    if (rest[0] == '(') hint = "write an uncertainty as in '12.5 +- 0.1 g'";
    if (rest[0] == '/') hint = "write a fraction as a decimal, such as 0.5";
    refuse("number-trailing", at, end - at, "the number is followed by " + quoted(rest), hint);
}

/// Bytes of a spread sign at `at` and its kind: "+-", "+/-", "±"; "x/", "x/÷", "×/", "×/÷".
std::size_t spread_sign(std::string_view text, std::size_t at, Spread& kind) {
    if (at >= text.size()) return 0;
    const char c = text[at];
    if (c == '+' || c == '\xC2') {
        for (const std::string_view sign : {"+-", "+/-", "\u00B1"})
            if (is_text(text, at, sign)) {
                kind = Spread::standard_uncertainty;
                return sign.size();
            }
    } else if (c == 'x' || c == '\xC3') {
        for (const std::string_view sign : {"x/\u00F7", "\u00D7/\u00F7", "x/", "\u00D7/"})
            if (is_text(text, at, sign)) {
                kind = Spread::factor;
                return sign.size();
            }
    }
    return 0;
}

bool begins_left_over(std::string_view text, std::size_t at) {
    constexpr std::string_view starts = "0123456789.'_(+-*/,:;";
    return at < text.size() && (starts.find(text[at]) != std::string_view::npos || is_text(text, at, "\u2013"));
}

double size_in_canonical(const UnitRow& row, const KitchenMeasures& kitchen, const TextParts& parts) {
    if (row.size == UnitSize::fixed) return row.multiplier;
    const std::optional<Volume>& size = row.size == UnitSize::drop ? kitchen.drop : kitchen.teaspoon;
    if (!size) refuse_uncalibrated(parts, row.size);
    return canonical(*size);
}

void check_range(double canonical_value, double typed, const TextParts& parts) {
    const std::size_t length = parts.end - parts.begin;
    const std::string_view all = parts.text.substr(parts.begin, length);
    if (!std::isfinite(canonical_value))
        refuse("number-overflow", parts.begin, length, "the quantity is too large, got " + quoted(all),
               "check the exponent");
    if (std::fabs(canonical_value) < Limits::min() && std::fpclassify(typed) != FP_ZERO)
        refuse("number-underflow", parts.begin, length,
               "the quantity is too small to tell from zero, got " + quoted(all), "write 0 if zero is meant");
}

/// What can stand on no bench: a slip of unit or exponent.
void check_possible(const Reading& reading, Dimension dimension, const TextParts& parts) {
    const Possible& bounds = possible(dimension);
    const std::size_t length = parts.end - parts.begin;
    const auto got = [&] { return ", got " + quoted(parts.text.substr(parts.begin, length)); };
    const std::string name(words_of(dimension).name);
    const double size = std::fabs(reading.value);
    if (bounds.from_zero && size < bounds.least * (1.0 - 1e-9) && std::fpclassify(size) != FP_ZERO)
        refuse("number-underflow", parts.begin, length, name + " is too small to tell from zero" + got(),
               "write 0 if zero is meant");
    if (size > bounds.most * (1.0 + 1e-9) || (size < bounds.least * (1.0 - 1e-9) && std::fpclassify(size) != FP_ZERO))
        refuse("out-of-range", parts.begin, length, name + " must be " + std::string(bounds.words) + got(),
               std::string(bounds.hint));
    if (reading.spread_kind == Spread::factor && reading.spread > largest_spread_factor)
        refuse("spread-too-wide", parts.begin, length, "a spread factor must be 10 at most" + got(),
               "a value that may be ten times larger or smaller is not known: measure it");
    if (reading.spread_kind == Spread::standard_uncertainty && reading.spread > bounds.most)
        refuse("spread-too-wide", parts.begin, length,
               "the uncertainty of " + name + " is larger than it can be itself" + got(),
               "check the exponent");
}

} // namespace

double read_number(std::string_view text) {
    text = text.substr(0, trimmed_end(text));
    const std::size_t begin = skip_blanks(text, 0), end = text.size();
    const Number number = scan_number(text, begin, end);
    const std::size_t rest = skip_blanks(text, number.end);
    if (rest < end) refuse_left_over(text, rest, end);
    return number.value;
}

Reading read_quantity(std::string_view text, Dimension dimension, const KitchenMeasures& kitchen) {
    text = text.substr(0, trimmed_end(text));
    const std::size_t begin = skip_blanks(text, 0), end = text.size();
    TextParts parts{text, begin, begin, begin, end};
    if (dimension == Dimension::length && (is_text(text, begin, "No.") || is_text(text, begin, "#")))
        refuse_unit(parts, dimension);
    const Number number = scan_number(text, begin, end);
    Reading reading;
    parts.number_end = number.end;
    std::size_t at = skip_blanks(text, number.end);
    const std::size_t spread_begin = at;
    double spread = 0.0;
    if (const std::size_t sign = spread_sign(text, at, reading.spread_kind)) {
        const Number width = scan_number(text, skip_blanks(text, at + sign), end);
        spread = width.value;
        parts.number_end = width.end;
        at = skip_blanks(text, width.end);
        const std::size_t length = width.end - spread_begin;
        if (reading.spread_kind == Spread::standard_uncertainty && spread < 0.0)
            refuse("spread-negative", spread_begin, length, "an uncertainty must not be negative",
                   "drop the sign");
        if (reading.spread_kind == Spread::factor && !(spread > 1.0))
            refuse("spread-factor", spread_begin, length, "a spread factor must be above 1",
                   "write 'x/ 1.35' for a value that may be 1.35 times larger or smaller");
        if (reading.spread_kind == Spread::factor &&
            (!(number.value > 0.0) || dimension == Dimension::temperature))
            refuse("spread-factor", spread_begin, length,
                   "a spread factor belongs to a positive quantity measured from zero",
                   "write '+-' and a standard uncertainty");
    }
    parts.unit_begin = at;
    if (begins_left_over(text, at)) refuse_left_over(text, at, end);

    if (dimension == Dimension::pure_number) {
        if (at < end) refuse_unit(parts, dimension);
        check_range(number.value, number.value, parts);
        reading.value = number.value;
        reading.spread = spread;
        check_possible(reading, dimension, parts);
        return reading;
    }
    const std::string_view unit = text.substr(at, end - at);
    const UnitRow* row = find_unit(unit, dimension); // most texts are spelt as in the table
    if (row == nullptr) row = find_unit(plain_unit(unit).view(), dimension);
    if (row == nullptr) refuse_unit(parts, dimension);

    const double multiplier = size_in_canonical(*row, kitchen, parts);
    reading.value = (number.value + row->offset) * multiplier / row->divisor;
    // A temperature may land on zero kelvin from any number, so there zero is no sign of underflow.
    check_range(reading.value, dimension == Dimension::temperature ? 0.0 : number.value, parts);
    if (dimension == Dimension::temperature && reading.value < 0.0)
        refuse("number-range", begin, end - begin,
               "temperature must not lie below absolute zero, got " + quoted(text.substr(begin, end - begin)),
               "absolute zero is -273.15 degC, -459.67 degF, 0 K");
    reading.spread = spread;
    if (reading.spread_kind == Spread::standard_uncertainty) {
        reading.spread = spread * multiplier / row->divisor;
        check_range(reading.spread, spread, parts);
    }
    check_possible(reading, dimension, parts);
    reading.unit = unit;
    reading.weight_per_volume = dimension == Dimension::solution_strength && row->name == "% w/v";
    return reading;
}

} // namespace lakebound
