#include "lakebound/material/medium_properties.hpp"

#include <algorithm>

#include "lakebound/material/density.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

MassDensity positive(const Estimate<MassDensity>& density, const char* quantity) {
    if (!(density.value().value() > 0.0))
        throw_out_of_range(quantity, density.value().value(), "kg/m3", "above 0");
    return density.value();
}

double density_on_parts_basis(const Ingredient& ingredient) {
    if (ingredient.bulk_density) return positive(*ingredient.bulk_density, "bulk density").value();
    if (is_powder(ingredient))
        throw DomainError("bulk density of " + ingredient.id, "not given",
                          "a density, for a powder in parts by volume",
                          "give its bulk density, or the medium in parts by mass");
    return positive(ingredient.density, "density").value();
}

} // namespace

bool is_powder(const Ingredient& ingredient) {
    if (ingredient.bulk_density) return true;
    const Role role = ingredient.role;
    return (role == Role::gum || role == Role::protein || role == Role::wax || role == Role::salt) &&
           ingredient.non_volatile.value().value() >= 0.7;
}

bool is_liquid(const Ingredient& ingredient) {
    if (is_powder(ingredient)) return false;
    // Resin comes in lumps until it is dissolved; benzoate is a powder, clove oil and vinegar pour.
    const double stays = ingredient.non_volatile.value().value();
    return !(ingredient.role == Role::resin && stays > 0.9) &&
           !(ingredient.role == Role::preservative && stays > 0.5);
}

Mass non_volatile_mass(const Ingredient& ingredient, Mass as_supplied) {
    return as_supplied * ingredient.non_volatile.value();
}

Volume dry_binder_volume(const Ingredient& ingredient, Mass as_supplied) {
    const Mass stays = non_volatile_mass(ingredient, as_supplied);
    if (!counts_as_binder(ingredient.role) || !(ingredient.non_volatile.value().value() > 0.0)) return Volume();
    if (!ingredient.solids_density)
        throw DomainError("density of what stays of " + ingredient.id, "not given", "a density",
                          "give its solids_density");
    return stays / positive(*ingredient.solids_density, "density of the dry binder");
}

Volume mixed_volume(const Ingredient& ingredient, Mass as_supplied) {
    const MassFraction stays = ingredient.non_volatile.value();
    if (is_powder(ingredient) && stays.value() > 0.0 && ingredient.solids_density)
        return as_supplied * stays / positive(*ingredient.solids_density, "density of the dry solids") +
               as_supplied * complement(stays) / water_density();
    return as_supplied / positive(ingredient.density, "density");
}

Mass water_mass(const Ingredient& ingredient, Mass as_supplied) {
    const Mass leaves = as_supplied * (1.0 - ingredient.non_volatile.value().value());
    switch (ingredient.role) {
    case Role::solvent:
    case Role::drying_oil:
    case Role::resin:
    case Role::wax:
    case Role::preservative:
        return Mass();
    case Role::gum:
    case Role::plasticiser:
    case Role::emulsion:
    case Role::protein:
    case Role::water:
    case Role::wetting_agent:
    case Role::salt:
        return leaves;
    }
    return leaves;
}

std::vector<MassFraction> part_mass_fractions(const Medium& medium) {
    if (medium.parts.empty()) throw_out_of_range("number of parts of the medium", 0.0, "", "1 or more");
    std::vector<double> masses;
    double total = 0.0;
    for (const MediumPart& part : medium.parts) {
        if (!(part.parts > 0.0)) throw_out_of_range("parts in a medium", part.parts, "", "above 0");
        const double per_part =
            medium.basis == PartsBasis::volume ? density_on_parts_basis(part.ingredient) : 1.0;
        masses.push_back(part.parts * per_part);
        total += masses.back();
    }
    std::vector<MassFraction> fractions;
    for (const double m : masses)
        fractions.push_back(MassFraction::of(m / total));
    return fractions;
}

MediumProperties medium_properties(const Medium& medium) {
    MediumProperties p;
    p.parts = part_mass_fractions(medium);
    const Mass whole = kilograms(1.0);
    Mass stays, water, dry_gum, plasticiser;
    Volume mixed, binder, gum_volume, plasticiser_volume, yolk_volume;
    for (std::size_t i = 0; i < medium.parts.size(); ++i) {
        const Ingredient& ingredient = medium.parts[i].ingredient;
        const Mass mass = whole * p.parts[i];
        const Volume dry = dry_binder_volume(ingredient, mass);
        stays += non_volatile_mass(ingredient, mass);
        water += water_mass(ingredient, mass);
        mixed += mixed_volume(ingredient, mass);
        binder += dry;
        if (ingredient.role == Role::gum) {
            dry_gum += non_volatile_mass(ingredient, mass);
            gum_volume += dry;
        } else if (ingredient.role == Role::plasticiser) {
            plasticiser += non_volatile_mass(ingredient, mass);
            plasticiser_volume += dry;
        } else if (ingredient.role == Role::emulsion) {
            yolk_volume += mixed_volume(ingredient, mass);
        }
    }
    const auto share = [](Volume part, Volume of) {
        return of.value() > 0.0 ? part_of<VolumeFraction>(part, of) : VolumeFraction();
    };
    p.density = whole / mixed;
    p.non_volatile = part_of<MassFraction>(stays, whole);
    p.water = part_of<MassFraction>(water, whole);
    p.dry_binder = binder / whole;
    p.dry_binder_share = share(binder, mixed);
    if (dry_gum.value() > 0.0) p.plasticiser_ratio = plasticiser / dry_gum;
    p.gum_share = share(gum_volume, binder);
    p.plasticiser_share = share(plasticiser_volume, binder);
    p.yolk_volume_share = share(yolk_volume, mixed);
    return p;
}

} // namespace lakebound
