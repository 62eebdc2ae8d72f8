#include "lakebound/material/keeping.hpp"

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

/// The pH above which less is active, wherever it lies.
double limit_of(PreservativeAcid acid, Share active) {
    const double a = active.value();
    if (!(a > 0.0 && a < 1.0)) throw_out_of_range("active share", a, "", "above 0 and below 1");
    return acid_exponent(acid).value() + std::log10((1.0 - a) / a);
}

} // namespace

Ph acid_exponent(PreservativeAcid acid) noexcept { return Ph::from_proven(acid == PreservativeAcid::benzoic ? 4.202 : 4.76); }

Share active_share(PreservativeAcid acid, Ph ph) {
    return Share::of(1.0 / (1.0 + std::pow(10.0, ph.value() - acid_exponent(acid).value())));
}

Ph highest_ph_for(PreservativeAcid acid, Share active) { return Ph::of(limit_of(acid, active)); }

Probability chance_dead(PreservativeAcid acid, Ph ph, PhDifference standard_uncertainty, Share least) {
    const double u = standard_uncertainty.value();
    if (!(u >= 0.0)) throw_out_of_range("uncertainty of a pH", u, "", "0 or more");
    const double above = ph.value() - limit_of(acid, least);
    if (!(u > 0.0)) return Probability::of(above > 0.0 ? 1.0 : 0.0);
    return Probability::of(standard_normal_cdf(above / u));
}

} // namespace lakebound
