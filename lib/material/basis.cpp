#include "lakebound/material/basis.hpp"

#include <cmath>

#include "checked_number.hpp"

namespace lakebound {
namespace {

double something_dry(MassFraction moisture) {
    const double dry = 1.0 - moisture.value();
    if (!(dry > 0.0)) throw_out_of_range("moisture", moisture.value(), "w/w", "0 to below 1");
    return dry;
}
double density_number(MassDensity d, const char* name) {
    return 1e3 * above_zero(in_grams_per_cubic_centimetre(d), name, "g/cm3");
}
double bulk_share(MassDensity bulk_density, MassDensity density) {
    const double bulk = density_number(bulk_density, "bulk density"),
                 solid = density_number(density, "density");
    if (!(bulk < solid))
        throw_out_of_range("bulk density", bulk / 1e3, "g/cm3", "below the density of the grains themselves");
    return bulk / solid;
}

} // namespace

WeightPerVolume grams_per_100_millilitres(double x) {
    return {kilograms_per_cubic_metre(10.0 * zero_or_more(x, "strength of the solution", "% w/v"))};
}

Mass dry_mass(Mass as_is, MassFraction moisture) {
    return Mass::from_value(zero_or_more(as_is.value(), "mass", "kg") * (1.0 - moisture.value()));
}
Mass as_is_mass(Mass dry, MassFraction moisture) {
    return Mass::from_value(zero_or_more(dry.value(), "mass", "kg") / something_dry(moisture));
}

MassFraction wet_basis_moisture(double water_per_dry_mass) {
    const double x = zero_or_more(water_per_dry_mass, "water per dry mass", "g/g");
    return MassFraction::of(x / (1.0 + x));
}
double dry_basis_moisture(MassFraction moisture) { return moisture.value() / something_dry(moisture); }

WeightPerVolume weight_per_volume(MassFraction by_mass, MassDensity solution) {
    return {kilograms_per_cubic_metre(by_mass.value() * density_number(solution, "density of the solution"))};
}
MassFraction weight_per_weight(WeightPerVolume strength, MassDensity solution) {
    const double c = zero_or_more(strength.value.value(), "strength of the solution", "kg/m3");
    const double rho = density_number(solution, "density of the solution");
    if (!(c <= rho))
        throw_out_of_range("strength of the solution", c / 10.0, "% w/v",
                           "at most the density of the solution");
    return MassFraction::of(c / rho);
}

MassFraction weight_per_weight_of_solute_per_solvent(double solute_per_solvent) {
    const double r = zero_or_more(solute_per_solvent, "solute per solvent", "g/g");
    return MassFraction::of(r / (1.0 + r));
}

Mass mass_of_bulk(Volume bulk, MassDensity bulk_density) {
    return Mass::from_value(zero_or_more(bulk.value(), "bulk volume", "m3") *
                            density_number(bulk_density, "bulk density"));
}
Volume solid_volume_of_bulk(Volume bulk, MassDensity bulk_density, MassDensity density) {
    return Volume::from_value(zero_or_more(bulk.value(), "bulk volume", "m3") *
                              bulk_share(bulk_density, density));
}
Volume bulk_volume_of_solid(Volume solid, MassDensity bulk_density, MassDensity density) {
    return Volume::from_value(zero_or_more(solid.value(), "solid volume", "m3") /
                              bulk_share(bulk_density, density));
}

void require_same_moisture(MoistureState of_the_mass, MoistureState of_the_density) {
    if (of_the_mass == of_the_density) return;
    const bool bone_dry = of_the_density == MoistureState::bone_dry;
    throw DomainError("moisture state of the density", bone_dry ? "bone dry" : "as weighed",
                      bone_dry ? "as weighed, like the mass it is paired with"
                               : "bone dry, like the mass it is paired with",
                      "give the moisture of the powder, so that one can be converted to the other");
}

MediumPerPigment medium_per_pigment(const Parts& parts, std::optional<MassDensity> medium_density,
                                    std::optional<MassDensity> pigment_bulk_density) {
    const double ratio =
        above_zero(parts.medium, "parts of medium", "") / above_zero(parts.pigment, "parts of pigment", "");
    if (!parts.basis)
        throw DomainError(
            "basis of the parts", "not given", "by mass or by volume",
            "say whether the parts were weighed or spooned; the two differ by a factor of 3 for a lake");
    if (*parts.basis == PartsBasis::mass) return MediumPerPigment::of(ratio);
    if (!medium_density)
        throw DomainError("density of the medium", "not given", "needed for parts by volume",
                          "weigh 10 mL of the medium");
    if (!pigment_bulk_density)
        throw DomainError("bulk density of the pigment", "not given", "needed for parts by volume",
                          "weigh one level spoon of the powder");
    return MediumPerPigment::of(ratio * density_number(*medium_density, "density of the medium") /
                                density_number(*pigment_bulk_density, "bulk density of the pigment"));
}

} // namespace lakebound
