#include "lakebound/material/medium_solids.hpp"

#include <algorithm>

namespace lakebound {
namespace {

Estimate<MassFraction> dried_share(const DryingTest& t, bool of_water) {
    const double wet = t.dish_and_wet.value() - t.dish.value(), dry = t.dish_and_dry.value() - t.dish.value();
    if (!(wet > 0.0)) throw_out_of_range("wet sample", wet * 1e3, "g", "above 0");
    if (!(dry >= 0.0 && dry <= wet))
        throw_out_of_range("dried sample", dry * 1e3, "g", "0 to the mass of the wet sample");
    const double nv = dry / wet;
    const double u = reading_uncertainty(t.scale) * std::sqrt(1.0 + nv * nv + (1.0 - nv) * (1.0 - nv)) / wet;
    return Estimate<MassFraction>::normal(MassFraction::of(of_water ? 1.0 - nv : nv),
                                          MassFraction::Difference::of(u),
                                          {Origin::measured, "drying test", false});
}

} // namespace

Estimate<MassFraction> non_volatile_by_drying(const DryingTest& test) { return dried_share(test, false); }
Estimate<MassFraction> moisture_by_drying(const DryingTest& test) { return dried_share(test, true); }

bool constant_mass(Mass earlier, Mass later, Share within) {
    return std::abs(earlier.value() - later.value()) <=
           within.value() * std::max(std::abs(earlier.value()), std::abs(later.value()));
}

} // namespace lakebound
