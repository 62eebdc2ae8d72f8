#pragma once
// Estimate: a quantity with its uncertainty and its provenance.
//
// Structs of the domain rooms hold estimates; their formulas take and return plain quantities.
// `estimate/budget.hpp` and `estimate/monte_carlo.hpp` evaluate those same formulas over estimates.

#include <cmath>
#include <type_traits>
#include <utility>

#include "lakebound/estimate/distribution.hpp"
#include "lakebound/estimate/provenance.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/canonical.hpp"
#include "lakebound/quantity/difference.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The makers throw DomainError for a value or an uncertainty that is not finite.
template <class Q> class Estimate {
public:
    /// Exact zero, an estimate; for structs that are filled in later. Not for a type that excludes zero.
    Estimate()
        requires std::is_default_constructible_v<Q>
        : value_() {}

    [[nodiscard]] static Estimate exact(const Q& value, Provenance from) {
        return make(value, Shape::exact, 0.0, std::move(from));
    }
    /// standard_uncertainty: one standard deviation, a difference of the same kind, 0 or more.
    [[nodiscard]] static Estimate normal(const Q& mean, const Difference<Q>& standard_uncertainty, Provenance from) {
        return make(mean, Shape::normal, canonical(standard_uncertainty), std::move(from));
    }
    /// median: above 0; factor: the geometric standard deviation, 1 or more; "65 x/ 1.35" has median 65,
    /// factor 1.35.
    [[nodiscard]] static Estimate lognormal(const Q& median, double factor, Provenance from) {
        if (!(canonical(median) > 0.0))
            throw_out_of_range("median of a lognormal estimate", canonical(median), "in its SI unit",
                               "above 0");
        if (!(factor >= 1.0)) throw_out_of_range("geometric standard deviation", factor, "", "1 or more");
        return make(median, Shape::lognormal, std::log(factor), std::move(from));
    }
    [[nodiscard]] static Estimate rectangular(const Q& midpoint, const Difference<Q>& half_width, Provenance from) {
        return make(midpoint, Shape::rectangular, canonical(half_width), std::move(from));
    }

    const Q& value() const noexcept { return value_; } ///< best estimate
    const Distribution& distribution() const noexcept { return distribution_; }
    const Provenance& provenance() const noexcept { return provenance_; }
    /// One standard deviation.
    Difference<Q> standard_uncertainty() const {
        return from_canonical<Difference<Q>>(distribution_.standard_uncertainty());
    }
    /// Standard deviation of the logarithm: exact for lognormal, u/value otherwise; 0 at value 0.
    double relative_uncertainty() const noexcept {
        if (distribution_.shape == Shape::lognormal) return distribution_.scale;
        const double x = std::abs(distribution_.location);
        return x > 0.0 ? distribution_.standard_uncertainty() / x : 0.0;
    }
    Estimate with_provenance(Provenance from) const { return {value_, distribution_, std::move(from)}; }

private:
    Estimate(const Q& value, Distribution d, Provenance from)
        : value_(value), distribution_(d), provenance_(std::move(from)) {}
    [[nodiscard]] static Estimate make(const Q& value, Shape shape, double scale, Provenance from) {
        if (!std::isfinite(canonical(value)))
            throw_out_of_range("value of an estimate", canonical(value), "", "finite");
        if (!(scale >= 0.0 && std::isfinite(scale)))
            throw_out_of_range("standard uncertainty", scale, "", "0 or more, finite");
        return {value, {scale == 0.0 ? Shape::exact : shape, canonical(value), scale}, std::move(from)};
    }

    Q value_;
    Distribution distribution_;
    Provenance provenance_;
};

/// A figure of the maker's own, taken as exact. Errors: DomainError when not finite.
template <class Q> [[nodiscard]] Estimate<Q> measured(const Q& value) {
    return Estimate<Q>::exact(value, {Origin::measured, {}, false});
}

} // namespace lakebound
