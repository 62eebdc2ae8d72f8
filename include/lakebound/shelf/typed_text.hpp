#pragma once
// Pieces of a paint as it is typed: labelled amounts, and figures with their uncertainty.
//
// Every reader here is given the option (or whatever the text was typed for), and names it in its faults.

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/estimate/probability.hpp"
#include "lakebound/export.hpp"
#include "lakebound/shelf/typed_quantity.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A fault of the command line, ready to throw.
[[nodiscard]] InputError typed_fault(std::string_view id, std::string message, std::string hint = {});
[[nodiscard]] std::string trimmed(std::string_view text);

/// "chalk: 3 g" -> chalk, 3 g; "3 g" has no label.
struct Labelled {
    std::string label, text;
};
/// Throws InputError label-form.
[[nodiscard]] Labelled labelled(const std::string& option, const std::string& given);

using TypedAmount = std::variant<std::monostate, Mass, Volume, MassFraction, VolumeFraction>;
/// A mass, a volume or, where `shares` may stand, a share that says of what.
[[nodiscard]] TypedAmount read_amount(const std::string& option, const std::string& text, const KitchenMeasures& kitchen,
                                      bool shares);

/// A chance in per cent, "95 %", above 0 and below 100 %: nothing is all or nothing. Throws InputError: quantity faults, with
/// 0.95 and 95 both told as 95 %; out-of-range.
[[nodiscard]] Probability chance_option(const std::string& option, const std::string& text);

/// True for a volume in a kitchen measure, as in "3 tsp": a spoon or a drop, which is never quite full.
[[nodiscard]] bool is_spooned(const std::string& text, const KitchenMeasures& kitchen);

/// The text for this pigment among the texts of one option. Throws InputError
/// label-missing when it does not say of which of several, option-twice.
[[nodiscard]] std::optional<std::string> text_for(const std::string& option, const std::vector<std::string>& texts,
                                                  const std::string& id, bool only_pigment);

/// An estimate as typed, in the range that the key of a file has; without an uncertainty, `otherwise` is its relative one,
/// and a zero is sure.
template <class Q> [[nodiscard]] Estimate<Q> figure_option(const std::string& option, const std::string& text,
                                                           double otherwise, bool& filled_in,
                                                           const Range& allowed = range::positive) {
    const auto refuse = [&](std::string_view id, const std::string& what, const std::string& hint) {
        return typed_fault(id, option + " \"" + text + "\": " + what, hint);
    };
    try {
        const auto reading = read_quantity(text, DimensionOf<Q>::value);
        if (!allowed.admits(reading.value))
            throw refuse("out-of-range", "must be " + range_words(allowed, DimensionOf<Q>::value, reading.unit),
                         std::string_view(allowed.hint).empty() ? "check the number and its sign" : allowed.hint);
        const auto value = from_canonical<Q>(reading.value);
        const Provenance typed{Origin::measured, "typed", false};
        if (reading.spread_kind == Spread::none && !(reading.value > 0.0)) return Estimate<Q>::exact(value, typed);
        if (reading.spread_kind == Spread::standard_uncertainty && reading.spread >= reading.value)
            throw refuse("spread-too-wide", "the uncertainty is as large as the value",
                         "write a factor, as in '65 x/ 1.35 g/100g', when it may be a third larger or smaller");
        if (reading.spread_kind == Spread::factor) return Estimate<Q>::lognormal(value, reading.spread, typed);
        if (reading.spread_kind == Spread::standard_uncertainty)
            return Estimate<Q>::normal(value, from_canonical<Difference<Q>>(reading.spread), typed);
        filled_in = true;
        return Estimate<Q>::lognormal(value, std::exp(otherwise), typed);
    } catch (const QuantityTextError& error) {
        throw refuse(error.id, error.what(), error.hint);
    } catch (const DomainError& error) {
        throw refuse("out-of-range", error.quantity() + " must be " + error.valid(),
                     DimensionOf<Q>::value == Dimension::oil_absorption
                         ? "is it grams of oil to 100 g of pigment? 0.68 g to a gram is written 68 g/100g"
                         : error.mend());
    }
}

} // namespace lakebound
