#include "lakebound/material/density.hpp"

#include <cmath>

#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

void require_positive_density(MassDensity density) {
    if (!(density.value() > 0.0 && std::isfinite(density.value())))
        throw_out_of_range("density", density.value(), "kg/m3", "above 0, finite");
}

} // namespace

MassDensity mixture_density(std::span<const Component> components) {
    double shares = 0.0;
    SpecificVolume volume;
    for (const Component& c : components) {
        require_positive_density(c.density);
        shares += c.share.value();
        volume += c.share / c.density;
    }
    if (!(std::abs(shares - 1.0) <= 1e-6))
        throw_out_of_range("sum of the mass fractions of a mixture", shares, "", "1");
    return shares / volume;
}

MassDensity moist_density(MassDensity bone_dry, MassFraction moisture) {
    require_positive_density(bone_dry);
    return 1.0 / (complement(moisture) / bone_dry + moisture / sorbed_water_density());
}

MassDensity bone_dry_density(MassDensity as_weighed, MassFraction moisture) {
    require_positive_density(as_weighed);
    const double w = moisture.value();
    if (!(w < 1.0)) throw_out_of_range("moisture", w, "", "0 to below 1: some dry matter must be left");
    const SpecificVolume dry_volume = 1.0 / as_weighed - moisture / sorbed_water_density();
    if (!(dry_volume.value() > 0.0))
        throw_out_of_range("moisture", w, "", "less than the water that would fill the whole volume");
    return complement(moisture) / dry_volume;
}

MassDensity as_weighed_density(const Pigment& pigment) {
    if (pigment.density_state == MoistureState::as_weighed) return pigment.density.value();
    if (!pigment.moisture)
        throw DomainError("moisture of the pigment", "not given",
                          "a mass fraction, where the density is bone dry",
                          "give the moisture, or the density as weighed");
    return moist_density(pigment.density.value(), pigment.moisture->value());
}

Volume powder_volume(Mass powder, MassDensity bulk_density) {
    require_positive_density(bulk_density);
    if (!(powder.value() >= 0.0)) throw_out_of_range("mass of a powder", powder.value(), "kg", "0 or more");
    return powder / bulk_density;
}

} // namespace lakebound
