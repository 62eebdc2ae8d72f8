#include "lakebound/paint/formulation.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "lakebound/material/density.hpp"
#include "lakebound/material/moisture.hpp"
#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

// Additive i per unit pigment is alpha_i + beta_i M.
struct AdditiveLaw {
    std::vector<double> alpha, beta;
};

AdditiveLaw additive_law(const Recipe& recipe) {
    double of_medium = 0.0, of_pigment = 0.0, of_paint = 0.0;
    for (const Additive& a : recipe.additives) {
        const double dose = a.dose.value();
        (a.basis == DoseBasis::medium    ? of_medium
         : a.basis == DoseBasis::pigment ? of_pigment
                                         : of_paint) += dose;
    }
    if (!(of_paint < 1.0)) throw_out_of_range("additives as a share of the paint", of_paint, "", "below 1");
    if (!(recipe.working_water.value() >= 0.0))
        throw_out_of_range("working water per pigment", recipe.working_water.value(), "m3/kg", "0 or more");
    const double water = recipe.working_water.value() * water_density().value();
    // Whole paint per pigment: total = fixed + per_medium M.
    const double fixed = (1.0 + water + of_pigment) / (1.0 - of_paint);
    const double per_medium = (1.0 + of_medium) / (1.0 - of_paint);
    AdditiveLaw law;
    for (const Additive& a : recipe.additives) {
        const double dose = a.dose.value();
        switch (a.basis) {
        case DoseBasis::medium:
            law.alpha.push_back(0.0), law.beta.push_back(dose);
            break;
        case DoseBasis::pigment:
            law.alpha.push_back(dose), law.beta.push_back(0.0);
            break;
        case DoseBasis::paint:
            law.alpha.push_back(dose * fixed), law.beta.push_back(dose * per_medium);
            break;
        }
    }
    return law;
}

Mass sum(const std::vector<Mass>& masses) { return std::accumulate(masses.begin(), masses.end(), Mass()); }

Volume binder_volume(const Recipe& recipe, const Composition& c) {
    Volume binder;
    each_ingredient(recipe, c, [&](const Ingredient& i, Mass mass) { binder += dry_binder_volume(i, mass); });
    return binder;
}

void require_fit(const Recipe& recipe) {
    const Process process = recipe.family.process;
    if (const auto misfit = medium_misfit(recipe.medium, process))
        throw DomainError("medium", recipe.medium.id, "one that fits " + recipe.family.name,
                          misfit->part.empty() ? "take one with yolk in it"
                                               : misfit->part + " does not mix into such a paint");
    if (!shuns_water(process)) return;
    for (const PigmentPart& part : recipe.pigments)
        if (part.pigment.excess_water > recipe.family.most_excess_water) {
            const double percent = 100.0 * part.pigment.excess_water.value();
            throw DomainError("water in " + part.pigment.name + " beyond its air-dry state",
                              std::to_string(static_cast<int>(std::lround(percent))) + " % of the powder",
                              "at most " + fixed_text(100.0 * recipe.family.most_excess_water.value(), 0) +
                                  " % in an oil paint",
                              "dry it first: spread it thin and warm until its weight stands still, then weigh it anew");
        }
}

} // namespace

SorbingBinder sorbing_binder(const Recipe& recipe, const Composition& c, Volume dry_binder) {
    SorbingBinder s;
    s.dry_binder = dry_binder;
    each_ingredient(recipe, c, [&](const Ingredient& i, Mass mass) {
        const Mass dry = non_volatile_mass(i, mass);
        switch (sorption_of(i)) {
        case SorbsAs::gum:
            s.gum += dry;
            break;
        case SorbsAs::glycerol:
            s.glycerol += dry;
            break;
        case SorbsAs::sugar:
            s.sugar += dry;
            break;
        case SorbsAs::nothing:
            break;
        }
        if (i.role == Role::plasticiser) s.glycerol_and_sugar += dry_binder_volume(i, mass);
    });
    return s;
}

BinderSufficiency sufficiency_for(const Aim& aim, CriticalPigmentVolumeConcentration c) {
    if (const auto* k = std::get_if<BinderSufficiency>(&aim)) return *k;
    if (const auto* lambda = std::get_if<ReducedPigmentVolumeConcentration>(&aim))
        return binder_sufficiency(*lambda, c);
    if (const auto* pvc = std::get_if<PigmentVolumeConcentration>(&aim)) return binder_sufficiency(*pvc, c);
    throw DomainError("aim", "medium per pigment", "k, reduced PVC or PVC");
}

Aim aim_of(const Recipe& recipe) { return recipe.aim ? *recipe.aim : Aim(recipe.family.start); }

