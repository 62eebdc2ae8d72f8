#include "lakebound/material/moisture.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/material/basis.hpp"
#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

/// Dry matter of a powder at w, over that of one at w_f: (1 - w) / (1 - w_f).
double dry_ratio(const MoistureChange& moisture) {
    const double w_f = moisture.of_figure.value();
    if (!(w_f < 1.0)) throw_out_of_range("moisture", w_f, "w/w", "0 to below 1");
    return complement(moisture.now) / complement(moisture.of_figure);
}

/// The density times a factor; its relative uncertainty stays.
Estimate<MassDensity> scaled(const Estimate<MassDensity>& rho, double factor) {
    const MassDensity value = rho.value() * factor;
    switch (rho.distribution().shape) {
    case Shape::exact:
        return Estimate<MassDensity>::exact(value, rho.provenance());
    case Shape::lognormal:
        return Estimate<MassDensity>::lognormal(value, std::exp(rho.relative_uncertainty()), rho.provenance());
    case Shape::normal:
    case Shape::rectangular:
    case Shape::arc_sine:
        break;
    }
    return Estimate<MassDensity>::normal(value, rho.standard_uncertainty() * factor, rho.provenance());
}

/// Mass per volume of the grains, from that of a powder with its excess water: 1 / (1/rho - e/rho_w).
double without_excess(MassDensity rho, MassFraction excess) {
    const double filled = excess.value() * (rho / water_density());
    if (!(filled < 1.0))
        throw DomainError("density of the damp powder", "below that of the water in it", "above it",
                          "dry the powder, and measure its density again");
    return 1.0 / (1.0 - filled);
}

} // namespace

Mass mass_at(Mass figure, const MoistureChange& moisture) {
    return as_is_mass(dry_mass(figure, moisture.of_figure), moisture.now);
}

Estimate<OilAbsorption> oil_absorption_at(const Estimate<OilAbsorption>& figure,
                                          const Estimate<MassFraction>& its_moisture, MassFraction now) {
    const double f = dry_ratio({.of_figure = its_moisture.value(), .now = now});
    const double doubt = std::hypot(figure.relative_uncertainty(),
                                    its_moisture.standard_uncertainty().value() /
                                        complement(its_moisture.value()).value());
    const auto value = OilAbsorption::of(figure.value().value() * f);
    if (!(doubt > 0.0)) return Estimate<OilAbsorption>::exact(value, figure.provenance());
    return Estimate<OilAbsorption>::lognormal(value, std::exp(doubt), figure.provenance());
}

Estimate<MassDensity> density_at(const Estimate<MassDensity>& figure, const MoistureChange& moisture) {
    const MassDensity dry = bone_dry_density(figure.value(), moisture.of_figure);
    return scaled(figure, moist_density(dry, moisture.now) / figure.value());
}

MassFraction excess_water(const DampPowder& powder) {
    if (!(powder.now > powder.air_dry)) return MassFraction();
    return MassFraction::of(1.0 - dry_ratio({.of_figure = powder.air_dry, .now = powder.now}));
}

MassFraction most_air_dry_moisture(PigmentClass pigment_class) noexcept {
    return pigment_class == PigmentClass::lake ? most_air_dry_lake : most_air_dry_other;
}

Pigment at_moisture(Pigment p, const Estimate<MassFraction>& now, MeasuredAsItLies own) {
    if (!(now.value() <= wettest_powder))
        throw_out_of_range("moisture of the powder", 100.0 * now.value().value(), "%",
                           "0 to 50 %: a powder that is half water is a paste; dry it first");
    const auto unknown = Estimate<MassFraction>::exact(
        std::min(now.value(), most_air_dry_moisture(p.pigment_class)), {Origin::estimate, "", false});
    const auto of_figures = p.moisture.value_or(unknown);
    const auto air_dry = p.air_dry_moisture.value_or(of_figures);
    const MassFraction before = p.excess_water;
    p.excess_water = excess_water({.now = now.value(), .air_dry = air_dry.value()});
    // Where nothing is known of its moisture, only what is excess is.
    if (p.oil_absorption && !own.oil_absorption)
        p.oil_absorption = oil_absorption_at(*p.oil_absorption, of_figures, now.value());
    if (p.oil_absorption_belief && !own.oil_absorption)
        p.oil_absorption_belief = {oil_absorption_at(p.oil_absorption_belief->reading, of_figures, now.value()),
                                   oil_absorption_at(p.oil_absorption_belief->expected, of_figures, now.value())};
    const bool damp = p.excess_water.value() > 0.0;
    const bool bone_dry = p.density_state == MoistureState::bone_dry;
    if (own.density && !bone_dry) {
        if (damp) p.density = scaled(p.density, without_excess(p.density.value(), p.excess_water));
    } else if (damp || !bone_dry) {
        const MassDensity figure = p.density.value();
        // Of the powder without its excess water, and bone dry.
        const MassFraction held = before.value() > 0.0 ? air_dry.value() : of_figures.value();
        const MassDensity dry = bone_dry ? figure : bone_dry_density(figure * complement(before).value(), held);
        const MassDensity as_it_lies = damp ? moist_density(dry, air_dry.value()) / complement(p.excess_water).value()
                                            : moist_density(dry, now.value());
        p.density = scaled(p.density, as_it_lies / figure);
        p.density_state = MoistureState::as_weighed;
    }
    p.moisture = now;
    p.air_dry_moisture = air_dry;
    return p;
}

} // namespace lakebound
