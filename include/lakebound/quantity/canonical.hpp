#pragma once
// The raw number of a quantity in its SI base unit, and back.
//
// The one border at which a typed quantity becomes a double: for statistics, least squares and
// files. A Ratio comes back through its range check.

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class Unit> [[nodiscard]] constexpr double canonical(const boost::units::quantity<Unit, double>& q) { return q.value(); }
template <class Tag> [[nodiscard]] constexpr double canonical(const Ratio<Tag>& r) noexcept { return r.value(); }

template <class Q> struct FromCanonical;
template <class Unit> struct FromCanonical<boost::units::quantity<Unit, double>> {
    [[nodiscard]] static constexpr auto make(double x) { return boost::units::quantity<Unit, double>::from_value(x); }
};
template <class Tag> struct FromCanonical<Ratio<Tag>> {
    [[nodiscard]] static constexpr Ratio<Tag> make(double x) { return Ratio<Tag>::of(x); }
};

/// The quantity of type Q whose number in SI base units is x.
template <class Q> [[nodiscard]] constexpr Q from_canonical(double x) { return FromCanonical<Q>::make(x); }

} // namespace lakebound
