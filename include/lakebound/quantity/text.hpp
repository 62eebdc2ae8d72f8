#pragma once
// Quantities from text and to text: "12.5 g", "1.88 +- 0.20 g/cm3", "65 x/ 1.35 g/100g", "20 degC".
//
// Grammar:  number [spread] unit
//   number  decimal with a point: 12, 12.5, .5, -3, 1.2e-3. Refused, each with its own message: a
//           comma decimal, a leading zero (010), hexadecimal, inf, nan, overflow, underflow to zero.
//   spread  `+- u` or `± u`: one standard uncertainty, same unit; `x/ f` or `x/÷ f`, `×/÷ f`: geometric
//           standard deviation f > 1, for positive factors.
//   unit    from a closed vocabulary (docs/file-formats.md lists it). Never left out, except for the
//           pure ratios (k, reduced PVC, binder index), which have none.
// The whole text is read; anything left over is an error. No dimension is ever guessed.
//
// Faults (QuantityTextError::id, stable): number-missing, number-comma, number-octal, number-hex,
// number-not-finite, number-underflow, number-overflow, number-trailing, number-range (below absolute
// zero), unit-missing, unit-unknown, unit-dimension, unit-unqualified (a cup of which country?),
// unit-uncalibrated (tsp, drop without KitchenMeasures), percent-basis, spread-negative, spread-factor,
// spread-too-wide, spread-unwanted, out-of-range (beyond what quantity/possible.hpp allows on a bench). A
// number or quantity that is finite as typed but not in SI base units is refused too.
// Example: docs/examples/read_a_quantity.cpp.

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What a text must be. Each has its own units; `mass_fraction` and `oil_absorption` share no unit.
enum class Dimension {
    mass, volume, length, area, time, velocity, density, dynamic_viscosity, specific_volume,
    temperature, temperature_difference,
    mass_fraction,      ///< % w/w, g/g; a bare % is refused: it does not say of what
    volume_fraction,    ///< % v/v, mL/mL, or % where only a volume can be meant
    share,              ///< a share of one thing: % (loss of a batch, fill of a vessel, tolerance)
    solution_strength,  ///< % w/w or % w/v, kept apart; never a bare %
    oil_absorption,     ///< g/100g, lb/100lb; never %
    pigment_volume_concentration, ///< %
    relative_humidity,  ///< %
    medium_per_pigment, ///< g/g
    pure_number,        ///< no unit: k, reduced PVC, binder index, a geometric standard deviation
};

/// A text that is not the quantity wanted. The shelf gives it a place and turns it into InputError.
class QuantityTextError : public std::runtime_error {
public:
    QuantityTextError(std::string fault, std::size_t first_byte, std::size_t bytes, const std::string& message,
                      std::string how_to_mend)
        : std::runtime_error(message), id(std::move(fault)), offset(first_byte), length(bytes),
          hint(std::move(how_to_mend)) {}
    std::string id;     ///< stable name of the fault: "unit-dimension", "number-comma", ...
    std::size_t offset; ///< first byte of the faulty part of the text
    std::size_t length; ///< bytes of the faulty part
    std::string hint;   ///< how to mend it; may be empty
};

/// What the maker's own spoons and droppers hold; without it `tsp` and `drop` are refused.
struct KitchenMeasures {
    std::optional<Volume> drop;
    std::optional<Volume> teaspoon;
};

enum class Spread { none, standard_uncertainty, factor };

/// One text read: canonical numbers (SI base units, fractions not percent).
struct Reading {
    double value = 0.0;
    Spread spread_kind = Spread::none;
    double spread = 0.0;     ///< canonical standard uncertainty, or the factor
    std::string unit;        ///< as it was typed, for echoing
    bool weight_per_volume = false; ///< solution_strength only: % w/v; value is then g/mL
};

/// Reads the whole text as `dimension`; throws QuantityTextError.
[[nodiscard]] Reading read_quantity(std::string_view text, Dimension dimension, const KitchenMeasures& kitchen = {});

/// Reads a plain decimal number (whole text, same refusals); throws QuantityTextError. The one place
/// where characters become a double.
[[nodiscard]] double read_number(std::string_view text);