Formulation formulate(const Recipe& recipe, const Aim& aim) {
    require_fit(recipe);
    Formulation f;
    f.pigment = pigment_mixture(recipe.pigments);
    f.effective_demand = effective_demand(f.pigment.demand, recipe.family.binder_index.value());
    f.medium = medium_properties(recipe.medium);

    const AdditiveLaw law = additive_law(recipe);
    // Dry binder per pigment is constant + slope M.
    SpecificVolume constant, per_medium;
    for (std::size_t i = 0; i < recipe.additives.size(); ++i) {
        const SpecificVolume v = dry_binder_volume(recipe.additives[i].ingredient, kilograms(1.0)) / kilograms(1.0);
        constant += law.alpha[i] * v;
        per_medium += law.beta[i] * v;
    }
    const SpecificVolume slope = f.medium.dry_binder + per_medium;

    double medium = 0.0;
    if (const auto* given = std::get_if<MediumPerPigment>(&aim)) {
        medium = given->value();
        f.k = BinderSufficiency::of((constant + slope * medium) / f.effective_demand);
    } else {
        f.k =
            sufficiency_for(aim, critical_pigment_volume_concentration(f.effective_demand, f.pigment.density));
        if (!(f.k.value() > 0.0)) throw_out_of_range("binder sufficiency aimed at", f.k.value(), "", "above 0");
        if (!(slope.value() > 0.0))
            throw DomainError("dry binder in the medium", "0 mL/g", "above 0",
                              "choose a medium of which something stays in the film");
        medium = (f.k * f.effective_demand - constant) / slope;
        if (medium < 0.0)
            throw DomainError("binder brought by the additives alone", "more than the aim asks for",
                              "at most the binder that the aim asks for", "lower their dose or raise the aim");
    }
    f.medium_per_pigment = MediumPerPigment::of(medium);
    f.binder_from_medium = f.medium_per_pigment * f.medium.dry_binder;
    f.binder_from_additives = constant + f.medium_per_pigment * per_medium;
    return f;
}

Composition compose(const Recipe& recipe, const Formulation& formulation, Mass pigment) {
    if (!(pigment.value() >= 0.0)) throw_out_of_range("pigment mass", pigment.value(), "kg", "0 or more");
    Composition c;
    for (const PigmentPart& part : recipe.pigments)
        c.pigments.push_back(pigment * part.share);
    const MediumPerPigment medium = formulation.medium_per_pigment;
    for (const MassFraction share : formulation.medium.parts)
        c.medium_parts.push_back(pigment * (medium * share));
    const AdditiveLaw law = additive_law(recipe);
    for (std::size_t i = 0; i < recipe.additives.size(); ++i)
        c.additives.push_back(pigment * (law.alpha[i] + law.beta[i] * medium.value()));
    c.working_water = pigment * recipe.working_water * water_density();
    return c;
}

Mass excess_water(const Recipe& recipe, const Composition& c) {
    Mass water;
    for (std::size_t i = 0; i < c.pigments.size(); ++i)
        water += c.pigments[i] * recipe.pigments.at(i).pigment.excess_water;
    return water;
}
Mass total_pigment(const Composition& composition) { return sum(composition.pigments); }
Mass total_medium(const Composition& composition) { return sum(composition.medium_parts); }
Mass total_mass(const Composition& composition) {
    return sum(composition.pigments) + sum(composition.medium_parts) + sum(composition.additives) +
           composition.working_water;
}

PaintVolumes paint_volumes(const Recipe& recipe, const Composition& c,
                           std::optional<RelativeHumidity> humidity) {
    PaintVolumes v;
    for (std::size_t i = 0; i < c.pigments.size(); ++i)
        v.pigment += pigment_volume(c.pigments[i], as_weighed_density(recipe.pigments.at(i).pigment));
    v.dry_binder = binder_volume(recipe, c);
    v.wet = v.pigment + (c.working_water + excess_water(recipe, c)) / water_density();
    each_ingredient(recipe, c, [&](const Ingredient& i, Mass mass) { v.wet += mixed_volume(i, mass); });
    v.dry = v.pigment + v.dry_binder;
    if (!(v.wet.value() > 0.0)) throw_out_of_range("volume of the paint", v.wet.value(), "m3", "above 0");
    if (humidity && v.dry_binder.value() > 0.0)
        v.held_water = binder_at_humidity(sorbing_binder(recipe, c, v.dry_binder), *humidity).water_volume;
    v.cake = v.dry + v.held_water;
    // An oil whose solids density differs a hair from its density may "swell"; that is no shrinkage.
    v.dry_fraction = part_of<VolumeFraction>(v.cake, v.wet);
    v.shrinkage = complement(part_of<Share>(v.cake, v.wet));
    return v;
}

FilmState film_state(std::span<const PigmentInFilm> pigments, Volume dry_binder, BinderIndex index) {
    Mass mass;
    Volume volume, wanted;
    for (const PigmentInFilm& p : pigments) {
        mass += p.mass;
        volume += pigment_volume(p.mass, p.density);
        wanted += p.mass * p.demand;
    }
    if (!(mass.value() > 0.0)) throw_out_of_range("pigment mass", mass.value(), "kg", "above 0");
    const SpecificVolume demand = effective_demand(wanted / mass, index);
    FilmState film;
    film.k = binder_sufficiency(dry_binder, mass, demand);
    film.cpvc = critical_pigment_volume_concentration(demand, mass / volume);
    film.pvc = pigment_volume_concentration({.pigment = volume, .dry_binder = dry_binder});
    film.reduced_pvc = reduced_pigment_volume_concentration(film.pvc, film.cpvc);
    film.porosity =
        film_porosity(film.k, critical_pigment_volume_concentration(wanted / mass, mass / volume), index);
    return film;
}

FilmState film_state(const Recipe& recipe, const Composition& c) {
    std::vector<PigmentInFilm> pigments;
    for (std::size_t i = 0; i < c.pigments.size(); ++i) {
        const PigmentPart& part = recipe.pigments.at(i);
        pigments.push_back({c.pigments[i], as_weighed_density(part.pigment), demand_of(part)});
    }
    return film_state(pigments, binder_volume(recipe, c), recipe.family.binder_index.value());
}

} // namespace lakebound
