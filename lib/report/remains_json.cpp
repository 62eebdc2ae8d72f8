#include "remains_json.hpp"

namespace lakebound::json_pieces {

namespace {

Json estimated_ph_json(const Estimate<Ph>& ph) {
    return estimate_json(ph, [](Ph x) { return x.value(); });
}

} // namespace

Json remains_json(const LakeRemains& lake, const JarRemains& remains) {
    Json json = Json::object();
    if (lake.ph) {
        json["ph"] = estimated_ph_json(*lake.ph);
        json["preservatives"] = Json::array();
        for (const PreservativeInPaint& each : remains.preservatives)
            json["preservatives"].push_back({{"ingredient", each.part.ingredient}, {"works_as", key_of(each.part.acid)}, {"in_paint", each.part.in_paint},
                                             {"active", each.active.value()}, {"chance_dead", each.dead.value()}});
    }
    if (remains.alkaline) json["chance_alkaline"] = remains.alkaline->value();
    if (lake.salts) json["salts"] = estimate_json(*lake.salts, [](MassFraction x) { return x.value(); });
    if (remains.salts) {
        json["salts_of_pigment"] = remains.salts->of_pigment.value();
        json["salts_borne"] = remains.salts->borne.value();
        json["chance_of_too_many_salts"] = remains.salts->too_many.value();
    }
    return json;
}

Json colour_json(const ColourRecord& colour) {
    Json json = Json::object();
    if (!colour.hue.empty()) json["hue"] = colour.hue;
    if (colour.swatch) json["swatch"] = *colour.swatch;
    if (colour.strike) json["strike_ph"] = estimated_ph_json(*colour.strike);
    return json;
}

} // namespace lakebound::json_pieces
