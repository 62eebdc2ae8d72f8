#pragma once
// One typed text as a quantity: with its fault, should it be none, already placed at the option.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/diagnostic.hpp"
#include "lakebound/shelf/reader.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// option: its name, for the message. Throws InputError with the fault of the text or of its range.
template <class Q>
[[nodiscard]] Q quantity_option(const std::string& option, const std::string& text, const KitchenMeasures& kitchen = {}) {
    try {
        return read<Q>(text, kitchen);
    } catch (const QuantityTextError& error) {
        const std::string hint = error.hint.empty() ? "write the number first, then its unit" : error.hint;
        throw InputError(command_line_fault(error.id, option + " \"" + text + "\": " + error.what(), hint));
    } catch (const DomainError& error) {
        throw InputError(command_line_fault(
            "out-of-range",
            option + " \"" + text + "\": " + error.quantity() + " must be " +
                range_words(TypeRange<Q>::value, DimensionOf<Q>::value,
                            read_quantity(text, DimensionOf<Q>::value, kitchen).unit),
            error.mend().empty() ? "check the number, its sign and its unit" : error.mend()));
    }
}

/// The same, but the quantity must be above 0.
template <class Q>
[[nodiscard]] Q positive_option(const std::string& option, const std::string& text, const KitchenMeasures& kitchen = {}) {
    const auto value = quantity_option<Q>(option, text, kitchen);
    if (!(canonical(value) > 0.0))
        throw InputError(command_line_fault("out-of-range", option + " \"" + text + "\": must be above 0",
                                            "check the number and its sign"));
    return value;
}

/// The same, but within the range that the key of a file has too.
template <class Q> [[nodiscard]] Q ranged_option(const std::string& option, const std::string& text, const Range& range) {
    const auto value = quantity_option<Q>(option, text);
    if (!(canonical(value) >= range.lowest && canonical(value) <= range.highest))
        throw InputError(command_line_fault(
            "out-of-range",
            option + " \"" + text + "\": must be " +
                range_words(range, DimensionOf<Q>::value, read_quantity(text, DimensionOf<Q>::value).unit),
            range.hint));
    return value;
}

} // namespace lakebound
