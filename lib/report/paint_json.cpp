#include "paint_json.hpp"

#include "lakebound/paint/layers.hpp"

namespace lakebound::json_pieces {

namespace {

Json pigment_json(const PigmentPart& part, Known known) {
    const auto& pigment = part.pigment;
    Json json{{"id", pigment.id},
              {"name", pigment.name},
              {"class", word_of(pigment.pigment_class)},
              {"mass_fraction", part.share.value()}};
    if (known.density) {
        json["density_g_per_cm3"] = estimate_json(pigment.density, in_grams_per_cubic_centimetre);
        json["density_state"] = word_of(pigment.density_state);
    }
    if (known.oil_absorption) {
        json["oil_absorption_g_per_100g"] = estimate_json(pigment.oil_absorption.value(), in_grams_per_100_grams);
        json["test_oil_density_g_per_cm3"] =
            estimate_json(pigment.test_oil_density, in_grams_per_cubic_centimetre);
        if (part.step_from_oil < 1.0 || part.step_from_oil > 1.0) json["step_from_oil"] = part.step_from_oil;
        if (const auto& from = pigment.oil_absorption_belief)
            json["oil_absorption_from"] = {
                {"reading_g_per_100g", estimate_json(from->reading, in_grams_per_100_grams)},
                {"expected_g_per_100g", estimate_json(from->expected, in_grams_per_100_grams)}};
    }
    if (pigment.excess_water.value() > 0.0) json["excess_water"] = pigment.excess_water.value();
    if (pigment.moisture)
        json["moisture"] = estimate_json(*pigment.moisture, [](MassFraction x) { return x.value(); });
    return json;
}

Json watercolour_json(const BatchRequest& request, const Batch& batch, Known known) {
    const auto& extras = *batch.watercolour;
    Json json{{"humidity", request.bench.humidity.value()},
              {"held_water_ml", in_millilitres(batch.volumes.held_water)},
              {"soft_share", extras.soft_share.value()}};
    if (extras.plasticiser_ratio) json["plasticiser_ratio"] = *extras.plasticiser_ratio;
    if (known.oil_absorption) json["liquid_factor"] = extras.liquid_factor;
    if (known.density) json["pvc_in_room"] = extras.pvc_in_room.value();
    return json;
}

Json cured_json(Share oil_lost, const FilmState& film) {
    Json json{{"oil_lost", oil_lost.value()}};
    json.update(film_json(film));
    return json;
}

Json oil_json(const CuringLoss& loses, const Batch& batch, Known known) {
    Json json{{"binder_per_pigment", batch.oil->oil_per_pigment.value()}};
    if (known.density) json["oil_volume_fraction"] = oil_volume_fraction(batch.film.pvc).value();
    if (!known.density || !known.oil_absorption) return json;
    json["cured"] = Json::array({cured_json(loses.least, batch.oil->cured_low), cured_json(loses.most, batch.oil->cured_high)});
    return json;
}

} // namespace

Json film_json(const FilmState& film) {
    return {{"k", film.k.value()},
            {"pvc", film.pvc.value()},
            {"cpvc", film.cpvc.value()},
            {"reduced_pvc", film.reduced_pvc.value()},
            {"air_fraction", film.porosity.value()}};
}

Json film_json(const FilmState& film, const BatchChance& chance) {
    return {{"k", computed_json(film.k.value(), chance.k_uncertainty)},
            {"pvc", computed_json(film.pvc.value(), chance.pvc_uncertainty)},
            {"cpvc", computed_json(film.cpvc.value(), chance.cpvc_uncertainty)},
            {"reduced_pvc", computed_json(film.reduced_pvc.value(), chance.reduced_pvc_uncertainty)},
            {"air_fraction", film.porosity.value()}};
}

Json pigments_json(const Recipe& recipe, Known known) {
    Json list = Json::array();
    for (const auto& part : recipe.pigments)
        list.push_back(pigment_json(part, known));
    return list;
}

void add_process(Json& json, const BatchRequest& request, const Batch& batch, Known known) {
    if (batch.watercolour) json["watercolour"] = watercolour_json(request, batch, known);
    if (batch.oil) json["oil"] = oil_json(request.recipe.family.cured_oil_loses, batch, known);
    if (batch.tempera)
        json["egg_tempera"] = {{"yolk_g", in_grams(batch.tempera->yolk)},
                               {"medium_per_paste_g_per_g", batch.tempera->medium_per_paste},
                               {"yolk_ml", in_millilitres(batch.tempera->yolk_volume)},
                               {"eggs", batch.tempera->eggs},
                               {"medium_keeps_h", in_hours(batch.tempera->medium_keeps)},
                               {"paint_same_session", batch.tempera->paint_same_session}};
}

} // namespace lakebound::json_pieces
