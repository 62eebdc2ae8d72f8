#include "lakebound/paint/pigment_mixture.hpp"

#include <vector>

#include "lakebound/material/density.hpp"

namespace lakebound {

PigmentMixture pigment_mixture(std::span<const PigmentPart> pigments) {
    if (pigments.empty()) throw_out_of_range("number of pigments", 0.0, "", "1 or more");
    std::vector<Component> components;
    SpecificVolume demand;
    for (const PigmentPart& part : pigments) {
        const Pigment& p = part.pigment;
        components.push_back({part.share, as_weighed_density(p)});
        demand += part.share.value() * binder_demand(p.oil_absorption.value(), p.test_oil_density.value());
    }
    return {demand, mixture_density(components)};
}

} // namespace lakebound
