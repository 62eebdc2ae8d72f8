#pragma once
// Private to the quantity room: the rows behind the vocabulary and the words of its messages.

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "lakebound/quantity/text.hpp"

namespace lakebound {

/// Whose size a unit has: its own, or the maker's.
enum class UnitSize { fixed, drop, teaspoon };

/// canonical = (x + offset) * multiplier / divisor. Two factors, so that powers of ten divide and
/// 12.5 g is the very double that grams(12.5) makes.
struct UnitRow {
    std::string_view name;
    Dimension dimension;
    double multiplier = 1.0;
    double divisor = 1.0;
    double offset = 0.0;
    UnitSize size = UnitSize::fixed;
};

/// The words for a dimension: "density" "must be" "mass per volume"; an example unit; its main units.
struct DimensionWords {
    std::string_view name;
    std::string_view nature;
    std::string_view example;
    std::string_view units;
};

constexpr std::size_t dimension_count = static_cast<std::size_t>(Dimension::pure_number) + 1;

std::span<const UnitRow> unit_rows(Dimension dimension);
std::span<const UnitRow> all_unit_rows();
const DimensionWords& words_of(Dimension dimension);

/// A unit as typed, in the spelling of the table: one micro sign, digits for superscripts, single
/// plain spaces, none around '/'. Too long to be a unit: empty.
struct PlainUnit {
    std::array<char, 32> bytes{};
    std::size_t size = 0;
    std::string_view view() const { return {bytes.data(), size}; }
};
PlainUnit plain_unit(std::string_view typed);

/// Bytes of the blank (space, tab, line end, no-break or thin space) at `at`; 0 when there is none.
std::size_t blank_at(std::string_view text, std::size_t at);

/// The row of that name in the dimension, or null.
const UnitRow* find_unit(std::string_view plain, Dimension dimension);

/// Where the parts of a text lie: [begin, number_end) is number and spread, [unit_begin, end) the unit.
struct TextParts {
    std::string_view text;
    std::size_t begin, number_end, unit_begin, end;
};

/// Says what is wrong with the unit of a text; the unit was not found in the dimension's rows.
[[noreturn]] void refuse_unit(const TextParts& parts, Dimension dimension);
[[noreturn]] void refuse_uncalibrated(const TextParts& parts, UnitSize size);

/// The text in quotes for a message: cut when long, with control and ill-formed bytes written \xNN.
std::string quoted(std::string_view text);

} // namespace lakebound
