#include "powder_json.hpp"

namespace lakebound::powder_json {

Json provenance(const Provenance& from) {
    Json json{{"origin", origin_words(from.origin)}};
    if (!from.source.empty()) json["source"] = from.source;
    json["library_default"] = from.library_default;
    return json;
}

Json computed(double value, double standard_uncertainty) {
    return {{"value", value},
            {"standard_uncertainty", standard_uncertainty},
            {"provenance", provenance({Origin::computed, "", false})}};
}

const char* reach_key(Reach reach) noexcept {
    switch (reach) {
    case Reach::within:
        return "within";
    case Reach::below_finest:
        return "below_finest";
    case Reach::above_coarsest:
        return "above_coarsest";
    }
    return "";
}

const char* model_key(SizeModel model) noexcept {
    switch (model) {
    case SizeModel::rosin_rammler:
        return "rosin_rammler";
    case SizeModel::gates_gaudin_schuhmann:
        return "gates_gaudin_schuhmann";
    case SizeModel::lognormal:
        return "lognormal";
    }
    return "";
}

Json residue_json(const Residue& residue, const std::optional<LossBounds>& with_loss) {
    Json json = computed(residue.share.value(), residue.standard_uncertainty);
    if (residue.repeatability > 0.0) json["repeatability"] = residue.repeatability;
    json["reach"] = reach_key(residue.reach);
    if (with_loss) json["with_loss"] = {{"low", with_loss->low}, {"high", with_loss->high}};
    return json;
}

Json passing_json(const PassingAt& passing) {
    return {{"passing", passing.passing.value()}, {"reach", reach_key(passing.reach)}};
}

Json target_json(const FinenessTarget& target) {
    const auto length = [](const Estimate<Length>& e) {
        return Json{{"value", in_micrometres(e.value())},
                    {"standard_uncertainty", in_micrometres(e.standard_uncertainty())},
                    {"provenance", provenance(e.provenance())}};
    };
    Json json;
    if (!target.id.empty()) json["family"] = target.id;
    json["name"] = target.name;
    json["residue_screen_um"] = in_micrometres(target.residue_screen);
    json["allowed_residue"] = {{"value", target.allowed_residue.value().value()},
                               {"standard_uncertainty", target.allowed_residue.standard_uncertainty().value()},
                               {"provenance", provenance(target.allowed_residue.provenance())}};
    json["grain_um"] = length(target.grain);
    json["dry_sieving_ends_um"] = length(target.dry_sieving_ends);
    json["wet_screening_ends_um"] = length(target.wet_screening_ends);
    return json;
}

Json cautions_json(PowderWork work) {
    Json json = Json::array();
    for (const auto& caution : powder_cautions(work))
        json.push_back({{"subject", caution.subject}, {"text", caution.text}});
    return json;
}

} // namespace lakebound::powder_json