/// The dimension of type Q, for typed reading.
template <class Q> struct DimensionOf;
template <> struct DimensionOf<Mass> { static constexpr Dimension value = Dimension::mass; };
template <> struct DimensionOf<Volume> { static constexpr Dimension value = Dimension::volume; };
template <> struct DimensionOf<Length> { static constexpr Dimension value = Dimension::length; };
template <> struct DimensionOf<Area> { static constexpr Dimension value = Dimension::area; };
template <> struct DimensionOf<Time> { static constexpr Dimension value = Dimension::time; };
template <> struct DimensionOf<Velocity> { static constexpr Dimension value = Dimension::velocity; };
template <> struct DimensionOf<MassDensity> { static constexpr Dimension value = Dimension::density; };
template <> struct DimensionOf<DynamicViscosity> { static constexpr Dimension value = Dimension::dynamic_viscosity; };
template <> struct DimensionOf<SpecificVolume> { static constexpr Dimension value = Dimension::specific_volume; };
template <> struct DimensionOf<Temperature> { static constexpr Dimension value = Dimension::temperature; };
template <> struct DimensionOf<TemperatureDifference> { static constexpr Dimension value = Dimension::temperature_difference; };
template <> struct DimensionOf<MassFraction> { static constexpr Dimension value = Dimension::mass_fraction; };
template <> struct DimensionOf<VolumeFraction> { static constexpr Dimension value = Dimension::volume_fraction; };
template <> struct DimensionOf<Share> { static constexpr Dimension value = Dimension::share; };
template <> struct DimensionOf<OilAbsorption> { static constexpr Dimension value = Dimension::oil_absorption; };
template <> struct DimensionOf<PigmentVolumeConcentration> { static constexpr Dimension value = Dimension::pigment_volume_concentration; };
template <> struct DimensionOf<RelativeHumidity> { static constexpr Dimension value = Dimension::relative_humidity; };
template <> struct DimensionOf<MediumPerPigment> { static constexpr Dimension value = Dimension::medium_per_pigment; };
template <> struct DimensionOf<BinderSufficiency> { static constexpr Dimension value = Dimension::pure_number; };
template <> struct DimensionOf<ReducedPigmentVolumeConcentration> { static constexpr Dimension value = Dimension::pure_number; };
template <> struct DimensionOf<BinderIndex> { static constexpr Dimension value = Dimension::pure_number; };
template <> struct DimensionOf<Ph> { static constexpr Dimension value = Dimension::pure_number; };

/// `read<Mass>("12.5 g")`; a spread is an error here. Throws QuantityTextError, and DomainError from
/// a Ratio's range check.
template <class Q> [[nodiscard]] Q read(std::string_view text, const KitchenMeasures& kitchen = {}) {
    const Reading r = read_quantity(text, DimensionOf<Q>::value, kitchen);
    if (r.spread_kind != Spread::none)
        throw QuantityTextError("spread-unwanted", 0, text.size(), "an uncertainty is given where an exact value is wanted",
                                "leave the uncertainty out");
    return from_canonical<Q>(r.value);
}

/// The shortest decimal that reads back to the same double: "12.5", "0.0362", "100000"; zero
/// is "0". Throws DomainError for NaN and infinity.
[[nodiscard]] std::string number_text(double x);
/// x rounded half away from zero to `decimals` places (0 to 30), without a negative zero: "12.50". The
/// decimal of number_text is what is rounded, so 2.675 gives "2.68". Throws DomainError for NaN, infinity.
[[nodiscard]] std::string fixed_text(double x, int decimals);

/// The quantity in the unit named (any of the closed vocabulary), reading back to the same quantity
/// within one unit in the last place (of 273.15 K for degC, degF): quantity_text(grams(12.5), "g") is
/// "12.5 g".
/// Throws QuantityTextError when the unit is not one of that dimension's.
[[nodiscard]] std::string quantity_text(double canonical_value, Dimension dimension, std::string_view unit);
/// The number alone. Throws as quantity_text.
[[nodiscard]] double number_in_unit(double canonical_value, Dimension dimension, std::string_view unit);
template <class Q> [[nodiscard]] std::string quantity_text(const Q& q, std::string_view unit) {
    return quantity_text(canonical(q), DimensionOf<Q>::value, unit);
}
/// The quantity in the usual unit of its dimension, the first in the vocabulary; a pure number without one. Reads
/// back to the same quantity, as above: quantity_text(grams(12.5)) is "12.5 g".
[[nodiscard]] std::string quantity_text(double canonical_value, Dimension dimension);
template <class Q> [[nodiscard]] std::string quantity_text(const Q& q) {
    return quantity_text(canonical(q), DimensionOf<Q>::value);
}

} // namespace lakebound
