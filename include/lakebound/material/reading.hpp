#pragma once
// What one reading of an instrument is worth.
//
// A display that moves in steps d rounds every reading; the rounding is rectangular, so its standard
// uncertainty is d/sqrt(12) (jcgm-100, 4.3.7 and F.2.2.1; value from memory). Repeatability, where
// the maker tested it, adds in quadrature. A net mass is two readings: the tare and the load.

#include <cmath>

#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class Q> struct Instrument {
    Q step{};          ///< smallest difference it shows, above 0
    Q repeatability{}; ///< standard deviation of one reading, 0 when not tested
};

/// Variance of the sum or difference of `readings` independent readings:
/// readings * (step^2/12 + repeatability^2), in the canonical unit squared.
/// Throws DomainError unless step is above 0 and repeatability 0 or more.
template <class Q> [[nodiscard]] double reading_variance(const Instrument<Q>& instrument, int readings = 1) {
    const double step = canonical(instrument.step), repeat = canonical(instrument.repeatability);
    if (!(step > 0.0)) throw_out_of_range("step of the instrument", step, "", "above 0");
    if (!(repeat >= 0.0)) throw_out_of_range("repeatability of the instrument", repeat, "", "0 or more");
    return readings * (step * step / 12.0 + repeat * repeat);
}

/// Standard uncertainty of the sum or difference of `readings` readings; errors as above.
template <class Q> [[nodiscard]] double reading_uncertainty(const Instrument<Q>& instrument, int readings = 1) {
    return std::sqrt(reading_variance(instrument, readings));
}

} // namespace lakebound
