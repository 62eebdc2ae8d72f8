#include "powder_json.hpp"

namespace lakebound::powder_json {

Json residue_json(const Residue& residue, const std::optional<LossBounds>& with_loss) {
    Json json = computed_json(residue.share.value(), residue.standard_uncertainty);
    if (residue.repeatability > 0.0) json["repeatability"] = residue.repeatability;
    json["reach"] = key_of(residue.reach);
    if (with_loss) json["with_loss"] = {{"low", with_loss->low}, {"high", with_loss->high}};
    return json;
}

Json passing_json(const PassingAt& passing) {
    return {{"passing", passing.passing.value()}, {"reach", key_of(passing.reach)}};
}

Json target_json(const FinenessTarget& target) {
    const auto length = [](const Estimate<Length>& e) {
        return Json{{"value", in_micrometres(e.value())},
                    {"standard_uncertainty", in_micrometres(e.standard_uncertainty())},
                    {"provenance", provenance_json(e.provenance())}};
    };
    Json json;
    if (!target.id.empty()) json["family"] = target.id;
    json["name"] = target.name;
    json["residue_screen_um"] = in_micrometres(target.residue_screen);
    json["allowed_residue"] = {{"value", target.allowed_residue.value().value()},
                               {"standard_uncertainty", target.allowed_residue.standard_uncertainty().value()},
                               {"provenance", provenance_json(target.allowed_residue.provenance())}};
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
