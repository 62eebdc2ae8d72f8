#include "lakebound/paint/pigment_mixture.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "lakebound/material/density.hpp"

namespace lakebound {

SpecificVolume demand_of(const PigmentPart& part) {
    const Pigment& p = part.pigment;
    return binder_demand(p.oil_absorption.value().value(), p.test_oil_density.value()) * part.step_from_oil;
}

PigmentMixture pigment_mixture(std::span<const PigmentPart> pigments) {
    if (pigments.empty()) throw_out_of_range("number of pigments", 0.0, "", "1 or more");
    std::vector<Component> components;
    SpecificVolume demand;
    for (const PigmentPart& part : pigments) {
        const Pigment& p = part.pigment;
        components.push_back({part.share, as_weighed_density(p)});
        demand += part.share.value() * demand_of(part);
    }
    return {demand, mixture_density(components)};
}

std::vector<PigmentPart> as_weighed_shares(std::vector<PigmentPart> pigments) {
    const auto damp = [](const PigmentPart& part) { return part.pigment.excess_water.value() > 0.0; };
    if (std::none_of(pigments.begin(), pigments.end(), damp)) return pigments;
    const auto as_weighed = [](const PigmentPart& part) {
        return part.share.value() / complement(part.pigment.excess_water).value();
    };
    double total = 0.0;
    for (const PigmentPart& part : pigments)
        total += as_weighed(part);
    for (PigmentPart& part : pigments)
        part.share = MassFraction::of(std::min(1.0, as_weighed(part) / total));
    return pigments;
}

Pigment pigment_of_blend(std::span<const PigmentPart> pigments, const Estimate<OilAbsorption>& oil_absorption,
                         const Estimate<MassDensity>& test_oil_density) {
    const MassDensity density = pigment_mixture(pigments).density;
    Pigment blend;
    blend.id = "blend";
    double variance = 0.0;
    for (const PigmentPart& part : pigments) {
        const Pigment& p = part.pigment;
        blend.name += (blend.name.empty() ? "" : " + ") + p.name;
        const double by_volume = part.share.value() * (density / as_weighed_density(p));
        variance += std::pow(by_volume * p.density.relative_uncertainty(), 2);
        for (const Hazard hazard : p.hazards)
            if (std::find(blend.hazards.begin(), blend.hazards.end(), hazard) == blend.hazards.end())
                blend.hazards.push_back(hazard);
    }
    double excess = 0.0;
    for (const PigmentPart& part : pigments)
        excess += part.share.value() * part.pigment.excess_water.value();
    blend.excess_water = MassFraction::of(std::min(1.0, excess));
    blend.density = Estimate<MassDensity>::normal(density, density * std::sqrt(variance),
                                                  {Origin::computed, "densities of its pigments", false});
    blend.oil_absorption = oil_absorption;
    blend.test_oil_density = test_oil_density;
    return blend;
}

} // namespace lakebound
