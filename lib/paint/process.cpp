#include "process_extras.hpp"

#include <cmath>

#include "lakebound/paint/cured_film.hpp"

namespace lakebound::detail {
namespace {

constexpr double of_rounding = 1e-9; // two eggs that the last bit says are three

WatercolourExtras watercolour_extras(const Recipe& recipe, const Batch& batch, RelativeHumidity room) {
    WatercolourExtras extras;
    Mass gum, plasticiser;
    each_ingredient(recipe, batch.composition, [&](const Ingredient& ingredient, Mass mass) {
        if (ingredient.role == Role::gum) gum += non_volatile_mass(ingredient, mass);
        if (ingredient.role == Role::plasticiser) plasticiser += non_volatile_mass(ingredient, mass);
    });
    if (gum.value() > 0.0) extras.plasticiser_ratio = plasticiser / gum;
    if (batch.volumes.dry_binder.value() > 0.0) {
        const SoftShareLimits& limits = recipe.family.soft_share;
        const auto damp =
            binder_at_humidity(sorbing_binder(recipe, batch.composition, batch.volumes.dry_binder), room);
        extras.soft_share = damp.soft_share;
        extras.soft_phase = soft_phase(damp.soft_share, limits);
        extras.pvc_in_room = pvc_at_humidity(batch.volumes.pigment, damp);
        if (extras.plasticiser_ratio && damp.soft_share > limits.good_to)
            if (const auto keep = plasticiser_to_keep(
                    sorbing_binder(recipe, batch.composition, batch.volumes.dry_binder), room, limits.good_to))
                extras.plasticiser_ratio_for_room = *extras.plasticiser_ratio * keep->value();
    }
    const Volume fills = batch.pigment * batch.formulation.effective_demand;
    extras.liquid_factor = (batch.volumes.wet - batch.volumes.pigment) / fills;
    return extras;
}

FilmState cured(const Recipe& recipe, const Batch& batch, Volume oil, Share shrinkage) {
    const Volume binder = batch.volumes.dry_binder - oil + cured_binder_volume(oil, shrinkage);
    FilmState film = batch.film;
    film.k = binder_sufficiency(binder, batch.pigment, batch.formulation.effective_demand);
    film.pvc = pigment_volume_concentration({.pigment = batch.volumes.pigment, .dry_binder = binder});
    film.reduced_pvc = reduced_pigment_volume_concentration(film.pvc, film.cpvc);
    film.porosity = film_porosity(film.k,
                                  critical_pigment_volume_concentration(batch.formulation.pigment.demand,
                                                                        batch.formulation.pigment.density),
                                  recipe.family.binder_index.value());
    return film;
}

OilExtras oil_extras(const Recipe& recipe, const Batch& batch) {
    Volume oil;
    Mass binder;
    each_ingredient(recipe, batch.composition, [&](const Ingredient& ingredient, Mass mass) {
        if (ingredient.role == Role::drying_oil) oil += dry_binder_volume(ingredient, mass);
        if (counts_as_binder(ingredient.role)) binder += non_volatile_mass(ingredient, mass);
    });
    const CuringLoss& loses = recipe.family.cured_oil_loses;
    return {MediumPerPigment::of(binder / batch.pigment), cured(recipe, batch, oil, loses.least),
            cured(recipe, batch, oil, loses.most)};
}

TemperaExtras tempera_extras(const Recipe& recipe, const Batch& batch) {
    TemperaExtras extras;
    double to_open = 0.0;
    each_ingredient(recipe, batch.composition, [&](const Ingredient& ingredient, Mass mass) {
        if (ingredient.role != Role::emulsion) return;
        extras.yolk += mass;
        if (const auto& egg = ingredient.in_one_egg) {
            extras.eggs_exact += mass / egg->usual;
            to_open += mass / egg->least;
        }
        extras.yolk_volume += mixed_volume(ingredient, mass);
    });
    const double eggs = std::ceil(to_open * (1.0 - of_rounding));
    if (!(eggs < 1e6)) throw_out_of_range("eggs", eggs, "", "below a million");
    extras.eggs = static_cast<int>(eggs);
    extras.medium_keeps = recipe.family.medium_keeps;
    extras.medium_per_paste = batch.medium / (batch.pigment + batch.working_water);
    return extras;
}

} // namespace

std::optional<RelativeHumidity> room_air(const BatchRequest& request) {
    if (!takes_water_from_air(request.recipe.family.process)) return std::nullopt;
    return request.bench.humidity;
}

void add_process_extras(const BatchRequest& request, Batch& batch) {
    switch (request.recipe.family.process) {
    case Process::watercolour:
        batch.watercolour = watercolour_extras(request.recipe, batch, request.bench.humidity);
        batch.watercolour->fluid = batch.watercolour->liquid_factor > request.practice.notice.fluid_paint;
        return;
    case Process::oil:
        batch.oil = oil_extras(request.recipe, batch);
        return;
    case Process::egg_tempera:
        batch.tempera = tempera_extras(request.recipe, batch);
        return;
    }
}

} // namespace lakebound::detail
