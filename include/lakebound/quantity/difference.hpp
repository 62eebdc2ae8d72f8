#pragma once
// Difference: how far two values of one kind lie apart, and so how unsure one of them is.
//
// A standard uncertainty is a difference of its value's own kind: a bare 0.20 beside 1.88 g/cm3 would
// have to be read in some unit that nobody wrote. Masses and lengths differ by masses and lengths, points
// of temperature by kelvins, and a ratio by a RatioDifference, which may be negative and is no ratio.

#include <algorithm>
#include <compare>
#include <limits>

#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class Tag> class RatioDifference {
public:
    constexpr RatioDifference() noexcept = default; ///< none

    /// The plain number: 0.07 for 0.85 +- 0.07. Throws DomainError unless it is finite.
    [[nodiscard]] static constexpr RatioDifference of(double x) {
        constexpr double greatest = std::numeric_limits<double>::max();
        if (!(x >= -greatest && x <= greatest)) throw_out_of_range("difference of ratios", x, "", "finite");
        RatioDifference difference;
        difference.value_ = x;
        return difference;
    }
    constexpr double value() const noexcept { return value_; }
    friend constexpr auto operator<=>(const RatioDifference&, const RatioDifference&) noexcept = default;

private:
    double value_ = 0.0;
};

template <class Q> struct DifferenceOf { using type = Q; };
template <class Tag> struct DifferenceOf<Ratio<Tag>> { using type = RatioDifference<Tag>; };
template <> struct DifferenceOf<Temperature> { using type = TemperatureDifference; };
/// The type of a difference of two Q: Mass for Mass, TemperatureDifference for Temperature.
template <class Q> using Difference = typename DifferenceOf<Q>::type;
/// How far two pH lie apart: what a reading leaves open, or what a bath that fizzes reads too low by.
using PhDifference = Difference<Ph>;
/// The pH so much higher, or lower where the difference is below 0, but not past an end of the scale.
[[nodiscard]] constexpr Ph moved(Ph ph, PhDifference by) {
    return Ph::from_proven(std::clamp(ph.value() + by.value(), ratio_tag::Ph::lowest, ratio_tag::Ph::highest));
}

template <class Tag> [[nodiscard]] constexpr double canonical(const RatioDifference<Tag>& d) noexcept { return d.value(); }
template <class Tag> struct FromCanonical<RatioDifference<Tag>> {
    [[nodiscard]] static constexpr RatioDifference<Tag> make(double x) { return RatioDifference<Tag>::of(x); }
};

} // namespace lakebound
