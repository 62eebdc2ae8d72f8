#include "lakebound/material/keeping.hpp"

#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

void check_ph_of_water(double ph) {
    if (!(ph >= 0.0 && ph <= 14.0)) throw_out_of_range("pH", ph, "", "0 to 14");
}

} // namespace

double acid_exponent(PreservativeAcid acid) noexcept { return acid == PreservativeAcid::benzoic ? 4.202 : 4.76; }

Share active_share(PreservativeAcid acid, double ph) {
    check_ph_of_water(ph);
    return Share::of(1.0 / (1.0 + std::pow(10.0, ph - acid_exponent(acid))));
}

double highest_ph_for(PreservativeAcid acid, Share active) {
    const double a = active.value();
    if (!(a > 0.0 && a < 1.0)) throw_out_of_range("active share", a, "", "above 0 and below 1");
    return acid_exponent(acid) + std::log10((1.0 - a) / a);
}

Probability chance_dead(PreservativeAcid acid, double ph, double standard_uncertainty, Share least) {
    check_ph_of_water(ph);
    if (!(standard_uncertainty >= 0.0))
        throw_out_of_range("uncertainty of a pH", standard_uncertainty, "", "0 or more");
    const double limit = highest_ph_for(acid, least);
    if (!(standard_uncertainty > 0.0)) return Probability::of(ph > limit ? 1.0 : 0.0);
    return Probability::of(standard_normal_cdf((ph - limit) / standard_uncertainty));
}

} // namespace lakebound
